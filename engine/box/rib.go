package box

import (
	"fmt"

	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Rib is a closed frame inside the box: two posts, a roof beam and a floor
// tie, joined rigidly at the corners. It stands on both bottom corners and may
// sway.
type Rib struct {
	Width, Height float64 // m, between the axes of the members
	Spacing       float64 // m, between ribs
	// Share is what the rib takes of Spacing, because rails, wales and purlins
	// run on over it: see InnerShare. 0 counts as 1.
	Share float64
	Post  steel.Bar
	Beam  steel.Bar
	Tie   steel.Bar
	Steel Material
	// Left and Right are the pressures on the two walls, kPa, places up from
	// the floor axis. They may differ: soil on one side only is the worse case.
	Left, Right Pressures
	// Wales are the heights at which wales bring the load of the sheets to the
	// posts. The rest of it then goes to the corners through the rails. Without
	// wales the posts carry the sheets over their whole height, which needs
	// packed troughs.
	Wales []float64
	// Dead, Live, Snow and Water are the loads on the roof, kPa; the roof beam
	// carries them over the spacing. FloorUp is what presses the floor tie
	// upward, kPa (0 where the box stands on its corners); it goes with Dead.
	Dead, Live, Snow, Water, FloorUp float64
	// RoofSpan is the span of the roof sheet, centred over the beam, and Purlins
	// are the places of purlins across it, from the left: the sheet then rests on
	// them and on its edges, and the beam takes what they bring as forces. Without
	// purlins the load lies evenly on the beam. Wheels is live load that is not
	// even, kPa across RoofSpan from the left.
	RoofSpan float64
	Purlins  []float64
	Wheels   frame.Load
}

// length is the length of box that the rib carries.
func (in Rib) length() float64 {
	if in.Share > 0 {
		return in.Share * in.Spacing
	}
	return in.Spacing
}

// RibPart is a part of the rib.
type RibPart int

// Parts of the rib.
const (
	LeftPost RibPart = iota
	RightPost
	RoofBeam
	FloorTie
	ribParts
)

// String names the part.
func (p RibPart) String() string {
	return [...]string{"left post", "right post", "roof beam", "floor tie"}[p]
}

// PartRating is the worst that befalls a part of the rib, over all
// combinations of one kind.
type PartRating struct {
	Combo     string
	M         float64 // kNm, largest moment with its sign, sway amplified (+ tension inside)
	N         float64 // kN, compression positive
	V         float64 // kN
	At        float64 // m from the floor axis for posts, from the left for the others
	Bending   float64 // M over the available bending strength alone
	Ratio     float64 // AISC H1-1 with compression or tension, or shear if larger
	Amplified float64 // sway amplification B2
}

// RibResult is what comes out of a rib.
type RibResult struct {
	ASD, LRFD [ribParts]PartRating
	Service   *frame.Solution // combination D + H + F + L, first order
	Frame     frame.Frame
	Parts     []RibPart // of every member of the frame
	Corner    float64   // kNm, largest absolute corner moment in service
	Sway      float64   // m, sideways movement of the roof in service, + to the right
}

// check refuses what is not a rib of a container.
func (in Rib) check() error {
	if err := in.checkFrame(); err != nil {
		return err
	}
	return in.checkLoads()
}

// checkLoads refuses what does not press on a rib.
func (in Rib) checkLoads() error {
	for _, err := range []error{
		quantity.Range("roof dead load", in.Dead, 0, 1e4),
		quantity.Range("roof live load", in.Live, 0, 1e4),
		quantity.Range("roof snow load", in.Snow, 0, 1e4),
		quantity.Range("roof water load", in.Water, 0, 1e4),
		quantity.Range("floor pressure", in.FloorUp, 0, 1e4),
		in.Left.check(in.Height), in.Right.check(in.Height),
	} {
		if err != nil {
			return err
		}
	}
	return in.checkWheels()
}

// checkFrame refuses a frame that does not fit in a container.
func (in Rib) checkFrame() error {
	for _, err := range []error{
		in.Steel.check(),
		quantity.Range("rib width", in.Width, minHeight, maxHeight),
		quantity.Range("rib height", in.Height, minHeight, maxHeight),
		quantity.Range("rib spacing", in.Spacing, 0.05, 20),
		quantity.Range("rib share", in.Share, 0, 2),
		quantity.Range("rib post area", in.Post.Area, 1e-6, 1),
		quantity.Range("rib roof beam area", in.Beam.Area, 1e-6, 1),
		quantity.Range("rib floor tie area", in.Tie.Area, 1e-6, 1),
	} {
		if err != nil {
			return err
		}
	}
	last := 0.0
	for k, w := range in.Wales {
		if err := quantity.Range(fmt.Sprintf("height of wale %d", k+1), w, last+minGap, in.Height-minGap); err != nil {
			return err
		}
		last = w
	}
	return in.checkRoof()
}

// ribFrame is the frame of a rib: members go round with the room on their
// left, from the left bottom corner, so that moments are positive with tension
// inside.
type ribFrame struct {
	frame.Frame
	parts   []RibPart
	heights []float64 // of the nodes of a post
	right   []int     // nodes up the right post, corners included
	left    []int     // nodes up the left post
	member  [2][]int  // members up the right and the left post
	roof    int
	floor   int
}

// heldLeft tells which bottom corner is held sideways: the one away from the
// larger push, so that the floor tie carries the push to it.
func (in Rib) heldLeft() bool {
	leftPush, _ := in.Left.Service().Total()
	rightPush, _ := in.Right.Service().Total()
	return rightPush >= leftPush
}

// layout lays out nodes and members.
func (in Rib) layout(heldLeft bool) ribFrame {
	heights := append(append([]float64{0}, in.Wales...), in.Height)
	f := ribFrame{heights: heights}
	f.Nodes = []frame.Node{{Y: true, X: heldLeft}}
	f.left = []int{0}
	member := func(i, j int, bar steel.Bar, part RibPart) int {
		f.Members = append(f.Members, frame.Member{I: i, J: j, E: in.Steel.E, A: bar.Area, Iz: bar.Ix})
		f.parts = append(f.parts, part)
		return len(f.Members) - 1
	}
	node := func(x, y float64) int {
		f.Nodes = append(f.Nodes, frame.Node{Px: x, Py: y})
		return len(f.Nodes) - 1
	}
	for k, y := range heights {
		n := node(in.Width, y)
		f.right = append(f.right, n)
		if k == 0 {
			f.Nodes[n].Y, f.Nodes[n].X = true, !heldLeft
			f.floor = member(0, n, in.Tie, FloorTie)
			continue
		}
		f.member[0] = append(f.member[0], member(n-1, n, in.Post, RightPost))
	}
	for _, y := range heights[1:] {
		f.left = append(f.left, node(0, y))
	}
	top := len(heights) - 1
	f.roof = member(f.right[top], f.left[top], in.Beam, RoofBeam)
	for k := 1; k <= top; k++ { // down the left post: from node k to node k-1
		f.member[1] = append(f.member[1], member(f.left[k], f.left[k-1], in.Post, LeftPost))
	}
	return f
}

// ribLoads are the loads of one kind on the frame: line loads on its members
// and, where wales bring the soil to the posts, forces at its nodes.
type ribLoads struct {
	members []frame.Load
	push    []float64 // on the nodes, to the right, kN
	down    []float64 // on the nodes, kN
}

// loads brings pressures on both walls and on roof and floor to the frame, kPa
// times the spacing.
func (in Rib) loads(f *ribFrame, left, right frame.Load, roof float64, wheels frame.Load, floor float64) (ribLoads, error) {
	out := ribLoads{members: make([]frame.Load, len(f.Members)), push: make([]float64, len(f.Nodes)), down: make([]float64, len(f.Nodes))}
	var err error
	var edges [2]float64
	if out.members[f.roof], edges, err = in.onBeam(roof, wheels); err != nil {
		return out, err
	}
	out.down[f.right[len(f.right)-1]], out.down[f.left[len(f.left)-1]] = edges[0], edges[1]
	if floor != 0 {
		out.members[f.floor] = frame.Uniform(floor*in.length(), in.Width)
	}
	for side, ld := range [2]frame.Load{right, left} {
		if len(ld) == 0 {
			continue
		}
		if len(in.Wales) == 0 {
			ld = ld.Scale(in.length())
			if side == 1 { // the left post is walked down
				ld = ld.Turned(in.Height)
			}
			out.members[f.member[side][0]] = ld
			continue
		}
		strip, err := frame.Reactions(f.heights, ld) // the sheet runs over the wales
		if err != nil {
			return out, err
		}
		nodes, inward := f.right, -in.length()
		if side == 1 {
			nodes, inward = f.left, in.length()
		}
		for k, re := range strip {
			out.push[nodes[k]] += inward * re
		}
	}
	return out, nil
}

// kinds are the loads on the rib by kind, for D, L, H and S of a combination.
func (in Rib) kinds(f *ribFrame) (out [4]ribLoads, err error) {
	soil := func(p Pressures) frame.Load { return frame.Add(p.Earth, p.Water) }
	for k, one := range [4]struct {
		left, right frame.Load
		roof        float64
		wheels      frame.Load
		floor       float64
	}{
		{nil, nil, in.Dead, nil, in.FloorUp},
		{in.Left.Live, in.Right.Live, in.Live + in.Water, in.Wheels, 0},
		{soil(in.Left), soil(in.Right), 0, nil, 0},
		{nil, nil, in.Snow, nil, 0},
	} {
		if out[k], err = in.loads(f, one.left, one.right, one.roof, one.wheels, one.floor); err != nil {
			return out, err
		}
	}
	return out, nil
}
