package box

import (
	"math"
	"slices"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
)

// wheelEffects are what wheels do to a roof strip, with the even loads of each
// combination: an uneven load bends a beam over purlins elsewhere than an even
// one does, so the two are put on it together.
type wheelEffects struct {
	alone []float64 // reactions on the supports, kN/m
	bends []bending
	sag   float64 // m, largest service deflection of first order
}

// bending is the strip under an even load q with the wheels times l.
type bending struct {
	q, l              float64
	field, hog, shear float64
}

// on is the reaction of the wheels alone on support k.
func (w *wheelEffects) on(k int) float64 {
	if len(w.alone) == 0 {
		return 0
	}
	return w.alone[k]
}

// places are the supports across the span.
func (s RoofStrip) places() []float64 {
	return append(append([]float64{0}, s.Supports...), s.Span)
}

// checkWheels refuses wheels beside the strip and such as pull at it.
func (s RoofStrip) checkWheels() error {
	for _, p := range s.Wheels {
		if err := quantity.Within("pressure of wheels", p.P, 0, 1e5, quantity.Pressure); err != nil {
			return err
		}
	}
	if len(s.Wheels) == 0 {
		return nil
	}
	return s.Wheels.Check(s.Span)
}

// rollRoom is memory for one arrangement of wheels after the other: the strip
// under 1 kPa, under the wheels, and under a sum of both.
type rollRoom struct {
	load  frame.Load
	lines [3]frame.Multi
	rooms [3]frame.MultiRoom
}

// roll solves the strip under the wheels with the even load of every
// combination that counts them.
func (s *ReadyRoof) roll(in *RoofStrip, r *RoofResult) error {
	r.wheels = wheelEffects{}
	if len(in.Wheels) == 0 {
		return nil
	}
	room, ok := s.room.Get().(*rollRoom)
	if !ok {
		room = &rollRoom{}
	}
	defer s.room.Put(room)
	shape := frame.Add(frame.Uniform(0, in.Span), in.Wheels) // with points over the whole span
	room.load = room.load[:0]
	for _, p := range shape {
		room.load = append(room.load, frame.LoadPoint{S: p.S, P: 1})
	}
	even, wheels, sum := &room.lines[0], &room.lines[1], &room.lines[2]
	if err := even.Solve(s.places, room.load, r.EI, &room.rooms[0]); err != nil {
		return err
	}
	if err := wheels.Solve(s.places, shape, r.EI, &room.rooms[1]); err != nil {
		return err
	}
	r.wheels.alone = slices.Clone(wheels.Reactions)
	for k, combos := range [2][]Combo{Allowable, Strength} {
		for i := range combos {
			c := &combos[i]
			q := c.Of(in.effects())
			if c.L == 0 || r.wheels.has(q, c.L) {
				continue
			}
			sum.Combine([]*frame.Multi{even, wheels}, []float64{q, c.L}, &room.rooms[2])
			r.wheels.bends = append(r.wheels.bends, bendingOf(sum, q, c.L))
			if k == 0 {
				sag, _, _ := sum.Sag()
				r.wheels.sag = max(r.wheels.sag, abs(sag))
			}
		}
	}
	return nil
}

// bendingOf is what bends a strip under an even load q with the wheels times l.
func bendingOf(m *frame.Multi, q, l float64) bending {
	b := bending{q: q, l: l, shear: m.Shear()}
	b.field, _ = m.Field()
	b.hog, _ = m.Hog()
	return b
}

func (w *wheelEffects) has(q, l float64) bool {
	for _, b := range w.bends {
		if b.q == q && b.l == l {
			return true
		}
	}
	return false
}

// bent is the strip under an even load with the wheels times l.
func (r *RoofResult) bent(q, l float64) bending {
	for _, b := range r.wheels.bends {
		if b.q == q && b.l == l {
			return b
		}
	}
	return bending{q: q, l: l, field: q * r.unit.field, hog: q * r.unit.hog, shear: q * r.unit.shear}
}

// wheelLines writes how wheels lie on the strip.
func wheelLines(in RoofStrip, r *RoofResult) []check.Line {
	total, _ := in.Wheels.Total()
	if total == 0 {
		return nil
	}
	most := 0.0
	for _, p := range in.Wheels {
		most = math.Max(most, p.P)
	}
	out := check.Line{
		Text: "Wheels, as they lie across this strip of roof, none of them shared with its neighbours", Formula: "W = ∫ w ds",
		Terms:  []quantity.Q{quantity.Of("w max", most, quantity.Pressure)},
		Result: quantity.Of("W", total, quantity.LineLoad), Source: srcStat,
	}
	for k := range in.Supports {
		out.Terms = append(out.Terms, quantity.Of("on a purlin", r.wheels.alone[k+1], quantity.LineLoad))
	}
	return []check.Line{out}
}
