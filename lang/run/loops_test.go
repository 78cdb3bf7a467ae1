package run_test

import "math"

// The loops that the columns is measured against: each equation of
// testdata/relations.csv as it stands, what doesn't vary worked out before the
// loop. val has the values of the names in the order of that file.

var runtimeLoops = map[string]func(dst, col, val []float64){
	"REL-001": loop001,
	"REL-003": loop003,
	"REL-005": loop005,
	"REL-008": loop008,
	"REL-010": loop010,
	"REL-012": loop012,
	"REL-015": loop015,
	"REL-017": loop017,
	"REL-019": loop019,
	"REL-022": loop022,
	"REL-024": loop024,
	"REL-026": loop026,
	"REL-029": loop029,
	"REL-031": loop031,
	"REL-033": loop033,
	"REL-036": loop036,
	"REL-038": loop038,
	"REL-040": loop040,
	"REL-043": loop043,
	"REL-045": loop045,
	"REL-047": loop047,
	"REL-050": loop050,
	"REL-052": loop052,
	"REL-054": loop054,
	"REL-057": loop057,
	"REL-059": loop059,
	"REL-061": loop061,
	"REL-064": loop064,
	"REL-066": loop066,
	"REL-068": loop068,
	"REL-071": loop071,
	"REL-073": loop073,
	"REL-075": loop075,
	"REL-078": loop078,
	"REL-080": loop080,
	"REL-082": loop082,
	"REL-085": loop085,
	"REL-087": loop087,
	"REL-089": loop089,
	"REL-092": loop092,
	"REL-094": loop094,
	"REL-096": loop096,
	"REL-099": loop099,
	"REL-101": loop101,
	"REL-103": loop103,
	"REL-106": loop106,
	"REL-108": loop108,
	"REL-110": loop110,
	"REL-113": loop113,
	"REL-115": loop115,
}

//go:noinline
func loop001(dst, col, val []float64) { // v_avg = dx/dt
	dt := val[1]
	for i, u := range col {
		dst[i] = u / dt
	}
}

//go:noinline
func loop003(dst, col, val []float64) { // x = x0 + v_avg*t
	x0, t := val[0], val[2]
	for i, u := range col {
		dst[i] = x0 + u*t
	}
}

//go:noinline
func loop005(dst, col, val []float64) { // v = v0 + a*t
	v0, a := val[0], val[1]
	for i, u := range col {
		dst[i] = v0 + a*u
	}
}

//go:noinline
func loop008(dst, col, val []float64) { // v = v0 - g*t
	g, t := val[1], val[2]
	k1 := g * t
	for i, u := range col {
		dst[i] = u - k1
	}
}

//go:noinline
func loop010(dst, col, val []float64) { // v = sqrt(v0^2 - 2*g*(y - y0))
	g, y, y0 := val[1], val[2], val[3]
	k1 := 2 * g * (y - y0)
	for i, u := range col {
		dst[i] = math.Sqrt(u*u - k1)
	}
}

//go:noinline
func loop012(dst, col, val []float64) { // R = v0^2*sin(2*theta)/g
	v0, theta := val[0], val[1]
	k1 := v0 * v0 * math.Sin(2*theta)
	for i, u := range col {
		dst[i] = k1 / u
	}
}

//go:noinline
func loop015(dst, col, val []float64) { // w = m*g
	g := val[1]
	for i, u := range col {
		dst[i] = u * g
	}
}

//go:noinline
func loop017(dst, col, val []float64) { // a = g*sin(theta)
	g := val[0]
	for i, u := range col {
		dst[i] = g * math.Sin(u)
	}
}

//go:noinline
func loop019(dst, col, val []float64) { // f_s = mu_s*N
	N := val[1]
	for i, u := range col {
		dst[i] = u * N
	}
}

//go:noinline
func loop022(dst, col, val []float64) { // v = sqrt(2*m*g/(rho*C_D*S))
	m, g, rho, C_D := val[0], val[1], val[2], val[3]
	k1 := rho * C_D
	k2 := 2 * m * g
	for i, u := range col {
		dst[i] = math.Sqrt(k2 / (k1 * u))
	}
}

//go:noinline
func loop024(dst, col, val []float64) { // U = k*x^2/2
	x := val[1]
	k1 := x * x
	for i, u := range col {
		dst[i] = u * k1 / 2
	}
}

//go:noinline
func loop026(dst, col, val []float64) { // k = m*g/x
	m, g := val[0], val[1]
	k1 := m * g
	for i, u := range col {
		dst[i] = k1 / u
	}
}

