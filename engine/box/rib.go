package box

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Rib is a set of bars inside the box at one place along it: two posts, with a
// roof beam, a floor tie and cross struts.
//
// Joined rigidly it is a closed frame that stands on both bottom corners and
// may sway. Pinned, every bar spans by itself: the roof as a diaphragm holds
// the tops of the posts sideways, and a beam or a tie carries, or props the
// walls apart, only where it is given. Without a beam the roof sheet props the
// tops, without a tie the floor of the box props the feet.
type Rib struct {
	Width, Height float64 // m, between the axes of the members
	Spacing       float64 // m, between ribs
	// Share is what the rib takes of Spacing, because rails, wales and purlins
	// run on over it: see InnerShare. 0 counts as 1.
	Share float64
	Post  steel.Bar
	Beam  steel.Bar // with no area there is none, which only a pinned set may have
	Tie   steel.Bar // likewise
	Steel Material
	// Pinned is true where the joints carry no moment.
	Pinned bool
	// Struts prop the posts apart, from the bottom up. They are hinged at both
	// ends.
	Struts []CrossBar
	// Ground is the subgrade modulus below the floor tie, kPa per m (kN/m3); 0
	// where the rib stands on its bottom corners. The ground pushes and does not
	// pull. See Subgrade.
	Ground float64
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
func (in *Rib) length() float64 {
	if in.Share > 0 {
		return in.Share * in.Spacing
	}
	return in.Spacing
}

// CrossBar is a strut across the room.
type CrossBar struct {
	Height float64 // m, its axis above the floor axis
	Bar    steel.Bar
}

// RibPart is a part of the rib.
type RibPart int

// Parts of the rib.
const (
	LeftPost RibPart = iota
	RightPost
	RoofBeam
	FloorTie
	CrossStrut
	ribParts
	ringParts = CrossStrut // struts have a check of their own
)

// String names the part.
func (p RibPart) String() string {
	return [...]string{"left post", "right post", "roof beam", "floor tie", "cross strut"}[p]
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
	// Struts are the ratings of the cross struts from the bottom up.
	Struts []StrutRating
	// Foot is the largest push of a foot on the floor of the box, kN; 0 with a tie.
	Foot Pair
	// Bow is how far a part bends from the straight line between its ends in
	// service, m; Inward how far the left and the right post move into the room,
	// sway included.
	Bow    [ringParts]float64
	Inward [2]float64
	// Lifts tells that part of the floor tie lets go of the ground in some
	// combination.
	Lifts bool
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
		quantity.Within("floor pressure", in.FloorUp, 0, 1e4, quantity.Pressure),
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
		quantity.Within("rib width", in.Width, minHeight, maxHeight, quantity.Length),
		quantity.Within("rib height", in.Height, minHeight, maxHeight, quantity.Length),
		quantity.Within("rib spacing", in.Spacing, 0.05, 20, quantity.Length),
		quantity.Range("rib share", in.Share, 0, 2),
		quantity.Within("rib post area", in.Post.Area, 1e-6, 1, quantity.Area),
		quantity.Within("rib roof beam area", in.Beam.Area, in.leastBar(), 1, quantity.Area),
		quantity.Within("rib floor tie area", in.Tie.Area, in.leastBar(), 1, quantity.Area),
		in.checkGround(), in.checkStruts(),
	} {
		if err != nil {
			return err
		}
	}
	last := 0.0
	for k, w := range in.Wales {
		if err := quantity.Within(fmt.Sprintf("height of wale %d", k+1), w, last+minGap, in.Height-minGap, quantity.Length); err != nil {
			return err
		}
		last = w
	}
	return in.checkRoof()
}

// leastBar is the area that a beam or a tie must have: a pinned set does
// without.
func (in Rib) leastBar() float64 {
	if in.Pinned {
		return 0
	}
	return 1e-6
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
	rows    [2][]int  // the same as they are walked: up the right and down the left post
	roof    int       // -1 without a roof beam
	beam    [1]int    // the roof beam as a row
	floor   []int     // members of the floor tie from the left; none without
	struts  []int     // member of every strut
	sheet   []float64 // supports of the wall sheet: floor, wales, roof
	sheetAt []int     // their nodes, counted up the post
	roofAt  []float64 // supports of the roof sheet across its span: edges and purlins; none without purlins
	even    []float64 // what they take of 1 kPa over the whole roof, kN/m
}

