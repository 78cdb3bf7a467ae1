// Checks every page and every LaTeX source of a folder: node check.mjs FOLDER
import { mkdir, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { launch } from "./lib/browser.mjs";
import { checkFile, eachOf } from "./lib/checks.mjs";

// The first lines of a rule tell what is wrong; a hundred more would hide the rest.
const perRule = 6;

function tell(name, findings) {
	const count = {};
	for (const f of findings) {
		count[f.rule] = (count[f.rule] || 0) + 1;
		if (count[f.rule] <= perRule) console.log(`${name}: ${f.rule}: ${f.text}`);
	}
	for (const [rule, n] of Object.entries(count)) {
		if (n > perRule) console.log(`${name}: ${rule}: and ${n - perRule} more of these`);
	}
}

const started = Date.now();
const folder = resolve(process.argv[2]);
const names = (await readdir(folder)).filter((n) => /\.(html|tex)$/.test(n)).sort();
if (names.length === 0) {
	console.log(`nothing to check: no *.html and no *.tex in ${process.argv[2]}`);
	process.exit(1);
}

// Pictures are for people: they are taken only where someone asked for them.
const pictures = Boolean(process.env.PAGES_OUT);
const out = pictures ? resolve(process.env.PAGES_OUT) : await mkdtemp(join(tmpdir(), "pages-"));
await mkdir(out, { recursive: true });

const browser = names.some((n) => n.endsWith(".html")) ? await launch() : null;
const results = await eachOf(names, (n) => checkFile(browser, join(folder, n), out, pictures));
await browser?.close();

let bad = 0;
names.forEach((n, i) => {
	if (results[i].length) bad++;
	tell(n, results[i]);
});
if (pictures) console.log(`screenshots and PDFs: ${out}`);
else await rm(out, { recursive: true, force: true });
console.log(`${names.length} files in ${((Date.now() - started) / 1000).toFixed(1)} s`);
console.log(`pages: ${names.length - bad} passed, ${bad} failed`);
process.exit(bad ? 1 : 0);