//go:noinline
func loop029(dst, col, val []float64) { // W = -f_k*d
	d := val[1]
	for i, u := range col {
		dst[i] = (-u) * d
	}
}

//go:noinline
func loop031(dst, col, val []float64) { // K = p^2/(2*m)
	p := val[0]
	k1 := p * p
	for i, u := range col {
		dst[i] = k1 / (2 * u)
	}
}

//go:noinline
func loop033(dst, col, val []float64) { // U = m*g*h
	m, g := val[0], val[1]
	k1 := m * g
	for i, u := range col {
		dst[i] = k1 * u
	}
}

//go:noinline
func loop036(dst, col, val []float64) { // P = F*v
	F := val[0]
	for i, u := range col {
		dst[i] = F * u
	}
}

//go:noinline
func loop038(dst, col, val []float64) { // J = F*dt
	dt := val[1]
	for i, u := range col {
		dst[i] = u * dt
	}
}

//go:noinline
func loop040(dst, col, val []float64) { // v = (m1*v1 + m2*v2)/(m1 + m2)
	m1, m2, v2 := val[0], val[2], val[3]
	k1 := m1 + m2
	k2 := m2 * v2
	for i, u := range col {
		dst[i] = (m1*u + k2) / k1
	}
}

//go:noinline
func loop043(dst, col, val []float64) { // x_cm = (m1*x1 + m2*x2)/(m1 + m2)
	m1, x1, x2 := val[0], val[1], val[3]
	k1 := m1 * x1
	for i, u := range col {
		dst[i] = (k1 + u*x2) / (m1 + u)
	}
}

//go:noinline
func loop045(dst, col, val []float64) { // a = r*omega^2
	r := val[0]
	for i, u := range col {
		dst[i] = r * (u * u)
	}
}

//go:noinline
func loop047(dst, col, val []float64) { // theta = atan(v^2/(r*g))
	v, r := val[0], val[1]
	k1 := v * v
	for i, u := range col {
		dst[i] = math.Atan(k1 / (r * u))
	}
}

//go:noinline
func loop050(dst, col, val []float64) { // g = G*M/r^2
	M, r := val[1], val[2]
	k1 := r * r
	for i, u := range col {
		dst[i] = u * M / k1
	}
}

//go:noinline
func loop052(dst, col, val []float64) { // v = sqrt(2*G*M/r)
	G, r := val[0], val[2]
	k1 := 2 * G
	for i, u := range col {
		dst[i] = math.Sqrt(k1 * u / r)
	}
}

//go:noinline
func loop054(dst, col, val []float64) { // T = 2*pi*sqrt(r^3/(G*M))
	r, G := val[0], val[1]
	k1 := r * r * r
	k2 := 2 * math.Pi
	for i, u := range col {
		dst[i] = k2 * math.Sqrt(k1/(G*u))
	}
}

//go:noinline
func loop057(dst, col, val []float64) { // v = r*omega
	omega := val[1]
	for i, u := range col {
		dst[i] = u * omega
	}
}

//go:noinline
func loop059(dst, col, val []float64) { // omega = omega0 + alpha*t
	omega0, t := val[0], val[2]
	for i, u := range col {
		dst[i] = omega0 + u*t
	}
}

//go:noinline
func loop061(dst, col, val []float64) { // omega = sqrt(omega0^2 + 2*alpha*theta)
	omega0, alpha := val[0], val[1]
	k1 := 2 * alpha
	k2 := omega0 * omega0
	for i, u := range col {
		dst[i] = math.Sqrt(k2 + k1*u)
	}
}

//go:noinline
func loop064(dst, col, val []float64) { // I = M*L^2/3
	M := val[0]
	for i, u := range col {
		dst[i] = M * (u * u) / 3
	}
}

//go:noinline
func loop066(dst, col, val []float64) { // I = I_cm + m*d^2
	I_cm, d := val[0], val[2]
	k1 := d * d
	for i, u := range col {
		dst[i] = I_cm + u*k1
	}
}

//go:noinline
func loop068(dst, col, val []float64) { // tau = r*F*sin(theta)
	r, F := val[0], val[1]
	k1 := r * F
	for i, u := range col {
		dst[i] = k1 * math.Sin(u)
	}
}

//go:noinline
func loop071(dst, col, val []float64) { // P = tau*omega
	omega := val[1]
	for i, u := range col {
		dst[i] = u * omega
	}
}

//go:noinline
func loop073(dst, col, val []float64) { // omega = I0*omega0/I
	I0, I := val[0], val[2]
	for i, u := range col {
		dst[i] = I0 * u / I
	}
}

