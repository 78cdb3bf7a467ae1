// What every measuring function needs inside the page: which elements show, how
// to name one in a message, and where text lies. It is run in the page before
// the page itself, so it must not refer to anything outside its own braces.

export function installHelpers() {
	const words = (s) => s.replace(/\s+/g, " ").trim();

	// name tells a reader which element is meant: its tag, id or classes, first words.
	const name = (el) => {
		const id = el.id ? "#" + el.id : "";
		const classes = id ? "" : [...el.classList].map((c) => "." + c).join("");
		const text = words(el.textContent || "");
		const start = text.length > 30 ? text.slice(0, 29) + "…" : text;
		return `<${el.localName}${id}${classes}>` + (start ? ` “${start}”` : "");
	};

	// hiddenOnPurpose: a box of a pixel or less is text for screen readers alone.
	const hiddenOnPurpose = (el) => {
		for (let e = el; e && e !== document.body; e = e.parentElement) {
			const r = e.getBoundingClientRect();
			const s = getComputedStyle(e);
			if (s.visibility === "hidden" || s.display === "none") return true;
			if (s.position === "absolute" && r.width <= 1.5 && r.height <= 1.5) return true;
		}
		return false;
	};

	const scrolls = (el) => {
		const s = getComputedStyle(el);
		return { x: /auto|scroll/.test(s.overflowX), y: /auto|scroll/.test(s.overflowY) };
	};

	const scrollers = () =>
		[...document.body.querySelectorAll("*")].filter((el) => {
			const s = scrolls(el);
			return (s.x && el.scrollWidth > el.clientWidth + 1) || (s.y && el.scrollHeight > el.clientHeight + 1);
		});

	const brush = document.createElement("canvas").getContext("2d");

	// ink narrows a text's line box to what its letters can blacken: the line box
	// has room above and below, and two of them may meet without harm.
	const ink = (rect, text, style) => {
		brush.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
		const m = brush.measureText(text);
		const all = m.fontBoundingBoxAscent + m.fontBoundingBoxDescent;
		if (!(all > 0)) return rect;
		const per = rect.height / all;
		const base = rect.top + m.fontBoundingBoxAscent * per;
		return {
			left: rect.left, right: rect.right,
			top: base - m.actualBoundingBoxAscent * per,
			bottom: base + m.actualBoundingBoxDescent * per,
		};
	};

	const turned = (el) => {
		const m = el.getScreenCTM && el.getScreenCTM();
		return Boolean(m) && (Math.abs(m.b) > 1e-6 || Math.abs(m.c) > 1e-6);
	};

	// owner is the block, the formula or the drawn label that a text belongs to.
	// Texts of one owner are set by one line breaker and are not compared.
	const owner = (el) => {
		const math = el.closest("math");
		if (math) return math;
		const label = el.closest("svg text");
		if (label) return label;
		let e = el;
		while (e !== document.body && /^(inline|contents|ruby)/.test(getComputedStyle(e).display)) e = e.parentElement;
		return e;
	};

	// texts gives every piece of visible text with its rectangles.
	const texts = () => {
		const found = [];
		const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		for (let node = walk.nextNode(); node; node = walk.nextNode()) {
			const el = node.parentElement;
			const text = words(node.data);
			if (!text || /^(style|script|title|desc|annotation|annotation-xml)$/.test(el.localName)) continue;
			if (hiddenOnPurpose(el)) continue;
			const range = document.createRange();
			range.selectNodeContents(node);
			const style = getComputedStyle(el);
			// A formula's token has its letters' own height already.
			const token = el.closest("math") ? el.getBoundingClientRect() : null;
			const clip = (r) => ({
				left: r.left, right: r.right,
				top: token ? Math.max(r.top, token.top) : r.top,
				bottom: token ? Math.min(r.bottom, token.bottom) : r.bottom,
			});
			const plain = !token && !turned(el);
			const rects = [...range.getClientRects()]
				.filter((r) => r.width > 0 && r.height > 0)
				.map((r) => (plain ? ink(r, text, style) : clip(r)));
			if (rects.length) found.push({ el, text, rects, owner: owner(el) });
		}
		return found;
	};

	const quote = (text) => "“" + (text.length > 30 ? text.slice(0, 29) + "…" : text) + "”";

	window.pageChecks = { name, words, quote, hiddenOnPurpose, scrolls, scrollers, texts };
}
