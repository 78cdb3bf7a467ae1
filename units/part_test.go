package units

import (
	"strings"
	"testing"
)

func TestParts(t *testing.T) {
	names := map[PartKind]string{PartBlank: "_", PartSolidus: "/", PartDot: "·", PartStar: "*", PartHyphen: "-", PartOpen: "(", PartClose: ")"}
	for _, c := range []struct{ text, want string }{
		{"kg m/s^2", "kg _ m / s ^2"},
		{"N⋅m", "N · m"},
		{"1/(s °C)", "#1 / ( s _ °C )"},
		{"m^(1/2) m^-1 m^0.5 m⁻³", "m ^1/2 _ m ^-1 _ m ^1/2 _ m ^-3"},
		{"m^ 2", "m ?^ _ #2"},
		{"m^(1/2", "m ?^(1/2"},
		{"ft-lb × \t%", "ft - lb _ * _ %"},
		{"µm Δ°C °R", "μm _ Δ°C _ °R"},
		{"°Coulomb", "° Coulomb"},
		{"2π", "#2 ?π"},
		{"m²⁻", "m ^2 ?⁻"},
		{"", ""},
	} {
		var got []string
		for s := (Scanner{Text: c.text}); ; {
			p := s.Next()
			raw := c.text[p.From:p.To]
			switch p.Kind {
			case PartEnd:
			case PartWord:
				raw = p.Text
			case PartNumber:
				raw = "#" + p.Text
			case PartPower:
				raw = "^" + p.Exp.String()
			case PartOther:
				raw = "?" + raw
			default:
				raw = names[p.Kind]
			}
			if p.Kind == PartEnd {
				break
			}
			got = append(got, raw)
		}
		if got := strings.Join(got, " "); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

// TestPartsCoverTheText lets no byte fall between two parts.
func TestPartsCoverTheText(t *testing.T) {
	for _, text := range []string{"kg m/s^2", "\xff^(", "°", "⁻", "a\u030a", strings.Repeat("m^-", 50)} {
		at := 0
		for s := (Scanner{Text: text}); ; {
			p := s.Next()
			if p.From != at || p.Kind != PartEnd && p.To <= p.From {
				t.Fatalf("%q: a part from %d to %d follows byte %d", text, p.From, p.To, at)
			}
			if at = p.To; p.Kind == PartEnd {
				break
			}
		}
		if at != len(text) {
			t.Errorf("%q ends at byte %d", text, at)
		}
	}
}
