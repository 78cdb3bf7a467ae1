// The page on paper: a real PDF is made at both sizes, and small marks at the
// beginning and end of everything that must stay together show in which of its
// pages they came to lie.
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { measure } from "./layout.mjs";

const run = promisify(execFile);

export const papers = [
	{ name: "A4", width: 794, height: 1123 },
	{ name: "Letter", width: 816, height: 1056 },
];

// margins runs in the page: those of @page in CSS pixels, else what browsers use.
function margins() {
	const m = { top: 38, right: 38, bottom: 38, left: 38, set: false };
	const probe = document.createElement("div");
	document.body.append(probe);
	const px = (v) => {
		probe.style.cssText = "position:absolute;visibility:hidden;width:" + v;
		return parseFloat(getComputedStyle(probe).width) || 0;
	};
	const read = (rules) => {
		for (const r of rules) {
			if (r instanceof CSSMediaRule && matchMedia(r.media.mediaText).matches) read(r.cssRules);
			if (!(r instanceof CSSPageRule) || r.selectorText) continue;
			for (const side of ["top", "right", "bottom", "left"]) {
				const v = r.style.getPropertyValue("margin-" + side);
				if (v) {
					m[side] = px(v);
					m.set = true;
				}
			}
		}
	};
	for (const sheet of document.styleSheets) {
		// A sheet from elsewhere can't be read; that it was asked for is found anyway.
		try {
			read(sheet.cssRules);
		} catch {
			continue;
		}
	}
	probe.remove();
	return m;
}

// mark runs in the page. It puts a mark at the start and end of each piece and
// gives what each pair stands for; room is the height that a page offers.
function mark(room) {
	const { name } = window.pageChecks;
	const pieces = [];
	const found = [];
	const put = (el, id, edge) => {
		const s = document.createElement("span");
		s.textContent = id;
		s.className = "page-checks-mark";
		s.style.cssText = `all: initial; position: absolute; ${edge}: 0; left: 0; font: 3px/3px sans-serif; color: #888; white-space: nowrap`;
		el.append(s);
		if (getComputedStyle(el).position === "static") el.style.position = "relative";
	};
	const add = (rule, first, last, what) => {
		const id = "zq" + pieces.length + "q";
		put(first, id + "s", "top");
		put(last, id + "e", first === last ? "bottom" : "top");
		const top = first.getBoundingClientRect().top;
		pieces.push({ id, rule, what, height: last.getBoundingClientRect().bottom - top });
	};
	// The parts of a key flow on; on a handout each is whole.
	const whole = document.body.matches(".key") ? "" : "section.part, ";
	const kept = [...document.querySelectorAll(whole + ".answer, figure, .working li:last-child")];
	for (const el of kept) {
		const height = el.getBoundingClientRect().height;
		if (height === 0) continue;
		const part = el.matches("section.part");
		if (height > room) {
			if (!part) found.push({ rule: "part-break", text: `${name(el)} is ${Math.round(height)} px high and a page has ${Math.round(room)} px` });
			continue;
		}
		const inside = getComputedStyle(el).breakInside;
		if (part && !/^avoid/.test(inside)) found.push({ rule: "part-break-style", text: `${name(el)} has break-inside: ${inside} in print, where avoid must stand` });
		add("part-break", el, el, name(el));
	}
	for (const answer of document.querySelectorAll(".working + .answer")) {
		const lines = answer.previousElementSibling.querySelectorAll("li");
		if (lines.length > 0) add("answer-alone", lines[lines.length - 1], answer, name(answer) + " with the last lines above it");
	}
	for (const h of document.querySelectorAll("h1, h2, h3, h4, h5, h6")) {
		const next = h.nextElementSibling;
		if (next && next.getBoundingClientRect().height > 0 && !/^(table|math|svg|tr|ul|ol|dl)$/.test(next.localName)) add("heading-alone", h, next, name(h));
	}
	return { pieces, found };
}

function unmark() {
	for (const s of document.querySelectorAll(".page-checks-mark")) {
		s.parentElement.style.removeProperty("position");
		s.remove();
	}
}

// wordsOf reads the pages' words and their places with pdftotext.
async function wordsOf(pdf) {
	const { stdout } = await run("pdftotext", ["-bbox", pdf, "-"], { maxBuffer: 1 << 28 });
	return stdout.split(/<page /).slice(1).map((p) => {
		const [, width, height] = p.match(/width="([\d.]+)" height="([\d.]+)"/);
		const words = [...p.matchAll(/<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g)];
		return {
			width: Number(width), height: Number(height),
			words: words.map(([, x0, y0, x1, y1, text]) => ({ x0: Number(x0), y0: Number(y0), x1: Number(x1), y1: Number(y1), text })),
		};
	});
}