//go:noinline
func loop075(dst, col, val []float64) { // a = m*g*sin(theta)/(m + I/r^2)
	m, g, I, r := val[0], val[1], val[3], val[4]
	k1 := m + I/(r*r)
	k2 := m * g
	for i, u := range col {
		dst[i] = k2 * math.Sin(u) / k1
	}
}

//go:noinline
func loop078(dst, col, val []float64) { // omega = 2*pi*f
	k1 := 2 * math.Pi
	for i, u := range col {
		dst[i] = k1 * u
	}
}

//go:noinline
func loop080(dst, col, val []float64) { // T = 2*pi*sqrt(m/k)
	k := val[1]
	k1 := 2 * math.Pi
	for i, u := range col {
		dst[i] = k1 * math.Sqrt(u/k)
	}
}

//go:noinline
func loop082(dst, col, val []float64) { // x = A*cos(omega*t + phi)
	A, omega, t := val[0], val[1], val[2]
	k1 := omega * t
	for i, u := range col {
		dst[i] = A * math.Cos(k1+u)
	}
}

//go:noinline
func loop085(dst, col, val []float64) { // a = -omega^2*x
	x := val[1]
	for i, u := range col {
		dst[i] = (-(u * u)) * x
	}
}

//go:noinline
func loop087(dst, col, val []float64) { // a_max = A*omega^2
	A := val[0]
	for i, u := range col {
		dst[i] = A * (u * u)
	}
}

//go:noinline
func loop089(dst, col, val []float64) { // E = k*x^2/2 + m*v^2/2
	k, x, v := val[0], val[1], val[3]
	k1 := v * v
	k2 := k * (x * x) / 2
	for i, u := range col {
		dst[i] = k2 + u*k1/2
	}
}

//go:noinline
func loop092(dst, col, val []float64) { // omega = sqrt(g/L)
	g := val[0]
	for i, u := range col {
		dst[i] = math.Sqrt(g / u)
	}
}

//go:noinline
func loop094(dst, col, val []float64) { // omega = sqrt(m*g*L/I)
	g, L, I := val[1], val[2], val[3]
	for i, u := range col {
		dst[i] = math.Sqrt(u * g * L / I)
	}
}

//go:noinline
func loop096(dst, col, val []float64) { // T = 2*pi*sqrt(I/kappa)
	I := val[0]
	k1 := 2 * math.Pi
	for i, u := range col {
		dst[i] = k1 * math.Sqrt(I/u)
	}
}

//go:noinline
func loop099(dst, col, val []float64) { // k_w = 2*pi/lam
	k1 := 2 * math.Pi
	for i, u := range col {
		dst[i] = k1 / u
	}
}

//go:noinline
func loop101(dst, col, val []float64) { // v = sqrt(F_T/mu_l)
	F_T := val[0]
	for i, u := range col {
		dst[i] = math.Sqrt(F_T / u)
	}
}

//go:noinline
func loop103(dst, col, val []float64) { // f = n*v/(4*L)
	n, v := val[0], val[1]
	k1 := n * v
	for i, u := range col {
		dst[i] = k1 / (4 * u)
	}
}

//go:noinline
func loop106(dst, col, val []float64) { // rho = m/V
	m := val[0]
	for i, u := range col {
		dst[i] = m / u
	}
}

//go:noinline
func loop108(dst, col, val []float64) { // p_f = p_0 + rho*g*h
	p_0, rho, h := val[0], val[1], val[3]
	for i, u := range col {
		dst[i] = p_0 + rho*u*h
	}
}

//go:noinline
func loop110(dst, col, val []float64) { // F = rho*V*g
	rho, V := val[0], val[1]
	k1 := rho * V
	for i, u := range col {
		dst[i] = k1 * u
	}
}

//go:noinline
func loop113(dst, col, val []float64) { // p_2 = p_1 + rho*(v1^2 - v2^2)/2 + rho*g*(y1 - y2)
	p_1, rho, v1, v2, g, y1 := val[0], val[1], val[2], val[3], val[4], val[5]
	k1 := rho * g
	k2 := p_1 + rho*(v1*v1-v2*v2)/2
	for i, u := range col {
		dst[i] = k2 + k1*(y1-u)
	}
}

//go:noinline
func loop115(dst, col, val []float64) { // S_m = F*L/(S*dx)
	F, S, dx := val[0], val[2], val[3]
	k1 := S * dx
	for i, u := range col {
		dst[i] = F * u / k1
	}
}
