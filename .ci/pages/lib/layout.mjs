// Boxes on the screen and on paper: nothing wider than its page, no text over
// another, no text cut off.
import { checkDrawings } from "./drawing.mjs";

// overflow runs in the page.
function overflow() {
	const { name, hiddenOnPurpose, scrolls } = window.pageChecks;
	const out = [];
	const root = document.scrollingElement;
	const width = window.innerWidth;
	if (root.scrollWidth > width) {
		out.push({ rule: "page-wide", text: `the page is ${root.scrollWidth} px wide in a window of ${width} px` });
	}
	const inScroller = (el) => {
		for (let e = el.parentElement; e && e !== document.body; e = e.parentElement) {
			if (scrolls(e).x) return true;
		}
		return false;
	};
	const seen = new Set();
	for (const el of document.body.querySelectorAll("*")) {
		// What is drawn inside a graph is cut at the graph's own edge.
		if (el.ownerSVGElement || seen.has(el.parentElement)) {
			if (seen.has(el.parentElement)) seen.add(el);
			continue;
		}
		const r = el.getBoundingClientRect();
		if (r.width === 0 || (r.right <= width + 1 && r.left >= -1)) continue;
		if (inScroller(el) || hiddenOnPurpose(el)) continue;
		seen.add(el);
		out.push({ rule: "box-outside", text: `${name(el)} reaches from ${Math.round(r.left)} to ${Math.round(r.right)} px in a window of ${width} px` });
	}
	return out;
}

// overlaps runs in the page. Sorting by height keeps the comparison short.
function overlaps() {
	const { texts, quote } = window.pageChecks;
	const boxes = [];
	for (const t of texts()) {
		for (const r of t.rects) boxes.push({ ...r, t });
	}
	boxes.sort((a, b) => a.top - b.top);
	const out = [];
	const told = new Set();
	for (let i = 0; i < boxes.length; i++) {
		const a = boxes[i];
		for (let j = i + 1; j < boxes.length && boxes[j].top < a.bottom - 1; j++) {
			const b = boxes[j];
			if (a.t.owner === b.t.owner) continue;
			const x = Math.min(a.right, b.right) - Math.max(a.left, b.left);
			const y = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
			if (x <= 1 || y <= 1) continue;
			const text = `${quote(a.t.text)} and ${quote(b.t.text)} lie over each other by ${x.toFixed(1)} × ${y.toFixed(1)} px`;
			if (told.has(text)) continue;
			told.add(text);
			out.push({ rule: "text-overlap", text });
		}
	}
	return out;
}

// columns runs in the page: the cells of a table's column begin at one place.
function columns() {
	const { name } = window.pageChecks;
	const out = [];
	for (const table of document.querySelectorAll("table")) {
		if (getComputedStyle(table).display !== "table") continue; // its rows are laid out one by one
		const [first, ...rows] = [...table.rows].map((r) => [...r.cells].map((c) => c.getBoundingClientRect().left));
		if (rows.some((r) => r.length === first.length && r.some((x, i) => Math.abs(x - first[i]) > 1))) out.push({ rule: "table-columns", text: `the columns of ${name(table)} don't stand under each other` });
	}
	return out;
}

// cut runs in the page. On paper nothing scrolls, so there a region that would
// scroll cuts its text off too.
function cut(onPaper) {
	const { texts, quote, name } = window.pageChecks;
	const out = [];
	const hides = (v) => v === "hidden" || v === "clip" || (onPaper && (v === "auto" || v === "scroll"));
	const check = (t, r) => {
		for (let e = t.el; e && e !== document.body; e = e.parentElement) {
			const s = getComputedStyle(e);
			if (!onPaper && /auto|scroll/.test(s.overflowX + s.overflowY)) return null;
			const box = e.getBoundingClientRect();
			// A formula's or label's own inline box does not clip.
			if (s.display === "inline" && e.localName !== "svg") continue;
			if (e.ownerSVGElement) continue;
			if (hides(s.overflowX) && (r.left < box.left - 1 || r.right > box.right + 1)) return e;
			if (hides(s.overflowY) && (r.top < box.top - 1 || r.bottom > box.bottom + 1)) return e;
		}
		return null;
	};
	for (const t of texts()) {
		for (const r of t.rects) {
			const by = check(t, r);
			if (!by) continue;
			out.push({ rule: "text-cut", text: `${quote(t.text)} is cut off at the edge of ${by === t.el ? "its own box" : name(by)}` });
			break;
		}
	}
	return out;
}

// measure gives what is wrong with the boxes as the page now stands.
export async function measure(page, where, onPaper = false) {
	const found = [
		...(await page.evaluate(overflow)),
		...(await page.evaluate(overlaps)),
		...(await page.evaluate(columns)),
		...(await page.evaluate(cut, onPaper)),
	];
	const told = found.map((f) => ({ rule: f.rule, text: `${f.text} (${where})` }));
	return [...told, ...(await checkDrawings(page, where, onPaper))];
}
