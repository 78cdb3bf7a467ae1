// One headless browser for all pages, and a watch on what each page says or asks for.
import { chromium } from "playwright-core";
import { installHelpers } from "./inpage.mjs";

// launch starts the browser with a new, empty profile and without anything that
// would ask the network for something of its own accord.
export const launch = () =>
	chromium.launch({
		executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
		headless: true,
		chromiumSandbox: false,
		timeout: 60000,
		args: ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
	});

// open loads one file. What it logs, throws or asks for is added to findings;
// requests other than the file itself are refused.
export async function open(browser, url, findings, options = {}) {
	const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
	const page = await context.newPage();
	page.setDefaultTimeout(20000);
	await page.addInitScript(installHelpers);
	const refused = new Set();
	await page.route("**/*", (route) => {
		const asked = route.request().url();
		if (asked.split("#")[0] === url) return route.continue();
		refused.add(asked);
		findings.push({ rule: "request", text: `the page asks for ${asked}` });
		return route.abort();
	});
	page.on("console", (m) => {
		// That a refused request failed has been said already.
		if (refused.has(m.location().url)) return;
		findings.push({ rule: "console", text: `the browser's console says: ${m.text()}` });
	});
	page.on("pageerror", (e) => findings.push({ rule: "page-error", text: `an error in the page: ${e.message}` }));
	await page.goto(url, { waitUntil: "load" });
	return { page, close: () => context.close() };
}
