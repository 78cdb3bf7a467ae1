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

// A page has at most so many defects.
const together = 4;

// apart tells whether two defects may be in one page: what finds one is not what finds
// the other.
const apart = (d, e) => !allowedBy(d).has(e.rule) && !allowedBy(e).has(d.rule);

const allowedBy = (d) => new Set([d.rule, ...(d.also || [])]);

// pagesOf puts the defects into as few pages as it may, each into the first that takes it.
// Those that move others to another sheet of paper are alone.
function pagesOf(good, defects) {
	const pages = [];
	for (const d of defects) {
		const room = pages.find((p) => !d.alone && !p.alone && p.defects.length < together && p.defects.every((e) => apart(d, e)) && [d.from, ...(d.extra || []).slice(0, 1)].every((t) => p.text.includes(t)));
		if (room) {
			room.text = plant(room.text, d);
			room.defects.push(d);
		} else {
			pages.push({ text: plant(good, d), defects: [d], alone: d.alone });
		}
	}
	return pages;
}

async function cases() {
	const list = [];
	for (const [kind, defects] of [["html", inPages], ["tex", inLatex]]) {
		const good = await readFile(join(samples, "porch-swing." + kind), "utf8");
		list.push({ file: "good." + kind, text: good, defects: [] });
		const pages = kind === "html" ? pagesOf(good, defects) : defects.map((d) => ({ text: plant(good, d), defects: [d] }));
		pages.forEach((p, i) => list.push({ file: `${String(i + 1).padStart(2, "0")}.${kind}`, text: p.text, defects: p.defects }));
	}
	return list;
}

// verdict says what is wrong with the checks' answer, nothing if it is right.
function verdict(c, findings) {
	const allowed = new Set(c.defects.flatMap((d) => [...allowedBy(d)]));
	const stray = findings.filter((f) => !allowed.has(f.rule)).map((f) => `a false alarm: ${f.rule}: ${f.text}`);
	const missed = c.defects.filter((d) => !findings.some((f) => f.rule === d.rule));
	return [...missed.map((d) => `the planted defect ${d.rule} was not found`), ...stray];
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
console.log(`selftest: ${inPages.length + inLatex.length} defects, ${list.length - bad} pages passed, ${bad} failed`);
process.exit(bad ? 1 : 0);
