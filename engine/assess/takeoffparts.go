package assess

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
)

// ribs lists the ribs by their places between the ends of the box: posts over
// the full height of the room, beams and ties over its width; struts between
// the posts; purlins over its length.
func (l *lister) ribs() {
	r := l.p.Strengthening.Ribs
	n := ribCount(l.box, r.Spacing)
	l.bars("posts of ribs", r.Post, 2*n, l.box.InH)
	l.bars("roof beams of ribs", r.RoofBeam, n, l.box.InW)
	l.bars("floor ties of ribs", r.FloorTie, n, l.box.InW)
	free := l.box.InW
	if row, ok := l.t.Bar(r.Post); ok {
		free -= 2 * row.H
	}
	for _, s := range r.Struts {
		l.bars("cross struts", s.Section, n, free)
	}
	l.bars("purlins", r.Purlin, r.Purlins, l.box.InL)
}

// wales lists those of the two long walls and of the blind end, by section.
func (l *lister) wales() {
	for _, w := range []struct {
		what  string
		wales []model.Wale
		each  int
		long  float64
	}{
		{"wales of the long walls", l.p.Strengthening.Wales, 2, l.box.InL},
		{"wales of the back wall", l.p.Strengthening.BackWales, 1, l.box.InW},
	} {
		var order []string
		count := map[string]int{}
		for _, x := range w.wales {
			if count[x.Section] == 0 {
				order = append(order, x.Section)
			}
			count[x.Section] += w.each
		}
		for _, id := range order {
			l.bars(w.what, id, count[id], w.long)
		}
	}
}

// openings lists the frames round cut openings.
func (l *lister) openings() {
	for _, o := range l.p.Box.Openings {
		l.bars("frame of opening "+o.ID, o.Bar, 1, 2*(o.Width+o.Height))
	}
}

// studs lists the timber skin outside the two long walls and the blind end,
// over the full height of the box.
func (l *lister) studs() {
	s := l.p.Strengthening.Stud
	if s.Spacing <= 0 {
		return
	}
	row, ok := l.t.Lumber(s.Species + " " + s.Size)
	if !ok {
		l.fail("strengthening.stud_skin", s.Species+" "+s.Size, "species and size of the lumber table")
		return
	}
	n := 2*pitches(l.box.L, s.Spacing) + pitches(l.box.W, s.Spacing)
	length := float64(n) * l.box.H
	l.add("timber m3", "studs, "+row.ID, n, length, length*row.B*row.D, length*row.B*row.D)
	if s.Plywood != "" {
		ply, ok := l.t.Plywood(s.Plywood)
		if !ok {
			l.fail("strengthening.stud_skin.plywood", s.Plywood, "a row of the plywood table")
			return
		}
		l.area("plywood m2", "skin, "+ply.Name, (2*l.box.L+l.box.W)*l.box.H)
	}
}

// cavity lists the filling outside the two long walls and the blind end, over
// the full height of the box, with its upright bars.
func (l *lister) cavity() {
	c := l.p.Strengthening.Cavity
	if c.Width <= 0 {
		return
	}
	plan := c.Width * (2*l.box.L + l.box.W + 2*c.Width)
	if c.Fill != model.ConcreteFill {
		l.block("gravel m3", "gravel in the cavity", 0, plan*l.box.H)
		return
	}
	l.block("concrete m3", "concrete in the cavity", 0, plan*l.box.H)
	l.rod("upright bars in the cavity", c.Bar, 2*pitches(l.box.L, c.BarSpacing)+pitches(l.box.W, c.BarSpacing), l.box.H)
}

// ownRoof lists the roof on its own posts: as long as the box, as wide as the
// box with the gap and the posts on both sides. Posts reach from the formation
// to the roof of the box; a footing is taken half as thick as it is wide.
func (l *lister) ownRoof() {
	s := l.p.Strengthening.RoofSlab
	if !s.Given() {
		return
	}
	post := 0.0
	if row, ok := l.t.Bar(s.Post); ok {
		post = row.B
	}
	wide := l.box.W + 2*s.Gap + 2*post
	if s.CrossBeam == "" {
		l.block("concrete m3", "roof slab", 0, wide*l.box.L*s.Thickness)
		l.rod("bars across the roof slab", s.Bar, pitches(l.box.L, s.BarSpacing), wide)
	} else {
		l.bars("cross beams of the roof of its own", s.CrossBeam, pitches(l.box.L, s.CrossSpacing), wide)
		if ply, ok := l.t.Plywood(s.Deck); ok {
			l.area("plywood m2", "deck, "+ply.Name, wide*l.box.L)
		} else if s.Deck != "" {
			l.fail("strengthening.roof_slab.deck", s.Deck, "a row of the plywood table")
		}
	}
	l.bars("edge beams of the roof of its own", s.EdgeBeam, 2, l.box.L)
	posts := 2 * pitches(l.box.L, s.Spacing)
	l.bars("posts of the roof of its own", s.Post, posts, l.p.Box.Level+l.box.H-section.Formation(l.p))
	if s.Footing > 0 {
		l.block("concrete m3", "footings of its posts, half as thick as wide", posts, float64(posts)*s.Footing*s.Footing*s.Footing/2)
	}
}

