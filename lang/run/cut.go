package run

// Cut is a part of a main code that runs by itself, lane after lane: parameters
// stand for the slots that vary.
type Cut struct {
	w    floatWalker
	code *Code
}

// NewCut prepares a code cut out of a program's main code. Its parameters are
// read from params whenever it runs; moved tells where slots that functions
// load are now.
func NewCut(p *Program, code *Code, params []float64, moved map[Slot]Slot) *Cut {
	st := &State{}
	st.grow(len(code.Instrs))
	return &Cut{floatWalker{walker[float64, floats]{p: p, st: st, left: walkEvery, params: params, moved: moved}}, code}
}

// Run works out one lane. The state holds until the next.
func (c *Cut) Run() *State {
	c.w.st.failures = c.w.st.failures[:0]
	c.w.runMain(c.code, 0, Slot(len(c.code.Instrs)))
	return c.w.st
}
