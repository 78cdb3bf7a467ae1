package help

import "steelyard/session"

// guides are pages on how something is written that is no statement of its own.
var guides = map[string][]string{
	"numbers": {
		"Numbers and units",
		"  0.080 kg   12 N m   12 N·m   9.8 m/s²   9.8 m s^-2   J/(kg K)",
		"  1.6e-19 C   1.6×10^-19 C   10^5 m   (1/2) kg",
		"  13 h 4 min 58 s   30° 15′   5 ft 4 inch",
		"A unit stands after a number; a word anywhere else is a name. So m in",
		"2 m is the metre, and m in 2*m is your mass. In a unit a product is a",
		"blank or ·, and there is one / with brackets after it where needed.",
		"The decimal sign is a point; thousands are written without a comma.",
		"A bare 0 fits every unit: v = 0, check W < 0.",
	},
	"angles": {
		"Angles",
		"  30°   30 deg   0.52 rad   0.25 rev   5.00π rad   30° 15′",
		"An angle is a quantity, so there is no setting for degrees: sin(30°).",
		"A plain number in sin, cos or tan is radians. asin, acos, atan and",
		"atan2 give an angle: asin(0.5) in °.",
		"rad/s and Hz differ by 2π: ω = 2π*f. A value in one that is reported",
		"in the other is a mismatch.",
	},
	"temperatures": {
		"Temperatures",
		"  25 °C   25 degC   77 °F   298.15 K",
		"A number in °C or °F is a temperature. Temperatures don't add; their",
		"difference is in K: T2 - T1. A difference is written in K or Δ°C.",
		"In a compound unit, J/(kg °C), a degree is a difference.",
		"in °C shows a temperature as one, and a difference as a difference.",
	},
	"naming": {
		"Names",
		"A letter, then letters, digits, _ and primes: x, v0, F_net, x'.",
		"omega is ω, mu_k is μ_k; v0, v_0 and v₀ are one name.",
		"A name means what the nearest line above says. k@5 is the k of line 5.",
		"Two names side by side need a sign between them: m*g*h.",
		"g is 9.80665 m/s² and π is 3.14159… until a line gives another g.",
	},
	"given": {
		"NAME = NUMBER UNIT",
		"  A given: what the problem states. It is not shown again below.",
		"  Examples:",
		"    m = 0.080 kg",
		"    v0 = 3.4 m/s",
		"    θ = 30°",
	},
	"result": {
		"NAME = EXPRESSION [in UNIT]",
		"  A result. Its unit follows from the units of what it is made of.",
		"  With in UNIT its dimension is checked and it is shown in that unit; a",
		"  wrong unit is a finding that says what is missing.",
		"  Without a name it can be used in the next lines as that.",
		"  Examples:",
		"    W = 1/2*(0.080 kg)*(3.4 m/s)^2 in J",
		"    that in kJ",
	},
	"in": {
		"EXPRESSION in UNIT",
		"  Reports a value in a unit: 100 km/h in m/s. The dimension is checked.",
		"  Inches are written inch.",
	},
	"that": {
		"that",
		"  The value of the nearest line above that has one: that in kJ.",
	},
}

func guide(_ *session.Pad, word string) []string {
	switch word {
	case "angle", "temperature", "number":
		return nil // quantities of their own
	case "name":
		word = "naming"
	}
	return guides[word]
}
