// Formulas: each is laid out, has only elements that browsers lay out, each with
// as many children as it needs, and fractions stand one part over the other.

function formulas() {
	const { words } = window.pageChecks;
	const out = [];
	const space = "http://www.w3.org/1998/Math/MathML";
	// The elements of MathML Core, which is what browsers lay out.
	const known = new Set(("annotation annotation-xml maction math merror mfrac mi mmultiscripts mn mo mover mpadded " +
		"mphantom mprescripts mroot mrow ms mspace msqrt mstyle msub msubsup msup mtable mtd mtext mtr munder munderover semantics").split(" "));
	const needs = { mfrac: 2, mroot: 2, msub: 2, msup: 2, mover: 2, munder: 2, msubsup: 3, munderover: 3 };
	const say = (rule, math, text) => {
		const t = words(math.textContent);
		out.push({ rule, text: `${text}, in the formula “${t.length > 40 ? t.slice(0, 39) + "…" : t}”` });
	};
	const size = (el) => el.getBoundingClientRect();
	const visitFraction = (math, el) => {
		const [over, under] = [...el.children].map(size);
		const line = parseFloat(getComputedStyle(el).fontSize);
		if (size(el).height <= 1.2 * line) {
			say("math-fraction", math, `a fraction is ${size(el).height.toFixed(1)} px high, no more than a line`);
		} else if (under.top - over.bottom < 1 && parseFloat(el.getAttribute("linethickness") ?? "1") !== 0) {
			say("math-fraction", math, "a fraction has no room for its bar between the upper and the lower part");
		}
	};
	const visit = (math, el) => {
		const tag = el.localName;
		if (el.namespaceURI !== space || !known.has(tag)) {
			if (!el.closest("annotation-xml")) say("math-element", math, `<${tag}> is not an element that browsers lay out`);
			return;
		}
		if (tag === "merror") say("math-error", math, "an <merror> stands");
		if (needs[tag] && el.children.length !== needs[tag]) {
			say("math-children", math, `<${tag}> has ${el.children.length} parts and needs ${needs[tag]}`);
		} else if (tag === "mfrac") {
			visitFraction(math, el);
		}
		const token = /^m[ino]$|^mtext$/.test(tag) && !/^[\u2061-\u2064\s]*$/.test(el.textContent);
		if (token && !el.closest("mphantom") && (size(el).width === 0 || size(el).height === 0)) {
			say("math-empty", math, `“${words(el.textContent)}” takes no room`);
		}
	};
	for (const math of document.querySelectorAll("math")) {
		if (math.namespaceURI !== space) continue;
		const r = size(math);
		if (r.width === 0 || r.height === 0) {
			say("math-empty", math, "nothing is laid out");
			continue;
		}
		for (const el of math.querySelectorAll("*")) visit(math, el);
	}
	for (const el of document.body.querySelectorAll("*")) {
		if (el instanceof HTMLUnknownElement) out.push({ rule: "unknown-element", text: `<${el.localName}> is not an element of HTML` });
	}
	return out;
}

export const checkFormulas = (page) => page.evaluate(formulas);
