// Proves that the checks can fail: the good samples pass, and every planted
// defect is found under its own name and brings no false alarm with it.
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { launch } from "./lib/browser.mjs";
import { checkFile, eachOf } from "./lib/checks.mjs";
import { inLatex, inPages } from "./samples/defects.mjs";

const started = Date.now();
const samples = join(dirname(fileURLToPath(import.meta.url)), "samples");
const folder = await mkdtemp(join(tmpdir(), "pages-selftest-"));

function plant(good, defect) {
	let text = good;
	for (const [from, to] of [[defect.from, defect.to], ...(defect.extra ? [defect.extra] : [])]) {
		if (!text.includes(from)) throw new Error(`the sample no longer has: ${from}`);
		text = text.replace(from, () => to);
	}
	return text;
}

async function cases() {
	const list = [];
	for (const [kind, defects] of [["html", inPages], ["tex", inLatex]]) {
		const good = await readFile(join(samples, "porch-swing." + kind), "utf8");
		list.push({ file: "good." + kind, text: good, rule: null, allowed: new Set() });
		defects.forEach((d, i) => list.push({
			file: `${String(i + 1).padStart(2, "0")}-${d.rule}.${kind}`,
			text: plant(good, d), rule: d.rule, allowed: new Set([d.rule, ...(d.also || [])]),
		}));
	}
	return list;
}

// verdict says what is wrong with the checks' answer, nothing if it is right.
function verdict(c, findings) {
	const stray = findings.filter((f) => !c.allowed.has(f.rule)).map((f) => `a false alarm: ${f.rule}: ${f.text}`);
	if (c.rule && !findings.some((f) => f.rule === c.rule)) stray.unshift(`the planted defect ${c.rule} was not found`);
	return stray;
}

const list = await cases();
const browser = await launch();
let bad = 0;
try {
	const results = await eachOf(list, async (c) => {
		await writeFile(join(folder, c.file), c.text);
		return checkFile(browser, join(folder, c.file), folder, false);
	});
	list.forEach((c, i) => {
		const wrong = verdict(c, results[i]);
		if (wrong.length) bad++;
		for (const w of wrong) console.log(`${c.file}: ${w}`);
		if (process.env.VERBOSE) for (const f of results[i]) console.log(`   ${c.file}: ${f.rule}: ${f.text}`);
	});
} finally {
	await browser.close();
	await rm(folder, { recursive: true, force: true });
}
console.log(`self-test in ${((Date.now() - started) / 1000).toFixed(1)} s`);
console.log(`selftest: ${list.length - bad} passed, ${bad} failed`);
process.exit(bad ? 1 : 0);
