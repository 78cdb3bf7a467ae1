package session

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// linearSystem is a system of linear equations as a statement: what each equation
// has of each unknown, and what it comes to.
func linearSystem(of [][]int, right []int) string {
	var equations, names []string
	for i, row := range of {
		var sum strings.Builder
		for j, c := range row {
			fmt.Fprintf(&sum, " + (%d)*x_%d", c, j)
		}
		equations = append(equations, fmt.Sprintf("%s = %d N", sum.String()[3:], right[i]))
		names = append(names, fmt.Sprintf("x_%d", i))
	}
	return "solve " + strings.Join(equations, " and ") + " for " + strings.Join(names, ", ")
}

// drawn is a system whose solution is known, with whole numbers throughout.
func drawn(r *rand.Rand, n int) (of [][]int, right, x []int) {
	for range n {
		x = append(x, r.IntN(19)-9)
	}
	for i := range n {
		row := make([]int, n)
		for j := range row {
			row[j] = r.IntN(19) - 9
		}
		row[i] += 40 // no equation follows from the others
		of = append(of, row)
		right = append(right, times(row, x))
	}
	return of, right, x
}

func times(a, b []int) int {
	sum := 0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// TestLinearSystems solves systems of up to as many unknowns as there may be, to
// the last digit.
func TestLinearSystems(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for _, n := range []int{2, 3, 4, 5, 6, 7, 10, 20, limit.Unknowns} {
		of, right, x := drawn(r, n)
		e := New().Enter(t.Context(), linearSystem(of, right))
		values := e.Values()
		if len(values) != n {
			t.Errorf("%d unknowns: %v", n, e.Findings)
			continue
		}
		for i, v := range values {
			if d := v.SI - float64(x[i]); d > 1e-12 || d < -1e-12 {
				t.Errorf("%d unknowns: x_%d is %v and not %d", n, i, v.SI, x[i])
			}
		}
	}
	of, right, _ := drawn(r, limit.Unknowns+1)
	e := New().Enter(t.Context(), linearSystem(of, right))
	if len(e.Findings) != 1 || e.Findings[0].ID != finding.TooLong {
		t.Errorf("%d unknowns: %v", limit.Unknowns+1, e.Findings)
	}
}

// TestNearlyDependent solves equations that a rounding would make depend on each
// other, from four unknowns to twelve. The values are whole numbers: those of the
// inverse of a Hilbert matrix are, M. D. Choi, "Tricks or treats with the Hilbert
// matrix", Am. Math. Monthly 90 (1983), 301–312 (from memory).
func TestNearlyDependent(t *testing.T) {
	for n := 4; n <= 12; n++ {
		var equations, names []string
		for i := range n {
			var terms []string
			for j := range n {
				terms = append(terms, fmt.Sprintf("x_%d/%d", j, i+j+1))
			}
			right := "0 N"
			if i == 0 {
				right = "1 N"
			}
			equations = append(equations, strings.Join(terms, " + ")+" = "+right)
			names = append(names, fmt.Sprintf("x_%d", i))
		}
		e := New().Enter(t.Context(), "solve "+strings.Join(equations, " and ")+" for "+strings.Join(names, ", "))
		if v := e.Values(); len(v) != n || v[0].SI < float64(n*n)-1e-6 || v[0].SI > float64(n*n)+1e-6 {
			t.Errorf("%d unknowns: %v %v", n, v, e.Findings) // the first of the inverse is n²
		}
	}
}

// TestEquationsNamed has equations that depend on each other or contradict each
// other, and those alone are named.
func TestEquationsNamed(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{3, 6, 8, 15, limit.Unknowns} {
		for range 3 {
			of, right, _ := drawn(r, n)
			among := r.Perm(n)[:2+r.IntN(min(3, n-1))]
			slices.Sort(among)
			last := among[len(among)-1]
			of[last], right[last] = make([]int, n), 0
			for _, i := range among[:len(among)-1] {
				c := 1 + r.IntN(3)
				for j := range n {
					of[last][j] += c * of[i][j]
				}
				right[last] += c * right[i]
			}
			named := make([]string, len(among))
			for i, a := range among {
				named[i] = fmt.Sprint(a + 1)
			}
			numbers := strings.Join(named[:len(named)-1], ", ") + " and " + named[len(named)-1]
			for _, c := range []struct {
				more int
				id   finding.ID
				want string
			}{
				{0, finding.NotSolved, "Equation " + named[len(named)-1] + " follows from equation"},
				{1, finding.NoSolution, "Equations " + numbers + " contradict each other"},
			} {
				right[last] += c.more
				e := New().Enter(t.Context(), linearSystem(of, right))
				if len(e.Findings) != 1 || e.Findings[0].ID != c.id || !strings.HasPrefix(e.Findings[0].Message, c.want) {
					t.Errorf("%d unknowns: want %q: %v", n, c.want, e.Findings)
				}
			}
		}
	}
}
