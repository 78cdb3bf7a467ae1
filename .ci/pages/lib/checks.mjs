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

async function checkPage(browser, file, base) {
	const findings = await checkHTML(await readFile(file, "utf8"), basename(file));
	const { page, close } = await open(browser, pathToFileURL(file).href, findings);
	try {
		findings.push(...(await checkOutline(page)), ...(await checkFormulas(page)));
		for (const width of widths) {
			await page.setViewportSize({ width, height: 800 });
			findings.push(...(await measure(page, `${width} px`)), ...(await checkKeyboard(page, `${width} px`)));
		}
		findings.push(...(await checkPrint(page, base)));
		await page.setViewportSize({ width: 1280, height: 900 });
		// Last, since the engine's own code then is in the page.
		findings.push(...(await checkAccess(page)));
	} finally {
		await close();
	}
	return findings;
}

// checkFile gives what is wrong with a file: {rule, text} each, none if all is well.
export async function checkFile(browser, file, out) {
	const base = join(out, basename(file));
	try {
		if ((await stat(file)).size === 0) return [{ rule: "unreadable", text: "the file is empty" }];
		return file.endsWith(".tex") ? await checkLatex(file, base) : await checkPage(browser, file, base);
	} catch (e) {
		return [{ rule: "unreadable", text: `the check itself broke off: ${e.message.split("\n")[0]}` }];
	}
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
