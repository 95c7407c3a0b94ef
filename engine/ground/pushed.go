package ground

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// maxLean bounds how far a stacked wall may lean back: the plane wedge was
// compared with walls up to about so much, and beyond it a wall is a lining of
// its slope.
const maxLean = 20 * math.Pi / 180

// PushIn is the fill behind a stacked wall.
type PushIn struct {
	Column earth.Column // surface square to the wall, water and wide surcharge in it
	Delta  []float64    // friction of each layer on the back of the blocks, rad
	Tilt   float64      // how far the wall leans back, rad
	Top    float64      // level of the top of the wall, m
	Bottom float64      // level of its foot, m
	Kh     float64      // of an earthquake
	Load   earth.WallLoad
	Room   *earth.Room // memory for one wall after the other; nil takes its own
}

// PushRow is what presses on the back of a wall at one level, kPa on its height:
// across it, and down on it.
type PushRow struct {
	Z    float64 // level, m
	H, V float64
	Soil float64 // the part of H that is soil and wide surcharge
}

// Push is what presses on the back of a wall, rows from the top down, straight
// between them.
type Push struct {
	Rows  []PushRow
	Foot  float64 // level of the foot, m
	Water float64 // water behind above the foot, m; 0 for none
	Ka    float64 // of the layer at the foot
	// Parts of the thrust across the wall, kN per m.
	Soil, Fluid, Load, Quake float64
	H, V                     float64 // all of it, across and down, kN per m
}

// PushStack works out what fill in layers presses on the back of a stacked
// wall: by the wedge of each layer, CoulombKa on the vertical stress there,
// inclined by its friction from the normal of the back; water square to the
// back; an earthquake by the wedge of MononobeOkabe, its increment spread so
// that it acts at 0.6 of the height. Loads press across. Where the fill stands
// higher than the wall what lies above it weighs on the rest.
func PushStack(in PushIn) (Push, error) {
	err := limit.First(
		limit.Within("lean", in.Tilt, 0, maxLean, quantity.Angle),
		limit.Within("kh", in.Kh, 0, 1, quantity.None))
	if err != nil {
		return Push{}, err
	}
	c := &in.Column
	if err := c.Validate(); err != nil {
		return Push{}, err
	}
	p := Push{Foot: in.Bottom}
	surface := c.Surface()
	top := math.Min(in.Top, surface)
	if top <= in.Bottom {
		return p, nil
	}
	p.Water = math.Max(0, math.Min(c.Water, top)-in.Bottom)
	room := in.Room
	if room == nil {
		room = &earth.Room{}
	}
	d, err := earth.Worst(earth.Active, []earth.Column{*c}, top, in.Bottom, nil, room)
	if err != nil {
		return p, err
	}
	theta := -in.Tilt
	p.Rows = make([]PushRow, 0, 2*len(d))
	of := -1
	var ka, kae, ch, cv float64
	quake := 0.0
	for i := 1; i < len(d); i++ {
		a, b := &d[i-1], &d[i]
		if a.Level <= b.Level {
			continue
		}
		k := layerAt(c, (a.Level+b.Level)/2)
		if k != of {
			l := &c.Layers[k]
			if ka, err = earth.CoulombKa(l.Phi, in.Delta[k], c.Beta, theta); err != nil {
				return p, err
			}
			kae = ka
			if in.Kh > 0 {
				if kae, _, err = earth.MononobeOkabe(l.Phi, in.Delta[k], c.Beta, theta, in.Kh, 0); err != nil {
					return p, err
				}
			}
			ch, cv = earth.Split(1, in.Delta[k], theta)
			of, p.Ka = k, ka
		}
		for _, r := range [...]*earth.Row{a, b} {
			s := ka * r.SigmaV
			p.Rows = append(p.Rows, PushRow{Z: r.Level, H: s*ch + r.U, V: s*cv + r.U*math.Tan(theta), Soil: s * ch})
		}
		h := a.Level - b.Level
		p.Soil += ka * ch * h * (a.SigmaV + b.SigmaV) / 2
		p.Fluid += h * (a.U + b.U) / 2
		quake += math.Max(0, kae-ka) * ch * h * (a.SigmaV + b.SigmaV) / 2
	}
	p.shake(quake)
	p.add(in.Load, surface)
	p.H, p.V, _, _ = p.above(in.Bottom, 0)
	return p, nil
}

// layerAt is the layer of a column that a level lies in.
func layerAt(c *earth.Column, z float64) int {
	for i := range c.Layers {
		if z >= c.Layers[i].Bottom {
			return i
		}
	}
	return len(c.Layers) - 1
}

// shake spreads an increment over the rows in a straight line that has its
// resultant at 0.6 of the height: 1.6 times the mean at the top, 0.4 at the foot.
func (p *Push) shake(dp float64) {
	p.Quake = dp
	if dp == 0 {
		return
	}
	top := p.Rows[0].Z
	h := top - p.Foot
	for i := range p.Rows {
		r := &p.Rows[i]
		r.H += dp / h * (0.4 + 1.2*(r.Z-p.Foot)/h)
	}
}

// loadSteps divides a wall for a load whose pressure bends with depth.
const loadSteps = 24

