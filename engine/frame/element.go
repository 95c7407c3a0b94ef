package frame

import "math"

// element is a member in local axes: its stiffness for the freedoms (along,
// across, turning) at I and then at J.
type element struct {
	l, c, s float64
	k       [6][6]float64
}

// newElement builds member k with the axial force n (tension positive) in its
// geometric stiffness.
func newElement(f *Frame, k int, n float64) (e element) {
	m := f.Members[k]
	e.l = f.Length(k)
	e.c, e.s = f.axis(k)
	ea, ei, l := m.E*m.A/e.l, m.E*m.Iz/(e.l*e.l*e.l), e.l
	e.k[0][0], e.k[3][3], e.k[0][3], e.k[3][0] = ea, ea, -ea, -ea
	// Bending with cubic shapes and the consistent geometric stiffness.
	g := n / (30 * l)
	bend := [4][4]float64{
		{12*ei + 36*g, 6*l*ei + 3*l*g, -12*ei - 36*g, 6*l*ei + 3*l*g},
		{0, 4*l*l*ei + 4*l*l*g, -6*l*ei - 3*l*g, 2*l*l*ei - l*l*g},
		{0, 0, 12*ei + 36*g, -6*l*ei - 3*l*g},
		{0, 0, 0, 4*l*l*ei + 4*l*l*g},
	}
	at := [4]int{1, 2, 4, 5}
	for i := range 4 {
		for j := i; j < 4; j++ {
			e.k[at[i]][at[j]], e.k[at[j]][at[i]] = bend[i][j], bend[i][j]
		}
	}
	return e
}

// release frees the hinged ends of a member under the end loads eq. ok is
// false when such an end has lost its stiffness to compression.
func (e *element) release(m Member, eq *[6]float64) (ok bool) {
	ok = true
	if m.HingeI {
		ok = e.condense(2, eq)
	}
	if m.HingeJ {
		ok = e.condense(5, eq) && ok
	}
	return ok
}

// Three-point Gauss rule, exact for the product of a cubic shape and a linear
// load.
var (
	gaussX = [3]float64{0.5 - math.Sqrt(0.15), 0.5, 0.5 + math.Sqrt(0.15)}
	gaussW = [3]float64{5.0 / 18, 8.0 / 18, 5.0 / 18}
)

// endLoads are the equivalent loads of a piecewise linear load on both ends.
func (e *element) endLoads(load Load) (eq [6]float64) {
	for k := 1; k < len(load); k++ {
		a, b := load[k-1], load[k]
		d := b.S - a.S
		if d == 0 || a.P == 0 && b.P == 0 {
			continue
		}
		for q := range 3 {
			p := (a.P + (b.P-a.P)*gaussX[q]) * gaussW[q] * d
			x := (a.S + d*gaussX[q]) / e.l
			eq[1] += p * (1 - 3*x*x + 2*x*x*x)
			eq[2] += p * e.l * x * (1 - x) * (1 - x)
			eq[4] += p * x * x * (3 - 2*x)
			eq[5] -= p * e.l * x * x * (1 - x)
		}
	}
	return eq
}

// condense frees the freedom c. It reports false when there is no stiffness to
// condense, which only compression can bring about.
func (e *element) condense(c int, eq *[6]float64) bool {
	d := e.k[c][c]
	if d <= 0 {
		return false
	}
	row, load := e.k[c], eq[c]
	for i := range 6 {
		share := row[i] / d
		eq[i] -= share * load
		for j := range 6 {
			e.k[i][j] -= share * row[j]
		}
	}
	for i := range 6 { // exact zeros where rounding would leave dust
		e.k[c][i], e.k[i][c] = 0, 0
	}
	eq[c] = 0
	return true
}

// global is the stiffness in global axes: every 3 by 3 block b of it becomes
// Tt b T with the rotation T of the member.
func (e *element) global() (k [6][6]float64) {
	c, s := e.c, e.s
	for i := 0; i < 6; i += 3 {
		for j := 0; j < 6; j += 3 {
			var r [3][3]float64 // b T
			for p := range 3 {
				x, y := e.k[i+p][j], e.k[i+p][j+1]
				r[p] = [3]float64{x*c - y*s, x*s + y*c, e.k[i+p][j+2]}
			}
			for q := range 3 {
				k[i][j+q] = c*r[0][q] - s*r[1][q]
				k[i+1][j+q] = s*r[0][q] + c*r[1][q]
				k[i+2][j+q] = r[2][q]
			}
		}
	}
	return k
}

// turned are end loads in global axes.
func (e *element) turned(eq [6]float64) [6]float64 {
	for b := 0; b < 6; b += 3 {
		eq[b], eq[b+1] = e.c*eq[b]-e.s*eq[b+1], e.s*eq[b]+e.c*eq[b+1]
	}
	return eq
}

// local turns the displacements of both ends into the axes of the member.
func (e *element) local(ui, uj [3]float64) [6]float64 {
	return [6]float64{
		e.c*ui[0] + e.s*ui[1], -e.s*ui[0] + e.c*ui[1], ui[2],
		e.c*uj[0] + e.s*uj[1], -e.s*uj[0] + e.c*uj[1], uj[2],
	}
}

// loaded is an element with the end loads of its member.
type loaded struct {
	*element
	eq [6]float64
}

// forces are the forces on the ends of the member for local displacements.
// Along and across a straight member do not mix.
func (e *loaded) forces(u *[6]float64) (q [6]float64) {
	for _, i := range [2]int{0, 3} {
		k := &e.k[i]
		q[i] = k[0]*u[0] + k[3]*u[3] - e.eq[i]
	}
	for _, i := range [4]int{1, 2, 4, 5} {
		k := &e.k[i]
		q[i] = k[1]*u[1] + k[2]*u[2] + k[4]*u[4] + k[5]*u[5] - e.eq[i]
	}
	return q
}
