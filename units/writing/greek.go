package writing

import (
	"maps"
	"slices"
	"sync"
)

// greek are the Greek letters by their names. Capitals that look like a Latin
// letter have none: nobody tells Α from A.
var greek = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "zeta": "ζ",
	"eta": "η", "theta": "θ", "iota": "ι", "kappa": "κ", "lambda": "λ", "mu": "μ",
	"nu": "ν", "xi": "ξ", "omicron": "ο", "pi": "π", "rho": "ρ", "sigma": "σ",
	"tau": "τ", "upsilon": "υ", "phi": "φ", "chi": "χ", "psi": "ψ", "omega": "ω",
	"Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Xi": "Ξ", "Pi": "Π",
	"Sigma": "Σ", "Upsilon": "Υ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}

// Greek returns the letter that a word names, or "".
func Greek(word string) string { return greek[word] }

// GreekNames are the words that name a Greek letter, sorted.
func GreekNames() []string { return slices.Sorted(maps.Keys(greek)) }

// GreekName returns the name of a Greek letter, or "".
func GreekName(letter rune) string { return nameOfGreek()[LookAlike(letter)] }

var nameOfGreek = sync.OnceValue(func() map[rune]string {
	out := map[rune]string{}
	for name, letter := range greek {
		out[[]rune(letter)[0]] = name
	}
	return out
})

// LookAlike returns the letter that is meant by one that looks like it or is
// another form of it: the micro sign is a μ, the sign of an increment a Δ, the
// sign of the ohm an Ω.
func LookAlike(r rune) rune {
	switch r {
	case '\u00b5':
		return 'μ'
	case '\u2206':
		return 'Δ'
	case '\u2126':
		return 'Ω'
	case 'ϕ':
		return 'φ'
	case 'ϵ':
		return 'ε'
	case 'ϑ':
		return 'θ'
	}
	return r
}
