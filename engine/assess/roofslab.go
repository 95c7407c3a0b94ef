package assess

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/earth"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/timber"
)

// ownRoof is the roof that carries the cover past the box on posts of its own,
// without load. fault says why there is none.
type ownRoof struct {
	span       float64 // m across, between the middles of posts and edge beams
	slab       concrete.Section
	cross      steel.Bar // across instead of the slab
	beams      bool      // there are cross beams and a deck, no slab
	spacing    float64   // of the cross beams, m
	deck       timber.Panel
	edge, post steel.Bar
	bay        float64 // m, from post to post along the box
	height     float64 // m, of a post
	side       float64 // m, of the pad below it
	fault      error
}

// ownPart names the parts of the roof on posts.
const (
	slabPart = "roof on posts"
	padsPart = "pads of the roof posts"
)

// Dead weight of a deck of plywood with what it is nailed to, kPa (common
// practice).
const deckWeight = 0.15

// ownRoof looks up the roof on posts. The slab or the cross beams span between
// the edge beams, which stand over the posts on both long sides.
func (j *job) ownRoof() *ownRoof {
	in := j.p.Strengthening.RoofSlab
	o := &ownRoof{beams: in.CrossBeam != "", bay: math.Min(in.Spacing, j.box.L), side: in.Footing, height: j.roofLevel() - section.Formation(j.p)}
	if o.post, o.fault = j.hollow("strengthening.roof_slab.post", in.Post); o.fault != nil {
		return o
	}
	if o.fault = j.postRoom(in.Gap); o.fault != nil {
		return o
	}
	o.span = j.box.W + 2*in.Gap + o.post.B
	if o.edge, o.fault = j.hollow("strengthening.roof_slab.edge_beam", in.EdgeBeam); o.fault != nil {
		return o
	}
	if !o.beams {
		o.slab = concrete.Section{Thickness: in.Thickness, Fc: in.Fc * 1000}
		o.slab.Bars, o.fault = j.bars(in.Bar, in.BarSpacing, in.BarCover)
		return o
	}
	o.spacing = in.CrossSpacing
	if o.cross, o.fault = j.hollow("strengthening.roof_slab.cross_beam", in.CrossBeam); o.fault != nil {
		return o
	}
	row, ok := j.t.Plywood(in.Deck)
	if !ok {
		o.fault = model.Problem{Field: "strengthening.roof_slab.deck", Value: in.Deck, Allowed: "a row of the plywood table", Text: "no such plywood"}
	}
	o.deck = timber.Panel{Plywood: row, CD: timber.CDLasting, Wet: true, Span: in.CrossSpacing}
	return o
}

// postRoom refuses posts that would stand in a skin outside the walls, and pads
// that would run into one another.
func (j *job) postRoom(gap float64) error {
	s := &j.p.Strengthening
	skin := 0.0
	if j.hasConcrete() {
		skin += s.Cavity.Width
	}
	if row, ok := j.t.Lumber(timber.ID(s.Stud.Species, s.Stud.Size)); ok && j.hasStuds() {
		skin = s.Cavity.Width + row.D
	}
	if gap < skin {
		return model.Problem{Field: "strengthening.roof_slab.gap", Value: quantity.Typed.Text(gap, quantity.Length), Allowed: "at least " + quantity.Ceil.Text(skin, quantity.Length),
			Text: "the posts would stand in the skin outside the walls, which is " + quantity.Text(skin, quantity.Length) + " deep"}
	}
	if s.RoofSlab.Footing > s.RoofSlab.Spacing {
		return model.Problem{Field: "strengthening.roof_slab.footing", Value: quantity.Typed.Text(s.RoofSlab.Footing, quantity.Length),
			Allowed: "at most " + quantity.Floor.Text(s.RoofSlab.Spacing, quantity.Length), Text: "the pads of neighbouring posts would run into one another"}
	}
	return nil
}

// hollow looks up a bar that nothing holds against twisting: a hollow section.
func (j *job) hollow(field, id string) (steel.Bar, error) {
	b, err := j.bar(id)
	if err == nil && b.Shape != steel.SHS && b.Shape != steel.RHS {
		err = model.Problem{Field: field, Value: id, Allowed: "a hollow section", Text: "only a hollow section is stiff enough against twisting where nothing holds it"}
	}
	return b, err
}