const markPattern = /zq\d+q[se]/g;

// The least part of a page that is filled, unless what comes next did not fit.
const filled = 0.6;

// loose gives the pages of a key that end early though the next piece had room.
function loose(pages, pieces, at, paper) {
	const out = [];
	pages.slice(0, -1).forEach((p, i) => {
		const words = p.words.filter((w) => w.text.replace(markPattern, ""));
		const end = Math.max(...words.map((w) => w.y1));
		if (end >= filled * p.height) return;
		const room = (p.height - end) / 0.75 - 100; // in CSS pixels, without the margin below
		if (pieces.some((piece) => at.get(piece.id + "s") === i + 2 && piece.height > room)) return;
		out.push({ rule: "page-fill", text: `page ${i + 1} of ${pages.length} ends after ${Math.round((100 * end) / p.height)} % (${paper})` });
	});
	return out;
}

function judge(pages, pieces, paper, flows) {
	const out = [];
	const at = new Map();
	pages.forEach((p, i) => {
		for (const w of p.words) {
			for (const m of w.text.match(markPattern) || []) at.set(m, i + 1);
			if (w.x1 > p.width + 1 || w.x0 < -1 || w.y1 > p.height + 1 || w.y0 < -1) {
				out.push({ rule: "paper-edge", text: `“${w.text}” runs over the edge of page ${i + 1} (${paper})` });
			}
		}
		if (!p.words.some((w) => w.text.replace(markPattern, ""))) out.push({ rule: "page-empty", text: `page ${i + 1} of ${pages.length} is empty (${paper})` });
	});
	for (const piece of pieces) {
		const from = at.get(piece.id + "s");
		const to = at.get(piece.id + "e");
		if (!from || !to) {
			out.push({ rule: "paper-edge", text: `${piece.what}, or what follows it, lies off the paper (${paper})` });
		} else if (from !== to) {
			const what = piece.rule === "heading-alone" ? "stands on page F and what follows it on page T" : "begins on page F and ends on page T";
			out.push({ rule: piece.rule, text: `${piece.what} ${what.replace("F", from).replace("T", to)} (${paper})` });
		}
	}
	return flows ? [...out, ...loose(pages, pieces, at, paper)] : out;
}

// checkPrint measures the page as it is set for each paper, takes its picture,
// and looks at where its pieces lie in the PDF. base is the output files' beginning;
// without pictures only what can be wrong is looked at.
export async function checkPrint(page, base, pictures) {
	const out = [];
	await page.emulateMedia({ media: "print", colorScheme: "light" });
	const flows = await page.evaluate(() => document.body.matches(".key"));
	for (const paper of papers) {
		const m = await page.evaluate(margins);
		const width = Math.floor(paper.width - m.left - m.right);
		const room = paper.height - m.top - m.bottom;
		await page.setViewportSize({ width: paper.width, height: paper.height });
		if (pictures) await page.screenshot({ path: `${base}-${paper.name}-whole.png`, fullPage: true });
		await page.setViewportSize({ width, height: Math.floor(room) });
		out.push(...(await measure(page, paper.name + " paper", true)));
		const { pieces, found } = await page.evaluate(mark, room);
		out.push(...found.map((f) => ({ rule: f.rule, text: `${f.text} (${paper.name})` })));
		const side = m.set ? undefined : "10mm";
		const marked = `${base}-${paper.name}.marked.pdf`;
		const options = { format: paper.name, printBackground: true, margin: side && { top: side, right: side, bottom: side, left: side } };
		await page.pdf({ ...options, path: marked });
		await page.evaluate(unmark);
		await page.pdf({ ...options, path: `${base}-${paper.name}.pdf` });
		if (pictures) await run("pdftoppm", ["-r", "96", "-png", `${base}-${paper.name}.pdf`, `${base}-${paper.name}-page`]);
		const [words, plain] = await Promise.all([wordsOf(marked), wordsOf(`${base}-${paper.name}.pdf`)]);
		out.push(...judge(words, pieces, paper.name, flows));
		if (plain.length !== words.length) out.push({ rule: "part-break", text: `the marks changed the number of pages (${paper.name})` });
		await run("rm", ["-f", marked]);
	}
	return out;
}
