// Accessibility by axe-core, in the light and the dark colour scheme, and the colours of
// drawings, which it leaves out.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { checkContrast } from "./drawing.mjs";

const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

async function analyse(page) {
	// Without preloading, or it would ask for the page's style sheets itself.
	const r = await window.axe.run(document, { resultTypes: ["violations"], preload: false });
	return r.violations.map((v) => ({
		id: v.id,
		help: v.help,
		nodes: v.nodes.map((n) => n.target.flat().join(" ")),
	}));
}

export async function checkAccess(page) {
	const out = [];
	for (const colorScheme of ["light", "dark"]) {
		await page.emulateMedia({ media: "screen", colorScheme });
		out.push(...(await checkContrast(page)).map((f) => ({ rule: f.rule, text: `${f.text} (${colorScheme})` })));
		if (!(await page.evaluate(() => Boolean(window.axe)))) await page.evaluate(source);
		for (const v of await page.evaluate(analyse)) {
			const more = v.nodes.length > 1 ? ` and ${v.nodes.length - 1} more` : "";
			out.push({ rule: "access-" + colorScheme, text: `${v.help} [${v.id}]: ${v.nodes[0]}${more}` });
		}
	}
	await page.emulateMedia({ media: "screen", colorScheme: "light" });
	return out;
}
