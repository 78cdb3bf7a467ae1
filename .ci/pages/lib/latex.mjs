// LaTeX sources: each compiles alone in a folder of its own, loses no character
// and has no line that sticks out.
import { execFile } from "node:child_process";
import { copyFile, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

function compile(folder) {
	const args = ["-interaction=nonstopmode", "-halt-on-error", "-no-shell-escape", "page.tex"];
	// Whole lines in the log, and no file read or written outside the folder.
	const env = { ...process.env, max_print_line: "2000", openout_any: "p", openin_any: "p" };
	return new Promise((done) => {
		execFile("pdflatex", args, { cwd: folder, env, timeout: 30000, maxBuffer: 1 << 28 }, (err) => done(err));
	});
}

function read(log) {
	const out = [];
	const lines = log.split("\n");
	lines.forEach((line, i) => {
		if (line.startsWith("! ")) {
			const where = lines.slice(i).find((l) => /^l\.\d+/.test(l)) || "";
			out.push({ rule: "tex-error", text: `${line.slice(2)} ${where}`.trim() });
		}
		const over = line.match(/^Overfull \\([hv])box \(([\d.]+)pt too (wide|high)\)(.*)/);
		if (over) out.push({ rule: "tex-overfull", text: `something is ${over[2]} pt too ${over[3]}${over[4]}` });
		const lost = line.match(/^Missing character: There is no (.*) in font (\S+)/);
		if (lost) out.push({ rule: "tex-character", text: `no ${lost[1]} in the font ${lost[2]} that stands there` });
	});
	return out;
}

export async function checkLatex(file, base) {
	const folder = await mkdtemp(join(tmpdir(), "tex-"));
	try {
		await copyFile(file, join(folder, "page.tex"));
		const err = await compile(folder);
		const log = await readFile(join(folder, "page.log"), "latin1").catch(() => "");
		const out = read(log);
		if (err && out.length === 0) out.push({ rule: "tex-error", text: err.killed ? "pdflatex did not end within 30 s" : `pdflatex failed: ${err.message.split("\n")[0]}` });
		if (!err) await copyFile(join(folder, "page.pdf"), `${base}.pdf`).catch(() => out.push({ rule: "tex-error", text: "no page came out" }));
		return out;
	} finally {
		await rm(folder, { recursive: true, force: true });
	}
}
