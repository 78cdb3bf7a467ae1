// Drawings: texts that can be read at every width, in the dark too, and a name for
// every curve and for every hatch.

// The least height of letters, in CSS pixels: on a screen, and on paper (9 pt).
const least = { screen: 11, paper: 12 };

// drawings runs in the page. A curve has the class "curve" and its name, beside it or in
// a key, "name"; a legend has a box of each fill with a name beside it.
function drawings(smallest) {
	const { quote } = window.pageChecks;
	const out = [];
	const looks = (el) => {
		const s = getComputedStyle(el);
		return [s.stroke, s.strokeWidth, s.strokeDasharray, s.fill].join(" ");
	};
	const distinct = (all) => new Set(all.map(looks)).size;
	for (const svg of document.querySelectorAll("svg")) {
		if (getComputedStyle(svg).display === "none") continue;
		const what = quote(svg.getAttribute("aria-label") || svg.querySelector("title")?.textContent || "a drawing");
		for (const text of svg.querySelectorAll("text")) {
			const m = text.getScreenCTM();
			const size = parseFloat(getComputedStyle(text).fontSize) * Math.hypot(m.a, m.b);
			if (size < smallest - 0.2) {
				out.push({ rule: "drawing-small", text: `${quote(text.textContent)} in ${what} is ${size.toFixed(1)} px high` });
				break;
			}
		}
		const names = [...svg.querySelectorAll("text.name")].map((t) => t.getBoundingClientRect());
		const curves = distinct([...svg.querySelectorAll("path.curve")]);
		if (curves > 1 && names.length < curves) {
			out.push({ rule: "drawing-legend", text: `${what} has ${curves} curves and ${names.length} names` });
		}
		const bars = [...svg.querySelectorAll("rect:not([stroke-dasharray])")].filter((r) => getComputedStyle(r).stroke !== "none");
		const told = bars.filter((r) => {
			const b = r.getBoundingClientRect();
			return names.some((n) => n.left > b.right && n.left < b.right + 12 && n.top < b.bottom && n.bottom > b.top);
		});
		if (distinct(bars) > 1 && distinct(told) < distinct(bars)) {
			out.push({ rule: "drawing-hatch", text: `${what} has ${distinct(bars)} fills of bars, and its legend tells ${distinct(told)}` });
		}
	}
	return out;
}

export async function checkDrawings(page, where, onPaper = false) {
	const found = await page.evaluate(drawings, onPaper ? least.paper : least.screen);
	return found.map((f) => ({ rule: f.rule, text: `${f.text} (${where})` }));
}

// contrasts runs in the page: the ratio of luminances by WCAG 2.2, 1.4.3 for texts and
// 1.4.11 for lines. Lines that are faint on purpose, as those of a grid, are left out.
function contrasts() {
	const { quote } = window.pageChecks;
	const out = [];
	const rgb = (color) => color.match(/[\d.]+/g).map(Number);
	const luminance = (color) => {
		const [r, g, b] = rgb(color).map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const behind = (el) => {
		for (let e = el; e; e = e.parentElement) {
			const c = getComputedStyle(e).backgroundColor;
			if ((rgb(c)[3] ?? 1) > 0) return c;
		}
		return "rgb(255, 255, 255)";
	};
	const ratio = (a, b) => {
		const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
		return (high + 0.05) / (low + 0.05);
	};
	for (const svg of document.querySelectorAll("svg")) {
		if (getComputedStyle(svg).display === "none") continue;
		const ground = behind(svg);
		for (const el of svg.querySelectorAll("text, path, rect, circle")) {
			const s = getComputedStyle(el);
			const text = el.localName === "text";
			const ink = text ? s.fill : s.stroke;
			if (el.closest("pattern") || !/^rgb/.test(ink) || (!text && parseFloat(s.strokeOpacity) < 1)) continue;
			const r = ratio(ink, ground);
			if (r >= (text ? 4.5 : 3)) continue;
			out.push({ rule: "drawing-contrast", text: `${text ? quote(el.textContent) : `<${el.localName}>`} has ${ink} on ${ground}, a contrast of ${r.toFixed(1)}` });
			break;
		}
	}
	return out;
}

export const checkContrast = (page) => page.evaluate(contrasts);
