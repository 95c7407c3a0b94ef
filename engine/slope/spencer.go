package slope

import (
	"fmt"
	"math"
)

// Forces is a solution that balances all forces and all moments.
type Forces struct {
	F float64
	// Lambda scales the slope of the forces between slices, X = Lambda f(x) E.
	Lambda float64
	// Theta is the angle at which they act, rad, where that is one.
	Theta float64
	// Pulled is how many slices are pulled from their base.
	Pulled int
}

// Spencer is the factor of safety with the forces between slices at one angle
// (Spencer 1967, 1973, memory). It holds for any slip line. Where nothing
// balances all forces and moments it says so.
func (m *Mass) Spencer() (Forces, error) {
	return m.balance(func(float64) float64 { return 1 })
}

// HalfSine is the factor of safety with the forces between slices sloped by half
// a sine from end to end (Morgenstern & Price 1965, memory). It holds for any
// slip line.
func (m *Mass) HalfSine() (Forces, error) {
	return m.balance(func(t float64) float64 { return math.Sin(math.Pi * t) })
}

// march is one pass over the slices under trial values.
type march struct {
	m      *Mass
	f      []float64 // f(x) at the sides of the slices
	pulled int
	off    float64 // moment that is left over, kNm, about the middle of the line
}

// run gives the force between slices that is left at the right end, kN: the mass
// is in balance where it is that of the water in the crack. ok is false where a
// slice has no solution.
func (w *march) run(factor, lambda float64) (left float64, ok bool) {
	m := w.m
	e, x := 0.0, 0.0
	w.off, w.pulled = 0, 0
	cx, cz := (m.Slip.A[0]+m.Slip.B[0])/2, math.Max(m.Slip.A[1], m.Slip.B[1])
	for i := range m.Slices {
		s := &m.Slices[i]
		sin, cos := s.sin, s.cos
		kw, lf := m.Kh*s.Soil, lambda*w.f[i+1]
		cl, ul, t := s.C*s.Length/factor, s.U*s.Length, s.Tan/factor
		a, b := e-kw-ul*sin+cl*cos, -sin+t*cos
		d := cos + t*sin - lf*b
		if d < 0.05 {
			return 0, false
		}
		n := (s.Weight - ul*cos - cl*sin + lf*a - x) / d
		if n < 0 {
			w.pulled++
		}
		e = a + b*n
		x = lf * e
		total, shear := n+ul, cl+n*t
		fx, fz := -total*sin+shear*cos, total*cos+shear*sin
		bx, bz := s.Base[0]-cx, s.Base[1]-cz
		w.off += bx*fz - bz*fx - bx*s.Weight + (s.Middle-cz)*kw
	}
	w.off += m.Thrust * (m.Level - cz)
	return e - m.Thrust, true
}

// factor is the factor at which the forces balance under a lambda.
func (w *march) factor(lambda, from float64) (float64, bool) {
	// what is left falls as the factor grows
	lo, hi := from, from
	l, ok := w.run(from, lambda)
	if !ok {
		return 0, false
	}
	h := l
	for k := 0; l <= 0; k++ {
		hi, h = lo, l
		lo *= 0.8
		if l, ok = w.run(lo, lambda); !ok || k > 30 {
			return 0, false
		}
	}
	for k := 0; h > 0; k++ {
		lo, l = hi, h
		hi *= 1.25
		if h, ok = w.run(hi, lambda); !ok || k > 60 {
			return 0, false
		}
	}
	return falsi(lo, l, hi, h, 1e-9*w.scale(), func(f float64) (float64, bool) { return w.run(f, lambda) })
}

// falsi closes in on the root between a and b, where the values have different
// signs, until the value is below tol or the interval below rounding (regula
// falsi, the Illinois way).
func falsi(a, fa, b, fb, tol float64, f func(x float64) (float64, bool)) (x float64, ok bool) {
	side := 0
	for range 200 {
		x = b - fb*(b-a)/(fb-fa)
		v, ok := f(x)
		if !ok {
			return 0, false
		}
		if math.Abs(v) < tol || math.Abs(b-a) < 1e-12*math.Abs(x) {
			return x, true
		}
		if (v > 0) == (fa > 0) {
			a, fa = x, v
			if side == 1 {
				fb /= 2
			}
			side = 1
			continue
		}
		b, fb = x, v
		if side == -1 {
			fa /= 2
		}
		side = -1
	}
	return 0, false
}

