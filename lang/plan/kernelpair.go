package plan

// Kernels of two and three columns.

func kernelMul2(a *kernelArgs) { // c0·x·y
	d := a.dst
	x, y, c := a.x[:len(d)], a.y[:len(d)], a.c[0]
	for i := range d {
		d[i] = c * float64(x[i]*y[i])
	}
}

func kernelMul2Plain(a *kernelArgs) { // x·y
	d := a.dst
	x, y := a.x[:len(d)], a.y[:len(d)]
	for i := range d {
		d[i] = x[i] * y[i]
	}
}

func kernelMul3(a *kernelArgs) { // c0·x·y·z
	d := a.dst
	x, y, z, c := a.x[:len(d)], a.y[:len(d)], a.z[:len(d)], a.c[0]
	for i := range d {
		d[i] = c * float64(float64(x[i]*y[i])*z[i])
	}
}

func kernelDiv11(a *kernelArgs) { // c0·x/y
	d := a.dst
	x, y, c := a.x[:len(d)], a.y[:len(d)], a.c[0]
	for i := range d {
		d[i] = c * float64(x[i]/y[i])
	}
}

func kernelDiv21(a *kernelArgs) { // c0·x·y/z
	d := a.dst
	x, y, z, c := a.x[:len(d)], a.y[:len(d)], a.z[:len(d)], a.c[0]
	for i := range d {
		d[i] = c * float64(float64(x[i]*y[i])/z[i])
	}
}

func kernelDiv12(a *kernelArgs) { // c0·x/(y·z)
	d := a.dst
	x, y, z, c := a.x[:len(d)], a.y[:len(d)], a.z[:len(d)], a.c[0]
	for i := range d {
		d[i] = c * float64(x[i]/float64(y[i]*z[i]))
	}
}

func kernelDiv02(a *kernelArgs) { // c0/(x·y)
	d := a.dst
	x, y, c := a.x[:len(d)], a.y[:len(d)], a.c[0]
	for i := range d {
		d[i] = c / float64(x[i]*y[i])
	}
}

func kernelSum2(a *kernelArgs) { // c1·x + c2·y
	d := a.dst
	x, y, c1, c2 := a.x[:len(d)], a.y[:len(d)], a.c[1], a.c[2]
	for i := range d {
		d[i] = float64(c1*x[i]) + float64(c2*y[i])
	}
}

func kernelSum2Const(a *kernelArgs) { // (c1·x + c2·y) + c3
	d := a.dst
	x, y, c1, c2, c3 := a.x[:len(d)], a.y[:len(d)], a.c[1], a.c[2], a.c[3]
	for i := range d {
		d[i] = float64(c1*x[i]) + float64(c2*y[i]) + c3
	}
}

func kernelSum3(a *kernelArgs) { // (c1·x + c2·y) + c3·z
	d := a.dst
	x, y, z, c1, c2, c3 := a.x[:len(d)], a.y[:len(d)], a.z[:len(d)], a.c[1], a.c[2], a.c[3]
	for i := range d {
		d[i] = float64(c1*x[i]) + float64(c2*y[i]) + float64(c3*z[i])
	}
}

func kernelSquare2(a *kernelArgs) { // c1·x² + c2·y²
	d := a.dst
	x, y, c1, c2 := a.x[:len(d)], a.y[:len(d)], a.c[1], a.c[2]
	for i := range d {
		u, v := x[i], y[i]
		d[i] = float64(c1*float64(u*u)) + float64(c2*float64(v*v))
	}
}

func kernelMulConst(a *kernelArgs) { // c1·x·y + c2
	d := a.dst
	x, y, c1, c2 := a.x[:len(d)], a.y[:len(d)], a.c[1], a.c[2]
	for i := range d {
		d[i] = float64(c1*float64(x[i]*y[i])) + c2
	}
}

func kernelMulAdd(a *kernelArgs) { // c1·x·y + c2·z
	d := a.dst
	x, y, z, c1, c2 := a.x[:len(d)], a.y[:len(d)], a.z[:len(d)], a.c[1], a.c[2]
	for i := range d {
		d[i] = float64(c1*float64(x[i]*y[i])) + float64(c2*z[i])
	}
}