// tops are the nodes at the tops of the right and of the left post.
func (f *ribFrame) tops() [2]int { return [2]int{f.right[len(f.right)-1], f.left[len(f.left)-1]} }

// heldLeft tells which corner is held sideways: the one away from the larger
// push, so that beam and tie carry the push to it.
func (in Rib) heldLeft() bool {
	return in.Right.total() >= in.Left.total()
}

// levels are the heights of the nodes of a post: its ends, the wales and the
// struts. A strut close to a wale meets the post in the same node.
func (in Rib) levels() (heights []float64, strutAt []int) {
	heights = append(append([]float64{0}, in.Wales...), in.Height)
	for _, s := range in.Struts {
		if near := slices.IndexFunc(heights, func(h float64) bool { return math.Abs(h-s.Height) < minGap }); near < 0 {
			heights = append(heights, s.Height)
		}
	}
	slices.Sort(heights)
	for _, s := range in.Struts {
		at := 0
		for k, h := range heights {
			if math.Abs(h-s.Height) < math.Abs(heights[at]-s.Height) {
				at = k
			}
		}
		strutAt = append(strutAt, at)
	}
	return heights, strutAt
}

// layout lays out nodes and members.
func (in Rib) layout(heldLeft bool) (ribFrame, error) {
	heights, strutAt := in.levels()
	f := ribFrame{heights: heights, roof: -1}
	for _, h := range append(append([]float64{0}, in.Wales...), in.Height) {
		f.sheet, f.sheetAt = append(f.sheet, h), append(f.sheetAt, slices.Index(heights, h))
	}
	top := len(heights) - 1
	f.left, f.right = []int{f.node(0, 0)}, nil
	for k, y := range heights {
		n := f.node(in.Width, y)
		f.right = append(f.right, n)
		if k == 0 {
			if in.Tie.Area > 0 {
				f.floor = []int{f.add(0, n, in, FloorTie, in.Tie, in.Pinned, in.Pinned)}
			}
			continue
		}
		f.member[0] = append(f.member[0], f.add(n-1, n, in, RightPost, in.Post, in.Pinned && k == 1, in.Pinned && k == top))
	}
	for _, y := range heights[1:] {
		f.left = append(f.left, f.node(0, y))
	}
	if in.Beam.Area > 0 {
		f.roof = f.add(f.right[top], f.left[top], in, RoofBeam, in.Beam, in.Pinned, in.Pinned)
	}
	for k := 1; k <= top; k++ { // down the left post: from node k to node k-1
		f.member[1] = append(f.member[1], f.add(f.left[k], f.left[k-1], in, LeftPost, in.Post, in.Pinned && k == top, in.Pinned && k == 1))
	}
	for k, s := range in.Struts {
		f.struts = append(f.struts, f.add(f.left[strutAt[k]], f.right[strutAt[k]], in, CrossStrut, s.Bar, true, true))
	}
	f.rows, f.beam = [2][]int{f.member[0], slices.Clone(f.member[1])}, [1]int{f.roof}
	slices.Reverse(f.rows[1])
	f.hold(in, heldLeft)
	if len(in.Purlins) > 0 {
		var err error
		f.roofAt = RoofStrip{Span: in.RoofSpan, Supports: in.Purlins}.places()
		if f.even, err = frame.Reactions(f.roofAt, frame.Uniform(1, in.RoofSpan)); err != nil {
			return f, err
		}
	}
	return f, in.bedDown(&f)
}

func (f *ribFrame) node(x, y float64) int {
	f.Nodes = append(f.Nodes, frame.Node{Px: x, Py: y})
	return len(f.Nodes) - 1
}

// add puts in a member, with hinges where it has them.
func (f *ribFrame) add(i, j int, in Rib, part RibPart, bar steel.Bar, hingeI, hingeJ bool) int {
	f.Members = append(f.Members, frame.Member{I: i, J: j, E: in.Steel.E, A: bar.Area, Iz: bar.Ix, HingeI: hingeI, HingeJ: hingeJ})
	f.parts = append(f.parts, part)
	return len(f.Members) - 1
}