// scale is a force of the size of the mass, kN.
func (w *march) scale() float64 {
	sum := 0.0
	for i := range w.m.Slices {
		sum += w.m.Slices[i].Weight
	}
	return sum
}

// balance finds factor and lambda at which forces and moments balance.
func (m *Mass) balance(shape func(t float64) float64) (Forces, error) {
	w := &march{m: m, f: make([]float64, len(m.Slices)+1)}
	x0, x1 := m.Slices[0].X[0], m.Slices[len(m.Slices)-1].X[1]
	for i := range w.f {
		x := x0
		if i > 0 {
			x = m.Slices[i-1].X[1]
		}
		w.f[i] = shape((x - x0) / (x1 - x0))
	}
	w.f[len(m.Slices)] = 0 // water in the crack, or nothing, presses level
	start, err := m.start()
	if err != nil {
		return Forces{}, err
	}
	if m.plane() { // the forces along it decide, however the slices share them
		f, ok := w.factor(0, start)
		if !ok {
			return Forces{}, ErrRounds
		}
		return Forces{F: f, Pulled: w.pulled}, nil
	}
	// the moment left over along the curve on which the forces balance
	at := func(lambda float64) (f, off float64, ok bool) {
		if f, ok = w.factor(lambda, start); !ok {
			return f, 0, false
		}
		return f, w.off, true
	}
	lo, hi, ok := bracket(at)
	if !ok {
		return Forces{}, fmt.Errorf("%w: no slope of the forces between slices balances all moments", ErrRounds)
	}
	_, a, _ := at(lo)
	_, b, _ := at(hi)
	lambda, ok := falsi(lo, a, hi, b, 1e-9*w.scale()*(x1-x0), func(l float64) (float64, bool) {
		_, off, ok := at(l)
		return off, ok
	})
	if !ok {
		return Forces{}, ErrRounds
	}
	f, _, _ := at(lambda)
	if w.pulled > len(m.Slices)/4 {
		return Forces{}, fmt.Errorf("%w: a quarter of the slices would be pulled from their base", ErrRounds)
	}
	return Forces{F: f, Lambda: lambda, Theta: math.Atan(lambda), Pulled: w.pulled}, nil
}

// start is a factor to begin with.
func (m *Mass) start() (float64, error) {
	if m.r > 0 {
		if f, err := m.Bishop(); err == nil {
			return f, nil
		}
	}
	drives, resists := 0.0, 0.0
	for i := range m.Slices {
		s := &m.Slices[i]
		drives += s.Weight*s.sin + m.Kh*s.Soil*s.cos
		resists += s.C*s.Length + (s.Weight*s.cos-s.U*s.Length)*s.Tan
	}
	if drives+m.Thrust <= 0 {
		return 0, ErrRests
	}
	return math.Max(resists/(drives+m.Thrust), 0.05), nil
}

// bracket finds two neighbouring slopes between which the moment left over
// changes sign, the flattest first.
func bracket(at func(float64) (f, off float64, ok bool)) (lo, hi float64, found bool) {
	const step, most = 0.1, 1.6
	try := func(dir float64) (a, b float64, hit bool) {
		last, lastOff, has := 0.0, 0.0, false
		for k := 0; float64(k)*step <= most; k++ {
			l := dir * float64(k) * step
			_, off, ok := at(l)
			if !ok {
				if k > 0 {
					return 0, 0, false
				}
				continue
			}
			if has && (off > 0) != (lastOff > 0) {
				return last, l, true
			}
			last, lastOff, has = l, off, true
		}
		return 0, 0, false
	}
	if lo, hi, found = try(1); found {
		return lo, hi, true
	}
	return try(-1)
}
