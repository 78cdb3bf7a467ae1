package help

import "steelyard/session"

// section is a word with what is said of it. Sections stand in arrays, which
// cost nothing at the start, and not in maps.
type section struct {
	word string
	rows []string
}

func rowsOf(sections []section, word string) []string {
	for _, s := range sections {
		if s.word == word {
			return s.rows
		}
	}
	return nil
}

// guides are pages on how something is written that is no statement of its own.
var guides = [...]section{
	{"numbers", []string{
		"Numbers and units",
		"  0.080 kg   12 N m   12 N·m   9.8 m/s²   9.8 m s^-2   J/(kg K)",
		"  1.6e-19 C   1.6×10^-19 C   10^5 m   (1/2) kg",
		"  13 h 4 min 58 s   30° 15′   5 ft 4 inch",
		"A unit stands after a number; a word anywhere else is a name. So m in",
		"2 m is the metre, and m in 2*m is your mass. In a unit a product is a",
		"blank or ·, and there is one / with brackets after it where needed.",
		"The decimal sign is a point; thousands are written without a comma.",
		"A bare 0 fits every unit: v = 0, check W < 0.",
	}},
	{"angles", []string{
		"Angles",
		"  30°   30 deg   0.52 rad   0.25 rev   5.00π rad   30° 15′",
		"An angle is a quantity, so there is no setting for degrees: sin(30°).",
		"A plain number in sin, cos or tan is radians. asin, acos, atan and",
		"atan2 give an angle: asin(0.5) in °.",
		"rad/s and Hz differ by 2π: ω = 2π*f. A value in one that is reported",
		"in the other is a mismatch.",
	}},
	{"temperatures", []string{
		"Temperatures",
		"  25 °C   25 degC   77 °F   298.15 K",
		"A number in °C or °F is a temperature. Temperatures don't add; their",
		"difference is in K: T2 - T1. A difference is written in K or Δ°C.",
		"In a compound unit, J/(kg °C), a degree is a difference.",
		"in °C shows a temperature as one, and a difference as a difference.",
	}},
	{"naming", []string{
		"Names",
		"A letter, then letters, digits, _ and primes: x, v0, F_net, x'.",
		"omega is ω, mu_k is μ_k; v0, v_0 and v₀ are one name.",
		"A name means what the nearest line above says. k@5 is the k of line 5.",
		"Two names side by side need a sign between them: m*g*h.",
		"g is 9.80665 m/s² and π is 3.14159… until a line gives another g.",
	}},
	{"given", []string{
		"NAME = NUMBER UNIT",
		"  A given: what the problem states. It is not shown again below.",
		"  Examples:",
		"    m = 0.080 kg",
		"    v0 = 3.4 m/s",
		"    θ = 30°",
	}},
	{"result", []string{
		"NAME = EXPRESSION [in UNIT]",
		"  A result. Its unit follows from the units of what it is made of.",
		"  With in UNIT its dimension is checked and it is shown in that unit; a",
		"  wrong unit is a finding that says what is missing.",
		"  Without a name it can be used in the next lines as that.",
		"  Examples:",
		"    W = 1/2*(0.080 kg)*(3.4 m/s)^2 in J",
		"    that in kJ",
	}},
	{"in", []string{
		"EXPRESSION in UNIT",
		"  Reports a value in a unit: 100 km/h in m/s. The dimension is checked.",
		"  Inches are written inch.",
	}},
	{"function", []string{
		"NAME(ARGUMENTS) = EXPRESSION [in UNIT]",
		"  A function of your own: U(x) = 1/2*k*x^2 in J, then U(3 cm). It may",
		"  use names from the lines above. By intervals:",
		"    v(t) =",
		"      3 m/s^2*t for 0 s ≤ t ≤ 2 s",
		"      6 m/s for t > 2 s",
		"  help functions lists those that every worksheet has.",
	}},
	{"unit", []string{
		"1 NAME = EXPRESSION",
		"  A unit of your own: 1 lap = 400 m, then 3 laps in km.",
		"  help numbers shows how units are written, help units lists them, and",
		"  help newton tells of one.",
	}},
	{"worksheet", []string{
		"A worksheet is a text file that holds the lines of a scratchpad, with a",
		"record under each result:",
		"    worksheet 1  Pinball plunger",
		"    m = 0.080 kg",
		"    W = 1/2*m*(3.4 m/s)^2",
		"      = 0.4624 J",
		"save FILE writes it, open FILE reads it, replay compares it. In the",
		"shell: steelyard replay FILE. A line that could not be worked out is",
		"saved as a remark, unless a later line gives its name.",
	}},
	{"print", []string{
		"steelyard print FILE, in the shell",
		"  Prints a worksheet: a key with everything, or with --edition handout a",
		"  page of questions with room to answer. --as html, markdown, latex or",
		"  text; -o FILE writes to a file. Notes that stand above the parts or",
		"  directly under a question are on the handout, and graph … blank gives",
		"  it axes to draw on.",
	}},
	{"handout", []string{
		"steelyard print --edition handout FILE, in the shell",
		"  help print tells more.",
	}},
	{"title", []string{
		"worksheet 1 TITLE, at any time",
		"  Gives the worksheet its title, with which it is saved; a later one",
		"  replaces it. Without one the title is made of the file's name.",
	}},
	{"pi", []string{
		"π, or pi",
		"  The number 3.14159…: 2π√(m/k), 2πr^2, 2*pi*f. It is never part of a",
		"  name.",
	}},
	{"g", []string{
		"g",
		"  Standard gravity, 9.80665 m/s², where it stands as a name: m*g. A line",
		"  g = 9.8 m/s^2 gives another value. After a number it is the gram: 5 g.",
	}},
	{"that", []string{
		"that",
		"  The value of the nearest line above that has one: that in kJ.",
	}},
}

func guide(_ *session.Pad, word string) []string {
	switch word {
	case "angle", "temperature", "number":
		return nil // quantities of their own
	case "name":
		word = "naming"
	case "π":
		word = "pi"
	}
	return rowsOf(guides[:], word)
}