// laps is what sheets are bought for over what they cover (common practice).
const (
	laps   = 1.1
	lapped = ", with 10 % for laps"
)

// onRoof lists light fill, membranes and boards of the build-up, over the plan of the
// box.
func (l *lister) onRoof() {
	plan := l.box.L * l.box.W
	for _, r := range l.p.Fill.Roof {
		switch r.Kind {
		case "lightfill":
			volume := plan * r.Thickness
			l.weighed("geofoam m3", "on the roof, "+r.Name, 0, 0, volume, volume*r.Gamma/gravity/1000)
		case "membrane":
			l.area("membrane m2", "on the roof, "+r.Name+lapped, plan*laps)
		case "board":
			l.area("board m2", "on the roof, "+r.Name, plan)
		}
	}
}

// toeThickness is how thick a toe beam is taken for its volume, m (common
// practice: a trench as wide as a bucket); the checks need no thickness.
const toeThickness = 0.3

// base lists what the box stands on and what holds it down.
func (l *lister) base() {
	b := l.p.Bedding
	if b.Kind == model.PadBedding {
		l.block("concrete m3", "pads under the corner castings", 4, 4*b.PadLength*b.PadWidth*b.PadThickness)
	}
	l.block("bed rock m3", "rock bed", 0, l.box.L*l.box.W*b.RockThickness)
	l.block("concrete m3", "toe beam, taken "+quantity.Brief.Text(toeThickness, quantity.Length)+" thick", 0, b.Toe.Depth*b.Toe.Width*toeThickness)
	t := l.p.Box.Ballast / 1000
	l.add("ballast t", "ballast that stays inside", 0, 0, t, t)
	l.add("ladder", "ladders or ramps", l.p.Cut.Ladders, 0, float64(l.p.Cut.Ladders), 0)
}

// wings lists the blocks of the wing walls as they are drawn and checked, and
// the rock below them. Walls that cannot be laid out have none: their check says
// why.
func (l *lister) wings() {
	if !l.p.Wings.Given() {
		return
	}
	plan, err := section.NewPlan(l.p, l.t)
	if err != nil {
		return
	}
	var sum section.WingBlocks
	for _, dir := range [...]float64{-1, 1} {
		w, err := plan.Wing(dir)
		if err != nil || w == nil {
			continue
		}
		sum.Full += w.Blocks.Full
		sum.Half += w.Blocks.Half
		sum.Length += w.Blocks.Length
		sum.Rock += w.Blocks.Rock
	}
	g := &l.p.Wings
	row, ok := l.t.Block(wingBlock)
	if !ok {
		panic("assess: no block " + wingBlock)
	}
	each := g.BlockLength * g.BlockWidth * g.BlockHeight * row.Gamma / gravity / 1000
	long := func(v float64) string { return quantity.Brief.Text(v, quantity.Length) }
	size := long(g.BlockLength) + " x " + long(g.BlockWidth) + " x " + long(g.BlockHeight)
	l.weighed("wall block", "blocks of the wing walls, "+size, sum.Full, 0, float64(sum.Full), float64(sum.Full)*each)
	l.weighed("half wall block", "half blocks of the wing walls, of "+size, sum.Half, 0, float64(sum.Half), float64(sum.Half)*each/2)
	l.block("bed rock m3", "base rock below the wing walls", 0, sum.Rock)
}

// defence lists membranes, boards and coatings of the two long walls and the
// blind end, layer by layer, and the cloth round the drain rock.
func (l *lister) defence() {
	walls := (2*l.box.L + l.box.W) * l.box.H
	for _, d := range l.p.Defence.Layers {
		switch d.Kind {
		case "membrane":
			l.area("membrane m2", "on the walls, "+d.Name+lapped, walls*laps)
		case "board":
			l.area("board m2", "on the walls, "+d.Name, walls)
		case "coating":
			l.area("coating m2", "on the walls, "+d.Name, walls)
			if row, ok := l.t.Bar(l.box.CrossMember); ok && d.Life > 0 { // all round: see rust.below
				l.area("coating m2", "cross members below the floor, "+d.Name, float64(pitches(l.box.L, crossMembers))*2*(row.H+row.B+row.Lip)*l.box.W)
			}
		}
	}
	l.cloth()
}

// cloth lists that round the drain rock, which it wraps all round: behind the
// box and along both sides, from the formation to the top of the rock.
func (l *lister) cloth() {
	d, f := &l.p.Defence.Drain, &l.p.Fill
	if !d.Present || d.Cloth.AOS <= 0 || f.RockWidth <= 0 {
		return
	}
	along := section.Across(l.p, l.box) + f.RockWidth + 2*(section.Depth(l.p, l.box)+f.RockWidth/2)
	high := l.p.Box.Level + l.box.H - f.RockTop - section.Formation(l.p)
	l.area("drain cloth m2", "round the drain rock"+lapped, along*2*(high+f.RockWidth)*laps)
}
