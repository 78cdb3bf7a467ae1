// What a reader without eyes or mouse relies on: language, title, headings in
// order, and regions that scroll with the keyboard.

function outline() {
	const { words } = window.pageChecks;
	const out = [];
	const lang = document.documentElement.getAttribute("lang") || "";
	if (!/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/.test(lang)) out.push({ rule: "lang", text: `<html> says lang="${lang}"; a language such as "en" must stand there` });
	if (!words(document.title)) out.push({ rule: "title", text: "the page has no title" });
	const heads = [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")];
	const ones = heads.filter((h) => h.localName === "h1").length;
	if (ones !== 1) out.push({ rule: "heading-order", text: `the page has ${ones} headings h1 and needs one` });
	let last = 0;
	for (const h of heads) {
		const level = Number(h.localName[1]);
		if (level > last + 1) out.push({ rule: "heading-order", text: `“${words(h.textContent)}” is an ${h.localName} after ${last ? "an h" + last : "nothing"}` });
		last = level;
	}
	for (const part of document.querySelectorAll("section.part")) {
		if (!part.querySelector("h2, h3, h4, h5, h6")) out.push({ rule: "part-heading", text: "a part has no heading: “" + words(part.textContent).slice(0, 40) + "…”" });
	}
	return out;
}

// scripts: a page for print works without any; so none may be there, not even
// one that does nothing when it is checked.
function scripts() {
	const out = [];
	for (const el of document.querySelectorAll("*")) {
		if (el.localName === "script") out.push({ rule: "script", text: "the page has a <script>" });
		for (const a of el.attributes) {
			if (/^on/i.test(a.name)) out.push({ rule: "script", text: `<${el.localName}> has a script in ${a.name}=` });
			if (/^\s*javascript:/i.test(a.value)) out.push({ rule: "script", text: `<${el.localName}> has a script in ${a.name}=` });
		}
	}
	return out;
}

export const checkOutline = async (page) => [...(await page.evaluate(outline)), ...(await page.evaluate(scripts))];

function unfocusable() {
	const { scrollers, name } = window.pageChecks;
	const out = [];
	for (const el of scrollers()) {
		if (el.tabIndex < 0 || !el.hasAttribute("tabindex")) out.push(`${name(el)} scrolls but has no tabindex="0", so no key reaches it in every browser`);
		el.dataset.pageChecksScroller = "";
	}
	return out;
}

function focused() {
	const el = document.activeElement;
	if (!el || el === document.body || el.dataset.pageChecksSeen !== undefined) return null;
	el.dataset.pageChecksSeen = "";
	const s = getComputedStyle(el);
	const shown = (s.outlineStyle !== "none" && parseFloat(s.outlineWidth) > 0) || s.boxShadow !== "none";
	return { name: window.pageChecks.name(el), shown };
}

function unreached() {
	const { name } = window.pageChecks;
	const left = [...document.querySelectorAll("[data-page-checks-scroller][tabindex]")].filter((el) => el.dataset.pageChecksSeen === undefined);
	return left.map((el) => `${name(el)} scrolls but the Tab key never gets there`);
}

function forget() {
	for (const el of document.querySelectorAll("[data-page-checks-scroller], [data-page-checks-seen]")) {
		delete el.dataset.pageChecksScroller;
		delete el.dataset.pageChecksSeen;
		el.scrollLeft = 0;
	}
	document.activeElement?.blur?.();
	window.scrollTo(0, 0);
}

// checkKeyboard presses Tab through the page as a reader would.
export async function checkKeyboard(page, where) {
	const out = (await page.evaluate(unfocusable)).map((text) => ({ rule: "scroll-focus", text: `${text} (${where})` }));
	for (let i = 0; i < 200; i++) {
		await page.keyboard.press("Tab");
		const at = await page.evaluate(focused);
		if (!at) break;
		if (!at.shown) out.push({ rule: "focus-shown", text: `${at.name} has the focus and nothing shows it (${where})` });
	}
	out.push(...(await page.evaluate(unreached)).map((text) => ({ rule: "scroll-focus", text: `${text} (${where})` })));
	await page.evaluate(forget);
	return out;
}
