package assess

import (
	"fmt"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// What is tried for a roof on posts (common practice): a slab of ordinary
// concrete with bars, or cross beams with a deck, on posts close to the walls.
var (
	ownBay     = measure{1.2, 48 * inch}  // m from post to post
	ownGap     = measure{0.1, 4 * inch}   // m clear of the walls
	ownBar     = measure{12, 12.7}        // mm; a half-inch bar
	ownBars    = measure{0.15, 6 * inch}  // m apart
	ownCover   = measure{0.025, 1 * inch} // m
	thinSlab   = measure{0.14, 6 * inch}  // m
	thickSlab  = measure{0.26, 10 * inch} // m
	slabThicks = measure{0.02, 1 * inch}  // m
	crossApart = measure{0.4, 16 * inch}  // m from cross beam to cross beam
	smallPad   = measure{0.4, 15 * inch}  // m
	largePad   = measure{1.2, 48 * inch}  // m
)

const ownFc = 25.0 // MPa

// ownKit is a roof on posts by its choices.
type ownKit struct {
	a                 *adviser
	beams             bool
	thick, pad        float64
	cross, edge, post int
	deck              string
}

// ofCover is for what the cover over the box loads: the roof and what carries
// it, and the pads.
func ofCover(a *adviser, s *state, c slot) bool {
	return underCover(a, s, c) || c.part == slabPart || c.part == padsPart
}

// byOwnRoof carries the cover past the box, on a slab or on beams.
func byOwnRoof(a *adviser, s *state, of []slot) ([]outcome, error) {
	if s.p.Strengthening.RoofSlab.Given() || len(a.t.PlywoodIDs()) == 0 {
		return nil, nil
	}
	return abreast(2, func(i int) (outcome, error) {
		k := &ownKit{a: a, beams: i == 1, thick: a.rule.of(thickSlab), pad: a.rule.of(largePad), deck: a.t.PlywoodIDs()[len(a.t.PlywoodIDs())-1]}
		return k.solve(s)
	})
}

// solve chooses the bars, then the slab, then the pads.
func (k *ownKit) solve(s *state) (outcome, error) {
	by := func(ids ...string) func(slot) bool {
		is := idsOf(ids...)
		return func(c slot) bool { return is(nil, nil, c) }
	}
	members := []member{{&k.edge, by("roof-edge-beam", "roof-edge-beam-deflection")}, {&k.post, by("roof-post")}}
	if k.beams {
		members = append(members, member{&k.cross, by("roof-cross-beam", "roof-cross-beam-deflection")})
	}
	o, err := k.a.size(s.p, k.change, members)
	if err != nil || o.tr.why != "" {
		return outcome{}, err
	}
	if !k.beams {
		slab := []slot{{"roof-slab", slabPart}, {"roof-slab-depth", slabPart}}
		if o, err = k.a.least(s.p, k.a.rule.from(thinSlab, thickSlab, slabThicks), slab, func(v float64) change { k.thick = v; return k.change() }); err != nil || o.p == nil {
			return outcome{}, err
		}
		k.thick = o.p.Strengthening.RoofSlab.Thickness
	}
	return k.a.least(s.p, k.a.rule.from(smallPad, largePad, largeStep), []slot{{footingID, padsPart}}, func(v float64) change { k.pad = v; return k.change() })
}

// change is the kit in words.
func (k *ownKit) change() change {
	bars, is := k.a.bars, k.a.rule.of
	edge, post, cross := bars[k.edge], bars[k.post], bars[k.cross]
	r := model.RoofSlab{EdgeBeam: edge.ID, Post: post.ID, Spacing: is(ownBay), Gap: is(ownGap), Footing: k.pad}
	q := func(v float64) quantity.Q { return quantity.Of("", v, quantity.Length) }
	legs := fmt.Sprintf("on edge beams of %s and posts of %s at {0} outside the long walls, on pads {1} square", edge.Name, post.Name)
	c := change{q: []quantity.Q{q(is(ownBay)), q(k.pad)}}
	if k.beams {
		r.CrossBeam, r.CrossSpacing, r.Deck = cross.ID, is(crossApart), k.deck
		c.id, c.q = "roof-beams", append(c.q, q(is(crossApart)))
		c.text = fmt.Sprintf("Carry the cover past the box on cross beams of %s at {2} with a deck of plywood %s, %s.", cross.Name, k.deck, legs)
	} else {
		r.Thickness, r.Fc, r.Bar, r.BarSpacing, r.BarCover = k.thick, ownFc, is(ownBar), is(ownBars), is(ownCover)
		c.id, c.q = "roof-slab", append(c.q, q(k.thick), quantity.Of("", is(ownBar)/1000, quantity.Thickness), q(is(ownBars)))
		c.text = fmt.Sprintf("Carry the cover past the box on a slab {2} thick with bars of {3} at {4} across, %s.", legs)
	}
	c.apply = func(p *model.Project) { p.Strengthening.RoofSlab = r }
	return c
}
