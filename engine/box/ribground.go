package box

import (
	"math"

	"hillset/engine/frame"
	"hillset/engine/quantity"
)

// floorParts is the number of springs' bays under a floor tie: moments within
// 1 % (engine/frame, TestElasticGround).
const floorParts = 16

// Subgrade is the modulus of the ground below a floor of width b in m for its
// Young's modulus e in kPa and Poisson's ratio nu: k = E/(B·(1 − ν²)), kPa per
// m (form after Vesić for a stiff strip, memory).
func Subgrade(e, nu, b float64) (float64, error) {
	for _, err := range []error{
		quantity.Range("Young's modulus of the ground", e, 100, 1e7),
		quantity.Range("Poisson's ratio of the ground", nu, 0, 0.5),
		quantity.Within("width of the floor", b, minHeight, maxHeight, quantity.Length),
	} {
		if err != nil {
			return 0, err
		}
	}
	return e / (b * (1 - nu*nu)), nil
}

// checkGround refuses ground without a floor on it. What presses the floor up
// is what the springs work out.
func (in Rib) checkGround() error {
	if in.Ground == 0 {
		if in.Tie.Area == 0 {
			return quantity.Within("floor pressure without a floor tie", in.FloorUp, 0, 0, quantity.Pressure)
		}
		return nil
	}
	if err := quantity.Within("floor tie area on the ground", in.Tie.Area, 1e-6, 1, quantity.Area); err != nil {
		return err
	}
	if err := quantity.Within("floor pressure beside the ground's own", in.FloorUp, 0, 0, quantity.Pressure); err != nil {
		return err
	}
	return quantity.Range("subgrade modulus", in.Ground, 10, 1e7)
}

// bedDown takes the bottom corners off their supports and sets the floor tie on
// the ground.
func (in Rib) bedDown(f *ribFrame) error {
	if in.Ground == 0 {
		return nil
	}
	f.Nodes[f.left[0]].Y, f.Nodes[f.right[0]].Y = false, false
	fine, _, pieces, err := f.OnGround(frame.LoadCase{}, frame.Bed{Member: f.floor[0], Modulus: in.Ground * in.length(), Lift: true, Parts: floorParts})
	if err != nil {
		return err
	}
	f.Frame, f.floor = fine, pieces
	for len(f.parts) < len(f.Members) {
		f.parts = append(f.parts, FloorTie)
	}
	return nil
}

// pulls tells whether the sum of solved kinds, each times its factor, has the
// ground pull at the floor.
func (f *ribFrame) pulls(parts []*frame.Solution, factors []float64) bool {
	for k := range f.Nodes {
		if !f.Nodes[k].Lift {
			continue
		}
		rise := 0.0
		for p, part := range parts {
			rise += factors[p] * part.U[k][1]
		}
		if rise > liftTol {
			return true
		}
	}
	return false
}

// liftTol is a rise of the floor that rounding can leave, m.
const liftTol = 1e-9

// bows finds how the parts bend in service and how far the posts come inward.
func (f *ribFrame) bows(r *RibResult) {
	s := r.Service
	for side, part := range [2]RibPart{RightPost, LeftPost} {
		members := f.rows[side]
		w, _ := s.Bow(members)
		r.Bow[part] = math.Abs(w)
		for _, m := range members { // they are walked with the room on their left
			_, high := s.Reach(m)
			r.Inward[1-side] = math.Max(r.Inward[1-side], high.W)
		}
	}
	if f.roof >= 0 {
		w, _ := s.Bow(f.beam[:])
		r.Bow[RoofBeam] = math.Abs(w)
	}
	if len(f.floor) > 0 {
		w, _ := s.Bow(f.floor)
		r.Bow[FloorTie] = math.Abs(w)
	}
}