// add puts the pressure of a load on the surface on the rows, which are made
// close enough for it to be straight between them.
func (p *Push) add(load earth.WallLoad, surface float64) {
	if load == nil {
		return
	}
	step := (p.Rows[0].Z - p.Foot) / loadSteps
	rows := make([]PushRow, 0, len(p.Rows)+2*loadSteps)
	for i := 0; i+1 < len(p.Rows); i++ {
		a, b := p.Rows[i], p.Rows[i+1]
		rows = append(rows, a)
		if n := int((a.Z - b.Z) / step); n > 0 {
			for k := 1; k <= n; k++ {
				t := float64(k) / float64(n+1)
				rows = append(rows, PushRow{Z: a.Z + t*(b.Z-a.Z), H: a.H + t*(b.H-a.H), V: a.V + t*(b.V-a.V), Soil: a.Soil + t*(b.Soil-a.Soil)})
			}
		}
	}
	p.Rows = append(rows, p.Rows[len(p.Rows)-1])
	last := 0.0
	for i := range p.Rows {
		v := load(surface - p.Rows[i].Z)
		if i > 0 {
			p.Load += (p.Rows[i-1].Z - p.Rows[i].Z) * (v + last) / 2
		}
		p.Rows[i].H += v
		last = v
	}
}

// above sums what presses above a level: the forces across and down, the moment
// of the first about that level, and that of the second about the edge of the
// back there, which leans back by lean per m.
func (p *Push) above(z, lean float64) (h, v, mh, mv float64) {
	for i := 1; i < len(p.Rows); i++ {
		a, b := p.Rows[i-1], p.Rows[i]
		if b.Z < z {
			if a.Z <= z {
				break
			}
			t := (a.Z - z) / (a.Z - b.Z)
			b = PushRow{Z: z, H: a.H + t*(b.H-a.H), V: a.V + t*(b.V-a.V)}
		}
		d := a.Z - b.Z
		if d == 0 {
			continue
		}
		// trapezoids: force, and moment about the level
		fh, fv := d*(a.H+b.H)/2, d*(a.V+b.V)/2
		h += fh
		v += fv
		mh += fh*(b.Z-z) + d*d*(2*a.H+b.H)/6
		mv += lean * (fv*(b.Z-z) + d*d*(2*a.V+b.V)/6)
	}
	return h, v, mh, mv
}

// PushedIn is a wall of dry-stacked blocks, one block thick, under a push.
type PushedIn struct {
	Courses  int
	Height   float64 // of a course, m
	B        float64 // of the blocks, from face to back, m
	Setback  float64 // of each course from the one below, into the hill, m
	Gamma    float64 // of the blocks, kN/m3
	TanBase  float64 // friction of the lowest course on what it stands on
	TanJoint float64 // friction of block on block, without keys
	Kh       float64 // of an earthquake, which shakes the blocks as well
	Push     Push
}

// StackPushed checks every joint of a dry-stacked wall as Stack does, from the
// base up, under any push. Water behind drains through the joints: it lifts the
// wall above a joint by a triangle, full at the back, none at the face. Ka of a
// joint is that at the foot of the wall.
func StackPushed(in PushedIn) ([]Joint, error) {
	err := limit.First(
		limit.Within("courses", float64(in.Courses), 1, 100, quantity.None),
		limit.Positive("height", in.Height, quantity.Length),
		limit.Positive("b", in.B, quantity.Length),
		limit.Within("setback", in.Setback, 0, in.B/2, quantity.Length),
		limit.Positive("gamma", in.Gamma, quantity.UnitWeight),
		limit.Within("kh", in.Kh, 0, 1, quantity.None),
		limit.Within("tan_base", in.TanBase, 0, 2, quantity.None),
		limit.Within("tan_joint", in.TanJoint, 0, 2, quantity.None))
	if err != nil {
		return nil, err
	}
	out := make([]Joint, 0, in.Courses)
	for c := range in.Courses {
		j, err := in.joint(c)
		if err != nil {
			return nil, err
		}
		out = append(out, j)
	}
	return out, nil
}

// joint is the wall above the joint under course c.
func (in *PushedIn) joint(c int) (Joint, error) {
	n := in.Courses - c
	block := in.B * in.Height * in.Gamma
	w := WallIn{B: in.B, TanBase: in.TanJoint, Weights: make([]Weight, 0, 3)}
	if c == 0 {
		w.TanBase = in.TanBase
	}
	w.Weights = append(w.Weights, Weight{W: block * float64(n), Arm: in.B/2 + float64(n-1)*in.Setback/2})
	z := in.Push.Foot + float64(c)*in.Height
	h, v, mh, mv := in.Push.above(z, in.Setback/in.Height)
	if v != 0 {
		w.Weights = append(w.Weights, Weight{W: v, Arm: in.B + mv/v})
	}
	if hw := in.Push.Water - float64(c)*in.Height; hw > 0 {
		w.Weights = append(w.Weights, Weight{W: -gammaWater * hw * in.B / 2, Arm: in.B * 2 / 3})
	}
	inertia := in.Kh * block * float64(n)
	w.H = h + inertia
	if w.H > 0 {
		w.HArm = (mh + inertia*float64(n)*in.Height/2) / w.H
	}
	w.H = math.Max(0, w.H)
	s, err := StandWall(w)
	return Joint{Course: c, Height: float64(n) * in.Height, Ka: in.Push.Ka, H: w.H, V: v, Wall: s}, err
}
