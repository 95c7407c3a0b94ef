package ground

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// StackIn is a wall of dry-stacked blocks, one block thick.
type StackIn struct {
	Courses int
	Height  float64 // of a course, m
	B       float64 // thickness of the blocks, m
	Setback float64 // of each course from the one below, into the hill, m
	Gamma   float64 // of the blocks, kN/m3

	Soil  float64 // unit weight of the fill behind, kN/m3
	Phi   float64 // of the fill, rad
	Delta float64 // friction of the fill on the back, rad
	Beta  float64 // surface of the fill, rad, + rising away
	Q     float64 // wide surcharge on the fill, kPa

	TanBase  float64 // friction of the lowest course on the ground
	TanJoint float64 // friction of block on block, without keys
}

// Joint is the wall above one joint, taken as a wall by itself.
type Joint struct {
	Course int     // the joint lies under this course, 0 the lowest: the base
	Height float64 // of the wall above it, m
	Ka     float64
	H, V   float64 // parts of the thrust, kN/m
	Wall   Wall
}

// Stack checks every joint of a dry-stacked wall, from the base up: overturning,
// sliding, and whether the resultant stays in the middle third, for a joint
// takes no tension. Thrust by CoulombKa on the back face, a triangle and, for
// the surcharge, a rectangle.
func Stack(in StackIn) ([]Joint, error) {
	if err := in.validate(); err != nil {
		return nil, err
	}
	theta := -math.Atan2(in.Setback, in.Height)
	ka, err := earth.CoulombKa(in.Phi, in.Delta, in.Beta, theta)
	if err != nil {
		return nil, err
	}
	joints := make([]Joint, 0, in.Courses)
	for c := range in.Courses {
		j, err := in.joint(c, ka, theta)
		if err != nil {
			return nil, err
		}
		joints = append(joints, j)
	}
	return joints, nil
}

// joint is the wall above the joint under course c.
func (in *StackIn) joint(c int, ka, theta float64) (Joint, error) {
	n := in.Courses - c
	h := float64(n) * in.Height
	w := WallIn{B: in.B, TanBase: in.TanJoint}
	if c == 0 {
		w.TanBase = in.TanBase
	}
	for i := range n {
		w.Weights = append(w.Weights, Weight{W: in.B * in.Height * in.Gamma, Arm: in.B/2 + float64(i)*in.Setback})
	}
	soil, load := ka*in.Soil*h*h/2, ka*in.Q*h
	p := soil + load
	w.HArm = h / 3
	if p > 0 {
		w.HArm = (soil*h/3 + load*h/2) / p
	}
	w.H, w.V = earth.Split(p, in.Delta, theta)
	w.VArm = in.B + w.HArm*in.Setback/in.Height
	s, err := StandWall(w)
	return Joint{Course: c, Height: h, Ka: ka, H: w.H, V: w.V, Wall: s}, err
}

func (in *StackIn) validate() error {
	return limit.First(
		limit.Within("courses", float64(in.Courses), 1, 100, quantity.None),
		limit.Positive("height", in.Height, quantity.Length),
		limit.Positive("b", in.B, quantity.Length),
		limit.Within("setback", in.Setback, 0, in.B/2, quantity.Length),
		limit.Positive("gamma", in.Gamma, quantity.UnitWeight),
		limit.Positive("soil", in.Soil, quantity.UnitWeight),
		limit.AtLeast("q", in.Q, 0, quantity.Pressure),
		limit.Within("tan_base", in.TanBase, 0, 2, quantity.None),
		limit.Within("tan_joint", in.TanJoint, 0, 2, quantity.None))
}
