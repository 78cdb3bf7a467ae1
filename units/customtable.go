package units

// customTable says what symbols customarily stand for, as units of the
// quantities, the commonest first. It is common practice, with the symbols of
// ISO 80000-3 to -7 and -9 among it, and broad on purpose: a quantity too many
// lets a slip pass with one question less, one too few doubts a line that is
// right. For a torque N m is written and for an energy J, though both are one
// dimension; a stiffness against twisting is in N m/rad.
//
// The commonest first: where a line leaves open what a letter is, it is taken for that. The
// others are silent, so that the A of an amplitude, an area and a decay is none of them wrong.
var customTable = [...]struct{ symbol, units string }{
	{"a", "m/s^2, m"},
	{"A", "m^2, m, rad, 1/s"},
	{"B", "T, Pa"},
	{"c", "m/s, J/(kg K), m, J/K, mol/m^3, kg/s, kg/m"},
	{"C", "F, J/K, J/(kg K), C, m, 1"},
	{"d", "m"},
	{"D", "m, C/m^2, 1/m, N/m, kg/m"},
	{"E", "J, V/m, V, Pa"},
	{"f", "Hz, N, m, rad/s"},
	{"F", "N"},
	{"g", "m/s^2"},
	{"h", "m"},
	{"H", "m, J, A/m"},
	{"I", "A, kg m^2, kg m/s, W/m^2, m^4"},
	{"J", "kg m/s, A/m^2, kg m^2"},
	{"k", "N/m, 1/m, rad/m, 1, W/(m K), N m/rad, J/K, N m^2/C^2, 1/s"},
	{"K", "J, N/m, Pa, 1"},
	{"l", "m"},
	{"L", "m, kg m^2/s, H, J/kg, W"},
	{"m", "kg, m"},
	{"M", "kg, kg/mol, N m, 1, A m^2"},
	{"n", "1, mol, Hz, rad/s, 1/m^3"},
	{"N", "N, 1, rad/s, Hz, rad"},
	{"p", "Pa, kg m/s"},
	{"P", "W, Pa, N, kg m/s, 1/m, m"},
	{"q", "C, J, m^3/s"},
	{"Q", "J, C, m^3/s, 1, kg/s"},
	{"r", "m, ohm"},
	{"R", "m, ohm, N, J/(mol K), K/W"},
	{"s", "m"},
	{"S", "m^2, J/K, N, Pa, m, W/m^2"},
	{"t", "s"},
	{"T", "s, K, N, N m, J"},
	{"u", "m/s, m"},
	{"U", "J, V"},
	{"v", "m/s"},
	{"V", "m^3, V, m/s"},
	{"w", "m/s, m, rad/s, N"},
	{"W", "J, N"},
	{"x", "m, 1, rad"},
	{"y", "m, 1, rad"},
	{"z", "m, 1"},
	{"Y", "Pa, m, 1"},
	{"X", "ohm, m"},
	{"Z", "ohm, 1"},
	{"α", "rad, rad/s^2, 1/K, 1/s^2"},
	{"β", "rad, 1/K, 1"},
	{"γ", "1, rad, N/m, 1/s"},
	{"δ", "m, rad, 1"},
	{"ε", "1, F/m, V"},
	{"η", "Pa s, 1"},
	{"θ", "rad, K, 1"},
	{"κ", "W/(m K), 1/Pa, 1, N m/rad"},
	{"λ", "m, 1/s, kg/m, C/m, W/(m K)"},
	{"μ", "1, kg/m, Pa s, H/m, kg, A m^2, N/m"},
	{"ν", "Hz, m^2/s"},
	{"ρ", "kg/m^3, ohm m, C/m^3"},
	{"σ", "Pa, N/m, S/m, m^2, C/m^2"},
	{"τ", "N m, s, Pa"},
	{"φ", "rad, V, 1"},
	{"Φ", "Wb, V m, W"},
	{"ψ", "rad"},
	{"ω", "rad/s, 1/s, Hz"},
	{"Ω", "rad/s"},
}

// customWords says the same of words: a name that begins with one speaks of its
// quantity.
//
// So mass_of_sled is a mass, and speed2 a speed.
var customWords = [...]struct{ word, units string }{
	{"acceleration", "m/s^2"},
	{"angle", "rad"},
	{"area", "m^2"},
	{"charge", "C"},
	{"current", "A"},
	{"density", "kg/m^3"},
	{"depth", "m"},
	{"diameter", "m"},
	{"distance", "m"},
	{"energy", "J"},
	{"force", "N"},
	{"frequency", "Hz"},
	{"gravity", "m/s^2"},
	{"heat", "J"},
	{"height", "m"},
	{"length", "m"},
	{"mass", "kg"},
	{"momentum", "kg m/s"},
	{"period", "s"},
	{"power", "W"},
	{"pressure", "Pa"},
	{"radius", "m"},
	{"resistance", "ohm"},
	{"speed", "m/s"},
	{"temp", "K"},
	{"tension", "N"},
	{"time", "s"},
	{"torque", "N m"},
	{"velocity", "m/s"},
	{"voltage", "V"},
	{"volume", "m^3"},
	{"weight", "N"},
	{"width", "m"},
	{"work", "J"},
}

// oneSign are quantities that have one sign, in a unit and by the names that they go
// by (usual in textbooks; from memory), and why they have it. A radius is none of them: that of
// a mirror has a sign.
//
// A value with the other sign is no slip of arithmetic as a rule, but a body that has left its
// surface, or a force drawn the other way. So it is told, and never refused.
var oneSign = [...]struct {
	what, unit string
	negative   bool
	why        string
	names      []string
}{
	{"a normal force", "N", false, "a surface can only push", []string{"N", "n", "F_N", "F_n", "F_normal", "normal"}},
	{"a tension", "N", false, "a rope can only pull", []string{"T", "F_T", "F_tension", "tension"}},
	{"the work of friction", "J", true, "friction takes energy from what slides", []string{"W_f", "W_fr", "W_friction", "W_μ", "work_friction", "friction_work"}},
	{"a mass", "kg", false, "no mass is below zero", []string{"m", "M", "mass"}},
	{"a stiffness", "N/m", false, "the minus of -k*x is not in k", []string{"k", "stiffness"}},
	{"a time", "s", false, "that would be before the start", []string{"t", "T", "time", "period"}},
	{"a length", "m", false, "no length is below zero", []string{"L", "l", "λ", "length"}},
}