// take puts what lies over the box where it is carried: on the roof of the box,
// or on the one above it. Ground water comes in below a roof on posts, and what
// stands higher than the roof of the box presses on that.
func (t *topLoad) take(j *job, v *section.View, r roofAt) {
	t.roofAt = r
	if j.own == nil {
		return
	}
	t.above = &r
	t.roofAt = roofAt{load: RoofLoad{Station: r.load.Station}}
	if w := j.level(v, r.load.Station); w > j.roofLevel() {
		t.load.Water = earth.GammaW * (w - j.roofLevel())
		t.load.Total = t.load.Water
	}
}

// shown is the load over the box, whatever carries it.
func (t *topLoad) shown() RoofLoad {
	if t.above != nil {
		return t.above.load
	}
	return t.load
}

// across is a metre of the roof on posts under what lies over the box. Water is
// factored like live load, as in the checks of the box.
func (o *ownRoof) across(r *roofAt) box.Across {
	l := &r.load
	a := box.Across{Span: o.span, Even: box.Effects{D: l.Layers + l.Soil, L: l.Area + l.Water, S: l.Snow}, Wheels: r.wheels}
	if o.beams {
		a.Even.D += o.cross.Mass*gravity*1000/o.spacing + deckWeight
	}
	return a
}

// ownChecks offers the roof on posts at every station: slab or cross beams with
// their deck, edge beams, posts and the pads below them, as if a post stood
// there.
func (j *job) ownChecks(sr *stageResult, worst *worstOf) error {
	if j.own == nil {
		return nil
	}
	if j.own.fault != nil {
		return j.own.fault
	}
	soil, ok := j.weakestBelow(sr.view)
	if !ok || soil.Bearing <= 0 {
		worst.missing(footingID, footingTitle, padsPart, sr.st.ID, noBearing(soil))
	}
	for i := range sr.tops {
		r := sr.tops[i].above
		if r == nil || r.load.Total <= 0 {
			continue
		}
		in := ownAt{j: j, o: j.own, sr: sr, r: r, worst: worst}
		edge, cases, err := in.roof()
		if err != nil {
			return err
		}
		if err := in.under(edge, cases, soil); err != nil {
			return err
		}
	}
	return nil
}

// ownAt is the roof on posts at one station and stage.
type ownAt struct {
	j     *job
	o     *ownRoof
	sr    *stageResult
	r     *roofAt
	worst *worstOf
}

func (in *ownAt) add(id, part string, ratio float64, write func() (check.Check, error)) {
	in.worst.add(candidate{slot: slot{id, part}, stage: in.sr.st.ID, station: in.r.load.Station, hasStation: true, ratio: ratio, write: write})
}

// roof offers what spans across, and gives what it brings to an edge beam, kN/m.
func (in *ownAt) roof() (box.Pair, box.Cases, error) {
	o := in.o
	a := o.across(in.r)
	if !o.beams {
		s := concrete.Slab{Section: o.slab, Across: a}
		r, err := s.Solve()
		if err != nil {
			return box.Pair{}, box.Cases{}, err
		}
		in.add("roof-slab", slabPart, r.Worst(), func() (check.Check, error) {
			made, _, err := s.Check()
			return in.told(made), err
		})
		depth, err := s.DepthCheck()
		if err != nil {
			return box.Pair{}, box.Cases{}, err
		}
		in.add(depth.ID, slabPart, depth.Ratio, func() (check.Check, error) { return depth, nil })
		return r.V.Times(1 + o.edge.B/o.span), r.VCase, nil
	}
	r, err := a.Solve()
	if err != nil {
		return box.Pair{}, box.Cases{}, err
	}
	q := r.AsLine(o.span)
	beam := box.Rail{Bar: o.cross, Steel: in.j.added, Span: o.span, Spans: 1, Load: q.Times(o.spacing), Case: r.MCase}
	if err := in.rail(box.KindCross, beam); err != nil {
		return box.Pair{}, box.Cases{}, err
	}
	can, err := o.deck.Strength()
	if err != nil {
		return box.Pair{}, box.Cases{}, err
	}
	on := in.peak(q)
	in.add("roof-deck", slabPart, math.Max(on.ASD/can.ASD, on.LRFD/can.LRFD), func() (check.Check, error) {
		made, err := o.deck.Check("roof-deck", "Deck of the roof on posts", on)
		made.Case, made.CaseLRFD = r.MCase.ASD, r.MCase.LRFD
		return made, err
	})
	sag, err := o.deck.Sag(on.ASD)
	if err != nil {
		return box.Pair{}, box.Cases{}, err
	}
	in.add(deckSagID, slabPart, sag*timber.PlySagLimit/o.deck.Span, func() (check.Check, error) {
		made, err := o.deck.SagCheck(deckSagID, "Sag of the deck of the roof on posts", on.ASD)
		made.Case = r.MCase.ASD
		return made, err
	})
	lumped := math.Max(1, 2*o.spacing/o.bay) // a beam in the middle of a bay where few stand in it
	return r.V.Times((1 + o.edge.B/o.span) * lumped), r.VCase, nil
}