// hold holds the corners: the bottom ones up and one of them sideways, both
// where no tie props them; the tops of a pinned set by the roof, both where no
// beam props them.
func (f *ribFrame) hold(in Rib, heldLeft bool) {
	l, r := &f.Nodes[f.left[0]], &f.Nodes[f.right[0]]
	l.Y, r.Y = true, true
	l.X, r.X = heldLeft || len(f.floor) == 0, !heldLeft || len(f.floor) == 0
	if in.Pinned {
		top := len(f.heights) - 1
		l, r := &f.Nodes[f.left[top]], &f.Nodes[f.right[top]]
		l.X, r.X = heldLeft || f.roof < 0, !heldLeft || f.roof < 0
	}
}

// ribLoads are the loads of one kind on the frame: line loads on its members
// and, where wales bring the soil to the posts, forces at its nodes.
type ribLoads struct {
	members []frame.Load
	push    []float64 // on the nodes, to the right, kN
	down    []float64 // on the nodes, kN
}

// fit makes room for the loads of a frame, all nought.
func (l *ribLoads) fit(f *ribFrame) {
	if l.members == nil {
		l.members, l.push, l.down = make([]frame.Load, len(f.Members)), make([]float64, len(f.Nodes)), make([]float64, len(f.Nodes))
	}
	for k := range l.members {
		l.members[k] = l.members[k][:0]
	}
	clear(l.push)
	clear(l.down)
}

// bring brings pressures on both walls and on roof and floor to the frame, kPa
// times the spacing. The result replaces what was there, in its memory.
func (l *ribLoads) bring(in *Rib, f *ribFrame, left, right frame.Load, roof float64, wheels frame.Load, floor float64) error {
	l.fit(f)
	if err := l.onRoof(in, f, roof, wheels); err != nil {
		return err
	}
	if floor != 0 {
		l.members[f.floor[0]] = frame.Uniform(floor*in.length(), in.Width)
	}
	for side, ld := range [2]frame.Load{right, left} {
		if len(ld) == 0 {
			continue
		}
		if len(in.Wales) == 0 {
			f.alongPost(side, ld.Scale(in.length()), l.members)
			continue
		}
		// The sheet runs over the wales; struts do not hold it.
		var few [8]float64
		strip, err := frame.ReactionsIn(few[:0], f.sheet, ld)
		if err != nil {
			return err
		}
		nodes, inward := f.right, -in.length()
		if side == 1 {
			nodes, inward = f.left, in.length()
		}
		for k, re := range strip {
			l.push[nodes[f.sheetAt[k]]] += inward * re
		}
	}
	return nil
}

// alongPost lays a line load, up from the floor, on the members of a post.
func (f *ribFrame) alongPost(side int, ld frame.Load, members []frame.Load) {
	for k, m := range f.member[side] {
		part, l := ld, f.heights[k+1]-f.heights[k]
		if len(f.member[side]) > 1 {
			part = ld.Clip(f.heights[k], f.heights[k+1])
		}
		if side == 1 { // the left post is walked down
			part = part.Turned(l)
		}
		members[m] = part
	}
}

// kinds are the loads on the rib by kind, for D, L, H and S of a combination,
// in the place of what was there.
func (in *Rib) kinds(f *ribFrame, out *[4]ribLoads) error {
	soil := func(p *Pressures) frame.Load {
		if len(p.Water) == 0 {
			return p.Earth
		}
		return frame.Add(p.Earth, p.Water)
	}
	for k, one := range [4]struct {
		left, right frame.Load
		roof        float64
		wheels      frame.Load
		floor       float64
	}{
		{nil, nil, in.Dead, nil, in.FloorUp},
		{in.Left.Live, in.Right.Live, in.Live + in.Water, in.Wheels, 0},
		{soil(&in.Left), soil(&in.Right), 0, nil, 0},
		{nil, nil, in.Snow, nil, 0},
	} {
		if err := out[k].bring(in, f, one.left, one.right, one.roof, one.wheels, one.floor); err != nil {
			return err
		}
	}
	return nil
}
