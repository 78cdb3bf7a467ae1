package referee

import (
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// family is a way to build pages, with the least part of them that must be solved:
// 0.999 where there is a closed form, 0.99 elsewhere.
type family struct {
	name  string
	build func(d dice) scene
	least float64
	// weight is how many of the cases are of this family, beside the others.
	weight int
	// mending tells that the scratchpad is known to fail here, and is being mended:
	// the family is judged where REFEREE_ALL is set.
	mending bool
}

const (
	closedForm  = 0.999
	byIteration = 0.99
)

var families = []family{
	{"factors", factors, closedForm, 4, false},
	{"undone", undone, closedForm, 4, false},
	{"even roots", evenRoots, closedForm, 4, false},
	{"throws", throws, closedForm, 4, false},
	{"touching", touching, closedForm, 4, false},
	{"charges", charges, closedForm, 4, false},
	{"owned", owned, closedForm, 4, false},
	{"cancelling", cancelling, closedForm, 4, false},
	{"sums", sums, closedForm, 4, false},
	{"bounded", bounded, closedForm, 4, false},
	{"angles", angles, closedForm, 2, false},
	{"multiples", multiples, byIteration, 2, false},
	{"exponentials", exponentials, closedForm, 2, false},
	{"quotients", quotients, byIteration, 1, false},
	{"squares", squares, byIteration, 2, false},
	{"pythagorean", pythagorean, closedForm, 2, false},
	{"tangents", tangents, closedForm, 2, false},
	{"extremal", extremal, closedForm, 2, false},
	{"far", far, byIteration, 1, false},
	{"osculating", osculating, byIteration, 1, false},
	{"gaps", gaps, closedForm, 1, false},
	{"inverses", inverses, closedForm, 4, false},
	{"transcendental", transcendental, byIteration, 1, false},
	{"vanishing", vanishing, closedForm, 2, false},
	{"domains", domains, closedForm, 4, false},
	{"jumps", jumps, closedForm, 4, false},
	{"stretches", stretches, closedForm, 2, false},
	{"recurring", recurring, closedForm, 1, false},
	{"conditions", conditions, closedForm, 4, false},
	{"expressed", expressed, closedForm, 4, false},
	{"tables", tables, closedForm, 2, false},
	{"books", books, closedForm, 4, false},
	{"replaced", replaced, closedForm, 4, false},
	{"scalings", scalings, closedForm, 4, false},
	{"systems", systems, closedForm, 4, false},
	{"remainders", remainders, closedForm, 10, false},
	{"exact angles", exactAngles, closedForm, 10, false},
	{"arithmetic", arithmetic, closedForm, 10, false},
	{"identities", identities, closedForm, 6, false},
	{"pulses", pulses, byIteration, 2, false},
	{"steps", steps, closedForm, 2, false},
	{"seams", seams, closedForm, 2, false},
	{"areas", smoothAreas, byIteration, 1, false},
	{"slopes", slopes, closedForm, 4, false},
	{"graphs", graphs, byIteration, 1, false},
	{"poles", poles, byIteration, 1, false},
	{"insides", insides, byIteration, 2, false},
}

// cases is how many pages are judged. REFEREE sets it: 100000 takes a minute,
// 10000000 looks for what is rare.
func cases() int { return set("REFEREE", 3000) }

// set is a number of the environment, or one that serves for it.
func set(name string, or int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return or
}

// tally counts what became of the cases of a family.
type tally struct {
	sync.Mutex
	cases, solved int
	wrong, silent []string
}

// keep is how many lines of each kind are kept for the report.
const keep = 12

// hold judges one case. Its number is its seed.
func (f *family) hold(n int, t *tally) {
	s := f.build(dice{rand.New(rand.NewPCG(uint64(n), 9))})
	h := hear(s.lines)
	r := s.judge(h)
	t.Lock()
	defer t.Unlock()
	t.cases++
	line := ""
	if r.wrong != "" || !r.solved {
		line = fmt.Sprintf("%s %d: %s\n      says: %s", f.name, n, strings.Join(s.lines, "; "), h.said())
	}
	switch {
	case r.wrong != "":
		t.wrong = append(t.wrong, line+"\n      true: "+r.wrong)
	case r.solved:
		t.solved++
	default:
		t.silent = append(t.silent, line)
	}
}

// spread judges so many cases on all processors. REFEREE_FROM leaves out the first so
// many of each family, so that a long run can be made in parts.
func (f *family) spread(n int) *tally {
	from := set("REFEREE_FROM", 0)
	t := &tally{}
	var wait sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wait.Go(func() {
			for i := w; i < n; i += workers {
				f.hold(from+i, t)
			}
		})
	}
	wait.Wait()
	return t
}

// TestReferee tolerates no wrong value and no false claim, and tells which part of
// each family is solved.
func TestReferee(t *testing.T) {
	weights := 0
	for i := range families {
		weights += families[i].weight
	}
	total := cases()
	for i := range families {
		f := &families[i]
		t.Run(f.name, func(t *testing.T) {
			if f.mending && os.Getenv("REFEREE_ALL") == "" {
				t.Skip("being mended")
			}
			got := f.spread(total * f.weight / weights)
			share := float64(got.solved) / float64(max(got.cases, 1))
			t.Logf("%-14s %7d cases, %6.2f %% solved, at least %.1f %% wanted", f.name, got.cases, 100*share, 100*f.least)
			for _, line := range got.wrong[:min(keep, len(got.wrong))] {
				t.Error(line)
			}
			if n := len(got.wrong); n > 0 {
				t.Errorf("%d wrong", n)
			}
			if share >= f.least {
				return
			}
			t.Errorf("only %.2f %% solved", 100*share)
			for _, line := range got.silent[:min(keep, len(got.silent))] {
				t.Log(line)
			}
		})
	}
}

// BenchmarkReferee judges cases of all families in turn.
func BenchmarkReferee(b *testing.B) {
	t := &tally{}
	n := 0
	for b.Loop() {
		families[n%len(families)].hold(n/len(families), t)
		n++
	}
	for _, line := range t.wrong {
		b.Error(line)
	}
	b.ReportMetric(100*float64(t.solved)/float64(t.cases), "%solved")
}