// peak is the largest pressure on the deck: wheels count where they press most.
func (in *ownAt) peak(even box.Pair) box.Pair {
	most := 0.0
	for _, p := range in.r.wheels {
		most = math.Max(most, p.P)
	}
	if most == 0 {
		return even
	}
	e := in.o.across(in.r).Even
	e.L += most
	asd, _ := box.Largest(box.Allowable, e)
	lrfd, _ := box.Largest(box.Strength, e)
	return box.Pair{ASD: math.Max(even.ASD, asd), LRFD: math.Max(even.LRFD, lrfd)}
}

// rail offers a beam, in bending and in shear, and its sag.
func (in *ownAt) rail(kind *box.RailKind, r box.Rail) error {
	ratio, err := kind.Ratio(r)
	if err != nil {
		return err
	}
	in.add(kind.ID(), slabPart, ratio, func() (check.Check, error) {
		made, _, err := kind.Check(r)
		return in.told(made), err
	})
	_, bow, err := kind.Bow(r)
	if err != nil {
		return err
	}
	in.add(kind.BowID(), slabPart, bow, func() (check.Check, error) { return kind.BowCheck(r) })
	return nil
}

// told adds what is taken for granted of all that carries the cover.
func (in *ownAt) told(c check.Check) check.Check {
	c.Assumptions = append(c.Assumptions,
		"All that lies over the box is carried here; the roof of the box and its corner posts carry none of it.",
		"The depth of soil is counted from the roof of the box up, though slab or beams take a part of it.",
		"It stands before anything comes to lie over the box.")
	c.Working = append(in.j.roofLines(&roofSheet{at: in.r}), c.Working...)
	return c
}

// withOwn adds the weight of a length of a bar, in the unit of the load; 1.4 is
// the largest factor of dead load.
func withOwn(p box.Pair, b steel.Bar, length float64) box.Pair {
	w := b.Mass * gravity * 1000 * length
	return p.Plus(box.Pair{ASD: w, LRFD: 1.4 * w})
}

// under offers edge beam, post and pad below a load along the edge.
func (in *ownAt) under(edge box.Pair, cases box.Cases, soil model.Soil) error {
	o, j := in.o, in.j
	edge = withOwn(edge, o.edge, 1)
	if err := in.rail(box.KindEdge, box.Rail{Bar: o.edge, Steel: j.added, Span: o.bay, Spans: 1, Load: edge, Case: cases}); err != nil {
		return err
	}
	post := box.FreePost{Bar: o.post, Steel: j.added, Height: o.height, Load: withOwn(edge.Times(o.bay), o.post, o.height), Case: cases}
	solved, err := post.Solve()
	if err != nil {
		return err
	}
	in.add("roof-post", slabPart, math.Max(solved.Ratio.ASD, solved.Ratio.LRFD), func() (check.Check, error) {
		made, _, err := post.Check()
		return made, err
	})
	if soil.Bearing <= 0 {
		return nil
	}
	pad := ground.PadAloneIn{P: post.Load.ASD, Side: o.side, Allowable: soil.Bearing,
		Basis: presumed(soil)}
	p, err := pad.Pressure()
	if err != nil {
		return err
	}
	in.add(footingID, padsPart, p/pad.Allowable, func() (check.Check, error) {
		made, err := ground.PadAloneCheck(pad)
		made.Case = cases.ASD
		return made, err
	})
	return nil
}

const deckSagID = "roof-deck-deflection"

const (
	footingID    = "post-footing"
	footingTitle = "Bearing below the pads of the roof posts"
)

// gaps are the checks of a roof on posts.
func (o *ownRoof) gaps() []gap {
	out := []gap{{id: "roof-slab", title: "Slab over the roof", part: slabPart}}
	if o.beams {
		out = []gap{{id: box.KindCross.ID(), title: "Cross beam of the roof on posts", part: slabPart}, {id: "roof-deck", title: "Deck of the roof on posts", part: slabPart}}
	}
	return append(out, gap{id: box.KindEdge.ID(), title: "Edge beam of the roof on posts", part: slabPart},
		gap{id: "roof-post", title: "Post of the roof on posts", part: slabPart}, gap{id: footingID, title: footingTitle, part: padsPart})
}
