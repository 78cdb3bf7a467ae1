// All checks of one file, and of several files at once.
import { readFile, stat } from "node:fs/promises";
import { cpus } from "node:os";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { checkAccess } from "./axe.mjs";
import { open } from "./browser.mjs";
import { measure } from "./layout.mjs";
import { checkLatex } from "./latex.mjs";
import { checkFormulas } from "./mathml.mjs";
import { checkPrint } from "./print.mjs";
import { checkKeyboard, checkOutline } from "./structure.mjs";
import { checkHTML } from "./validate.mjs";

// The narrowest phone that counts, and a desk's screen.
const widths = [360, 1280];

async function checkPage(browser, file, base, findings, pictures) {
	findings.push(...(await checkHTML(await readFile(file, "utf8"), basename(file))));
	const { page, close } = await open(browser, pathToFileURL(file).href, findings);
	try {
		findings.push(...(await checkOutline(page)), ...(await checkFormulas(page)));
		for (const width of widths) {
			await page.setViewportSize({ width, height: 800 });
			findings.push(...(await measure(page, `${width} px`)), ...(await checkKeyboard(page, `${width} px`)));
		}
		findings.push(...(await checkPrint(page, base, pictures)));
		await page.setViewportSize({ width: 1280, height: 900 });
		// Last, since the engine's own code then is in the page.
		findings.push(...(await checkAccess(page)));
	} finally {
		await close();
	}
}

// A page with an endless script would otherwise hold up everything.
const limit = Number(process.env.PAGES_LIMIT || 90);

function within(seconds, work) {
	let timer;
	const late = new Promise((_, fail) => {
		timer = setTimeout(() => fail(new Error(`it took longer than ${seconds} s`)), seconds * 1000);
	});
	return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

// checkFile gives what is wrong with a file: {rule, text} each, none if all is well.
// What was found before a check broke off is kept, and nothing is said twice.
export async function checkFile(browser, file, out, pictures = true) {
	const base = join(out, basename(file));
	const findings = [];
	try {
		if ((await stat(file)).size === 0) findings.push({ rule: "unreadable", text: "the file is empty" });
		else if (file.endsWith(".tex")) findings.push(...(await checkLatex(file, base)));
		else await within(limit, checkPage(browser, file, base, findings, pictures));
	} catch (e) {
		findings.push({ rule: "unreadable", text: `the check itself broke off: ${e.message.split("\n")[0]}` });
	}
	const told = new Set();
	return findings.filter((f) => !told.has(f.rule + f.text) && told.add(f.rule + f.text));
}

// eachOf does the work for every item, as many at a time as there are cores.
export async function eachOf(items, work) {
	const results = new Array(items.length);
	let next = 0;
	const worker = async () => {
		while (next < items.length) {
			const i = next++;
			results[i] = await work(items[i]);
		}
	};
	await Promise.all(Array.from({ length: Math.min(items.length, Math.max(2, cpus().length)) }, worker));
	return results;
}
