package units

import (
	"encoding/csv"
	"math/big"
	"os"
	"strings"
	"testing"
)

// readRows reads a table of testdata; a line that begins with # is a remark.
func readRows(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, head := range all[0] {
			m[head] = row[i]
		}
		out = append(out, m)
	}
	return out
}

// expression reads an exact size as the tables write it, such as
// 250/pi or 16129*pi/100000000000000.
func expression(t testing.TB, s string) (*big.Rat, int) {
	t.Helper()
	r, power := big.NewRat(1, 1), 0
	sign, inside := 1, 0
	token := ""
	flush := func() {
		if token == "" {
			return
		}
		base, exp, _ := strings.Cut(token, "^")
		n := 1
		if exp == "2" {
			n = 2
		}
		if base == "pi" {
			power += sign * n
		} else {
			x, ok := new(big.Rat).SetString(base)
			if !ok {
				t.Fatalf("%q is no number of %q", base, s)
			}
			if sign < 0 {
				x.Inv(x)
			}
			r.Mul(r, x)
		}
		token = ""
	}
	for _, c := range s {
		switch c {
		case '*':
			flush()
			if inside == 0 {
				sign = 1
			}
		case '/':
			flush()
			sign = -1
		case '(':
			inside++
		case ')':
			flush()
			inside--
		default:
			token += string(c)
		}
	}
	flush()
	return r, power
}

// mustUnit reads a unit that stands alone.
func mustUnit(t testing.TB, text string) *Unit {
	t.Helper()
	u, bad := NewTable().Parse(text, AloneInPlace)
	if bad != nil {
		t.Fatalf("Parse(%q): %s %s", text, bad.Message, bad.Hint)
	}
	return u
}

// mustDecimal reads a number.
func mustDecimal(t testing.TB, text string) Decimal {
	t.Helper()
	d, ok := ParseDecimal(text)
	if !ok {
		t.Fatalf("ParseDecimal(%q) failed", text)
	}
	return d
}
