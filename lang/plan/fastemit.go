package plan

// fastEmitter turns nodes into steps. Columns are numbered inputs first, then
// outputs, constants and workspace.
type fastEmitter struct {
	f     *Fast
	g     *fastGraph
	roots []fastID
	uses  []int32
	at    []int32    // the column of a node that has one, or -1
	steps []fastStep // workspace columns count from fastTemp on
	made  int32
}

// fastTemp is where workspace columns are numbered from until it is known how
// many can share one place.
const fastTemp = 1 << 20

func newFastEmitter(f *Fast, g *fastGraph, roots []fastID) *fastEmitter {
	e := &fastEmitter{f: f, g: g, roots: roots}
	e.grow()
	for _, r := range roots {
		e.count(r)
	}
	return e
}

// grow keeps the tables as long as the graph, which matching may add to.
func (e *fastEmitter) grow() {
	for len(e.at) < len(e.g.nodes) {
		e.at = append(e.at, -1)
		e.uses = append(e.uses, 0)
	}
}

// count counts how often each node is used.
func (e *fastEmitter) count(id fastID) {
	if e.uses[id]++; e.uses[id] > 1 {
		return
	}
	n := &e.g.nodes[id]
	if n.kind == fastProduct {
		for _, f := range n.factors[:n.n] {
			e.count(f.id)
		}
		return
	}
	if n.kind == fastInput {
		return
	}
	for _, o := range []fastID{n.a, n.b, n.c} {
		if o >= 0 {
			e.count(o)
		}
	}
}

func (e *fastEmitter) emitAll() {
	for i, r := range e.roots {
		dst := int32(e.f.inputs + i)
		n := &e.g.nodes[r]
		switch {
		case n.kind == fastConst:
			e.steps = append(e.steps, fastStep{run: kernelFill, dst: dst, x: -1, y: -1, z: -1, c: [5]float64{n.k}})
		case n.kind == fastInput:
			e.steps = append(e.steps, fastStep{run: kernelCopy, dst: dst, x: int32(n.a), y: -1, z: -1})
		case e.at[r] >= 0:
			e.steps = append(e.steps, fastStep{run: kernelCopy, dst: dst, x: e.at[r], y: -1, z: -1})
		default:
			e.emit(r, dst)
		}
	}
	e.place()
}

// column returns the column of a node, worked out if it isn't yet.
func (e *fastEmitter) column(id fastID) int32 {
	if id < 0 {
		return -1
	}
	e.grow()
	n := e.g.nodes[id]
	switch {
	case n.kind == fastInput:
		return int32(n.a)
	case e.at[id] >= 0:
		return e.at[id]
	case n.kind == fastConst:
		e.at[id] = int32(e.f.inputs + e.f.outputs + len(e.f.consts))
		e.f.consts = append(e.f.consts, []float64{n.k})
		return e.at[id]
	}
	dst := fastTemp + e.made
	e.made++
	e.emit(id, dst)
	return dst
}

// emit adds the steps that put a node into a column.
func (e *fastEmitter) emit(id fastID, dst int32) {
	m := e.match(id)
	e.grow()
	s := fastStep{run: m.run, c: m.c, op: m.op, k: m.k}
	s.x, s.y, s.z = e.column(m.x), e.column(m.y), e.column(m.z)
	s.dst = dst
	e.at[id] = dst
	e.steps = append(e.steps, s)
}

// place gives workspace columns a place each, as few as their spans of use
// allow. A pass may write over what it reads last, lane by lane.
func (e *fastEmitter) place() {
	last := make([]int, e.made)
	for i := range e.steps {
		for _, c := range e.steps[i].reads() {
			if c >= fastTemp {
				last[c-fastTemp] = i
			}
		}
	}
	base := int32(e.f.inputs + e.f.outputs + len(e.f.consts))
	place := make([]int32, e.made)
	var free []int32
	used := int32(0)
	move := func(c *int32) {
		if *c >= fastTemp {
			*c = base + place[*c-fastTemp]
		}
	}
	for i := range e.steps {
		s := &e.steps[i]
		reads := s.reads()
		for j, c := range reads {
			if c >= fastTemp && last[c-fastTemp] == i && !(j > 0 && reads[0] == c) && !(j > 1 && reads[1] == c) {
				free = append(free, place[c-fastTemp])
			}
		}
		if s.dst >= fastTemp {
			t := s.dst - fastTemp
			if n := len(free); n > 0 {
				place[t], free = free[n-1], free[:n-1]
			} else {
				place[t] = used
				used++
			}
		}
		move(&s.dst)
		move(&s.x)
		move(&s.y)
		move(&s.z)
	}
	e.finish(int(used))
}

// finish makes the workspace.
func (e *fastEmitter) finish(temps int) {
	f := e.f
	f.steps = e.steps
	if temps > 2 {
		f.block = fastShortBlock
	}
	f.sure = make([]bool, f.block)
	for i := range f.sure {
		f.sure[i] = true
	}
	for range temps {
		f.temps = append(f.temps, make([]float64, f.block))
	}
	f.cols = make([][]float64, f.inputs+f.outputs, f.inputs+f.outputs+len(f.consts)+temps)
	f.cols = append(f.cols, f.consts...)
	f.cols = append(f.cols, f.temps...)
}

func (s *fastStep) reads() [3]int32 { return [3]int32{s.x, s.y, s.z} }
