// The HTML standard's rules, checked on the text of the file.
import { HtmlValidate } from "html-validate";

const validator = new HtmlValidate({
	root: true,
	extends: ["html-validate:recommended", "html-validate:standard", "html-validate:document"],
	rules: {
		// Matters of taste that change nothing for a reader.
		"no-inline-style": "off",
		"no-trailing-whitespace": "off",
		"long-title": "off",
		// A table that scrolls may stand in any element that is named a region.
		"prefer-native-element": ["error", { exclude: ["region"] }],
	},
});

export async function checkHTML(text, file) {
	const report = await validator.validateString(text, file);
	return report.results.flatMap((r) => r.messages).map((m) => ({
		rule: "html",
		text: `line ${m.line}, column ${m.column}: ${m.message} [${m.ruleId}]`,
	}));
}
