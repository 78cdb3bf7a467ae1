// Defects to plant into the good samples. Each entry: the rule that must find it
// by name, the text of the good sample that is replaced, and what replaces it.
// also lists rules that rightly find the same defect, some only in passing; what is alone
// moves others to another sheet of paper, and has a page for itself.

const filler = (n) => Array.from({ length: n }, (_, i) => `<p>Push ${i + 1} of the swing comes when it turns back, so that it goes a little higher.</p>`).join("\n");

export const inPages = [
	{ rule: "html", from: "<p class=\"answer\">2.87 m/s</p>", to: "<p class=\"answer\"><div>2.87 m/s</div></p>" },
	{ rule: "html", from: "id=\"b\"", to: "id=\"a\"" },
	{ rule: "access-light", from: "--ink: #1b1b1b", to: "--ink: #c9c9c9", also: ["drawing-contrast"] },
	{ rule: "access-dark", from: "--ink: #ededed", to: "--ink: #444444", also: ["drawing-contrast"] },
	{ rule: "access-light", from: "role=\"img\" aria-label=\"Speed", to: "role=\"img\" data-label=\"Speed", also: ["access-dark"] },
	{ rule: "console", from: "</main>", to: "</main><script>console.log('creak')</script>", also: ["script"] },
	{ rule: "page-error", from: "</main>", to: "</main><script>throw new Error('rope')</script>", also: ["script"] },
	{ rule: "script", from: "<p class=\"answer\">192 N</p>", to: "<p class=\"answer\" onclick=\"this.remove()\">192 N</p>" },
	{ rule: "request", from: "<style>", to: "<link rel=\"stylesheet\" href=\"porch.css\">\n<style>", also: ["html"] },
	{ rule: "request", from: "<style>", to: "<style>\n@font-face { font-family: Plank; src: url(plank.woff2); }\nh1 { font-family: Plank, serif; }" },
	{ rule: "page-wide", from: "<p>Two ropes", to: "<p style=\"width: 600px\">Two ropes", also: ["box-outside"] },
	{ rule: "box-outside", from: "<p>Two ropes", to: "<p style=\"margin-left: -40px\">Two ropes", also: ["paper-edge", "text-cut"] },
	{ rule: "part-break", from: "<p>For small angles", to: filler(14) + "\n<p>For small angles", extra: [".part, .answer, figure { break-inside: avoid; }", ".answer, figure { break-inside: avoid; }"], also: ["part-break-style"], alone: true },
	{ rule: "part-break", from: "<p class=\"answer\">192 N</p>", to: filler(60) + `\n<div class="answer">${filler(24)}</div>`, extra: [".part, .answer, figure { break-inside: avoid; }", ""], also: ["part-break-style"], alone: true },
	{ rule: "page-fill", from: "<body>", to: "<body class=\"key\">", extra: [".part, .answer", ".part { break-before: page; }\n.part, .answer"], alone: true },
	{ rule: "answer-alone", from: "<p class=\"answer\">192 N</p>", to: "<div class=\"working\"><ol><li>m g</li><li style=\"break-after: page\">192 N</li></ol></div>\n<p class=\"answer\">192 N</p>", extra: ["<body>", "<body class=\"key\">"], also: ["page-fill", "part-break"], alone: true },
	{ rule: "part-break-style", from: ".part, .answer", to: ".answer", also: ["part-break"], alone: true },
	{ rule: "heading-alone", from: "<section class=\"part\" id=\"d\">\n<h2>d)", to: "<section>\n<h2 style=\"break-after: page\">d)", alone: true },
	{ rule: "page-empty", from: "</main>", to: "<div style=\"break-before: page; break-after: page; height: 1px\"></div>\n<p>End.</p>\n</main>", alone: true },
	{ rule: "math-empty", from: "<p class=\"answer\">2.91 s</p>", to: "<p class=\"answer\"><math><mspace width=\"0\"></mspace></math>2.91 s</p>" },
	{ rule: "math-empty", from: "<math><mi>m</mi></math>", to: "<math><mi style=\"display: none\">m</mi><mo>=</mo></math>" },
	{ rule: "math-fraction", from: "<mfrac><mn>1</mn><mn>2</mn></mfrac>", to: "<mfrac style=\"display: inline-block math; font-size: 1rem\"><mn style=\"display: none\">1</mn><mn style=\"display: none\">2</mn></mfrac>", also: ["math-empty"] },
	{ rule: "math-fraction", from: "<mfrac><mn>1</mn><mn>2</mn></mfrac>", to: "<mfrac style=\"display: inline\"><mn>1</mn><mn>2</mn></mfrac>" },
	{ rule: "math-error", from: "<mn>2</mn><mi>π</mi>", to: "<merror><mtext>two pi</mtext></merror>" },
	{ rule: "math-element", from: "<mn>2</mn><mi>π</mi>", to: "<mfenced><mn>2</mn><mi>π</mi></mfenced>" },
	{ rule: "math-children", from: "<msup><mi>v</mi><mn>2</mn></msup><mo>=", to: "<msup><mi>v</mi></msup><mo>=" },
	{ rule: "unknown-element", from: "<p>Two ropes", to: "<p><swing>Both</swing> two ropes", also: ["html"] },
	{ rule: "table-columns", from: "<tr><td>length of a rope", to: "<tr style=\"display: grid; grid-template-columns: repeat(4, 1fr)\"><td>length of a rope", also: ["text-overlap", "box-outside", "page-wide", "text-cut"] },
	{ rule: "text-overlap", from: "<text x=\"52\" y=\"135\"", to: "<text x=\"52\" y=\"63\"" },
	{ rule: "drawing-small", from: "viewBox=\"0 0 420 260\" width=\"420\" height=\"260\"", to: "viewBox=\"0 0 420 260\" width=\"210\" height=\"130\"", also: ["text-overlap"] },
	{ rule: "drawing-small", from: "@media print {\n  :root", to: "@media print {\n  svg text { font-size: 8.5pt !important; }\n  :root" },
	{ rule: "drawing-legend", from: "<text class=\"name\" x=\"386\" y=\"124\">u</text>", to: "" },
	{ rule: "drawing-hatch", from: "<text class=\"name\" x=\"178\" y=\"141\">K</text>", to: "" },
	{ rule: "drawing-hatch", from: "<rect class=\"axis\" x=\"150\" y=\"130\" width=\"22\" height=\"11\" fill=\"none\"/>", to: "" },
	{ rule: "drawing-contrast", from: "--curve: #86c5ee", to: "--curve: #1f3f5b" },
	{ rule: "drawing-contrast", from: "fill: var(--ink); }", to: "fill: var(--ink); }\n@media screen and (prefers-color-scheme: dark) { svg text { fill: #565656; } }" },
	{ rule: "text-overlap", from: "<p class=\"answer\">192 N</p>", to: "<p class=\"answer\" style=\"margin-top: -5.6rem\">192 N</p>", also: ["access-light", "access-dark"] },
	{ rule: "text-cut", from: "<p>Two ropes", to: "<p style=\"width: 9rem; white-space: nowrap; overflow: hidden\">Two ropes" },
	{ rule: "text-cut", from: "<text x=\"380\" y=\"230\"", to: "<text x=\"418\" y=\"230\"" },
	{ rule: "text-cut", from: ".wide { overflow: visible; }", to: ".wide { width: 12rem; }" },
	{ rule: "paper-edge", from: "<p>Two ropes", to: "<p class=\"far\">Two ropes", extra: ["@page {", "@media print { .far { position: relative; left: -30mm; } }\n@page {"], also: ["box-outside", "text-cut"] },
	{ rule: "scroll-focus", from: "class=\"wide\" tabindex=\"0\"", to: "class=\"wide\"", also: ["access-light", "access-dark"] },
	{ rule: "scroll-focus", from: "class=\"wide\" tabindex=\"0\"", to: "class=\"wide\" tabindex=\"-1\"", also: ["access-light", "access-dark"] },
	{ rule: "focus-shown", from: ".wide:focus-visible { outline: 3px solid var(--curve); }", to: ".wide:focus-visible { outline: none; }", also: ["scroll-focus"] },
	{ rule: "heading-order", from: "<h2>b) How hard does each rope pull there?</h2>", to: "<h4>b) How hard does each rope pull there?</h4>", also: ["html", "access-light", "access-dark"] },
	{ rule: "part-heading", from: "<h2>d) How long does one swing take?</h2>", to: "<p>d) How long does one swing take?</p>" },
	{ rule: "lang", from: "<html lang=\"en\">", to: "<html>", also: ["html", "access-light", "access-dark"] },
	{ rule: "title", from: "<title>Porch swing: key</title>", to: "<title></title>", also: ["html", "access-light", "access-dark"] },
];

export const inLatex = [
	{ rule: "tex-error", from: "\\frac{m}{2}", to: "\\fraction{m}{2}" },
	{ rule: "tex-error", from: "\\end{document}", to: "\\input{beside}\n\\end{document}" },
	{ rule: "tex-overfull", from: "A child sits", to: "\\mbox{" + "A child sits on a porch swing. ".repeat(6) + "}\n\nA child sits" },
	{ rule: "tex-character", from: "A child sits", to: "{\\fontencoding{OT1}\\selectfont \\char200} A child sits" },
];
