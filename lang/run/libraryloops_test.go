package run_test

import "math"

// The loops beside the relations of the formula library; col is what is
// swept, val the other values.

//go:noinline
func loopSpringEnergy(dst, col, val []float64) {
	k := val[0]
	for i, x := range col {
		dst[i] = 0.5 * k * x * x
	}
}

//go:noinline
func loopGravity(dst, col, val []float64) {
	m, g := val[0], val[1]
	for i, h := range col {
		dst[i] = m * g * h
	}
}

//go:noinline
func loopPeriod(dst, col, val []float64) {
	k := val[0]
	for i, m := range col {
		dst[i] = 2 * math.Pi * math.Sqrt(m/k)
	}
}

//go:noinline
func loopOscillation(dst, col, val []float64) {
	a, omega, phi := val[0], val[1], val[2]
	for i, t := range col {
		dst[i] = a * math.Cos(omega*t+phi)
	}
}

//go:noinline
func loopSpringForce(dst, col, val []float64) {
	k := val[0]
	for i, x := range col {
		dst[i] = -k * x
	}
}

//go:noinline
func loopPower(dst, col, val []float64) {
	w := val[0]
	for i, t := range col {
		dst[i] = w / t
	}
}

//go:noinline
func loopTotalEnergy(dst, col, val []float64) {
	k, m, v := val[0], val[1], val[2]
	kinetic := m * v * v / 2
	for i, x := range col {
		dst[i] = 0.5*k*x*x + kinetic
	}
}

//go:noinline
func loopAcceleration(dst, col, val []float64) {
	a := val[0]
	for i, omega := range col {
		dst[i] = omega * omega * a
	}
}

//go:noinline
func loopSpeed(dst, col, val []float64) {
	v0, a, x0 := val[0], val[1], val[2]
	for i, x := range col {
		dst[i] = math.Sqrt(v0*v0 + 2*a*(x-x0))
	}
}

//go:noinline
func loopRange(dst, col, val []float64) {
	v0, g := val[0], val[1]
	k := v0 * v0 / g
	for i, theta := range col {
		dst[i] = k * math.Sin(2*theta)
	}
}
