package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/frame"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/timber"
)

// outer is what stands outside a wall to take the pressure of the soil before
// the sheet does, without load.
type outer struct {
	studs, wall bool // which skins there are

	stud  *timber.ReadyStud
	ply   timber.Panel
	creep float64 // by which the studs lose stiffness in time

	concrete *concrete.ReadyWall

	studFault, plyFault, wallFault error
	// apart says why skin and sheet do not share the pressure; empty where they
	// do as far as the sheet is free of wales.
	apart string
}

// skinLoad is what becomes of a pressure in the skins outside a wall.
type skinLoad struct {
	studs timber.StudResult
	wall  concrete.WallResult
	peak  float64 // kPa, largest pressure on the plywood
	// share is what skin and sheet are checked for; why says that there is no
	// sharing and each takes all.
	share     timber.Shares
	why       string
	studFault error
	wallFault error
}

// hasSkin tells whether a skin that carries stands outside the walls.
func (j *job) hasSkin() bool { return j.hasStuds() || j.hasConcrete() }

func (j *job) hasStuds() bool { return j.p.Strengthening.Stud.Spacing > 0 }

func (j *job) hasConcrete() bool {
	c := j.p.Strengthening.Cavity
	return c.Width > 0 && c.Fill == model.ConcreteFill
}

// skins are the skins outside the faces; nil where there are none.
func (j *job) skins() map[section.Face]*outer {
	if !j.hasSkin() {
		return nil
	}
	out := map[section.Face]*outer{}
	for _, f := range []section.Face{section.Back, section.Left, section.Right} {
		o := &outer{studs: j.hasStuds(), wall: j.hasConcrete(), apart: j.apart(j.wallOf(f))}
		if o.studs {
			j.studSkin(o, j.wallOf(f))
		}
		if o.wall {
			o.concrete, o.wallFault = j.concreteSkin(f)
		}
		out[f] = o
	}
	return out
}

// apart says why a skin and a sheet may not share what presses: only two that
// touch over the whole height and bend together do (structure reference,
// section 5).
func (j *job) apart(pn panel) string {
	dent := j.p.Box.EndDent
	if pn.long {
		dent = j.p.Box.SideDent
	}
	cut := false
	for _, o := range j.p.Box.Openings {
		cut = cut || o.Wall != "roof"
	}
	switch {
	case j.p.Strengthening.EitherAlone:
		return "either system is to carry alone"
	case cut:
		return "a wall is cut by an opening"
	case j.hasStuds() && j.hasConcrete():
		return "there are two skins, studs and concrete"
	case j.hasConcrete():
		return ""
	case j.p.Strengthening.Cavity.Width > 0:
		return "the cavity keeps studs and sheet apart"
	case dent > 0:
		return "studs do not touch the sheet where it is dented"
	}
	return ""
}

// pressSkin brings the pressure on a wall to the skins outside it, and relieves
// the sheet by what a skin takes. What the wall presses on the bars along its
// edges stays whole: skin and sheet both lean on them. A skin that passes the
// wales inside by, or reaches down to the bed and up to the roof line as concrete
// does, may press more on them than the sheet would.
func (j *job) pressSkin(w *wallLoad, ready *box.ReadyStrip) error {
	o := j.outer[w.face]
	if o == nil {
		return nil
	}
	s := &skinLoad{share: timber.Shares{OuterTakes: 1, InnerTakes: 1}, studFault: o.studFault, wallFault: o.wallFault}
	w.skin = s
	pn := j.wallOf(w.face)
	s.why = "the sheet cannot be rated"
	if w.sheet.why == nil {
		s.share, s.why = o.sharing(ready, len(pn.between()) > 0 && (!pn.long || j.hasRibs()))
	}
	s.peak, _ = w.diagram.Slice(pn.zTop, pn.zBottom).MaxTotal()
	if o.studs && s.studFault == nil {
		s.studs, s.studFault = o.stud.Under(w.load.Service(), s.share.OuterTakes)
	}
	if o.studs && s.studFault == nil && s.why != "" {
		pitch := j.p.Strengthening.Stud.Spacing
		w.top = larger(w.top, direct(w.diagram, j.roofLevel(), pn.zTop).Plus(s.studs.Rt.Times(1/pitch)))
		w.bottom = larger(w.bottom, direct(w.diagram, pn.zBottom, j.p.Box.Level).Plus(s.studs.Rb.Times(1/pitch)))
	}
	if o.wall && s.wallFault == nil {
		s.wall, s.wallFault = o.concrete.Under(j.onConcrete(w))
		if s.wallFault == nil {
			w.top = larger(w.top, peakOf(s.wall.Beam.Rb))
		}
	}
	if s.share.InnerTakes == 1 || s.studFault != nil || s.wallFault != nil {
		return nil
	}
	w.strip.Load = relieved(w.load, s.share.InnerTakes)
	var err error
	w.result, err = ready.Rate(w.strip.Load)
	return err
}

// onConcrete is the pressure on a concrete skin, from the underside of the box
// to its roof line.
func (j *job) onConcrete(w *wallLoad) frame.Load {
	return pressures(w.diagram, j.p.Box.Level, j.roofLevel()).Service()
}

// relieved are pressures of which only a share arrives.
func relieved(p box.Pressures, share float64) box.Pressures {
	scale := func(ld frame.Load) frame.Load {
		if ld == nil {
			return nil
		}
		return ld.Scale(share)
	}
	return box.Pressures{Earth: scale(p.Earth), Water: scale(p.Water), Live: scale(p.Live)}
}

// Loss of stiffness of concrete under lasting load: creep, and cracking where it
// has bars (memory: ACI 318 takes 0.35 of the section for cracked walls and a
// factor of 2 on top for what lasts, so 3 in all).
const (
	creepPlain  = 3.0
	creepBarred = 3.0 / 0.35
)

// sharing is how skin and sheet share the pressure, or why they do not.
func (o *outer) sharing(ready *box.ReadyStrip, wales bool) (timber.Shares, string) {
	all := timber.Shares{OuterTakes: 1, InnerTakes: 1}
	switch {
	case o.apart != "":
		return all, o.apart
	case wales:
		return all, "the sheet has wales"
	case ready == nil:
		return all, "there is no sheet left"
	case o.wall:
		if o.wallFault != nil {
			return all, "the concrete skin cannot be checked"
		}
		s := timber.ShareByEI(o.concrete.EI(), ready.EI(), o.softer())
		s.OuterTakes = 1 // so stiff that it is to carry all
		return s, ""
	case o.studFault != nil:
		return all, "the studs cannot be checked"
	}
	return timber.ShareByEI(o.stud.EI(), ready.EI(), o.creep), ""
}

// softer is by how much the stiffness of the concrete falls in time.
func (o *outer) softer() float64 {
	if o.concrete.Plain() {
		return creepPlain
	}
	return creepBarred
}

// told adds to a check of the sheet what the skin outside does for it.
func (w *wallLoad) told(c *check.Check) {
	if text := w.onSheet(); text != "" {
		c.Assumptions = append(c.Assumptions, text)
	}
}

// onSheet says what of the pressure the sheet is checked for; empty without a
// skin.
func (w *wallLoad) onSheet() string {
	if w.skin == nil {
		return ""
	}
	if w.skin.why != "" {
		return "The skin outside relieves the sheet of nothing: " + w.skin.why + "."
	}
	text := sharedText("The skin outside and the sheet touch over the whole height and share the pressure by their stiffness; the sheet is checked for ", w.skin.share.InnerTakes)
	if w.skin.beyond() {
		text += " The skin is itself beyond limits here: as long as it is, do not count on what it takes off the sheet."
	}
	return text
}

// beyond tells whether the skin could not carry what it is to take.
func (s *skinLoad) beyond() bool {
	studs := s.studs.Worst()
	return math.Max(math.Max(studs.ASD, studs.LRFD), s.wall.Worst()) > 1
}

// onSkin says the same of the skin.
func (s *skinLoad) onSkin() string {
	if s.why != "" {
		return "The skin is to carry all of the pressure: " + s.why + "."
	}
	return sharedText("Studs and sheet touch over the whole height and share the pressure by their stiffness; the studs are checked for ", s.share.OuterTakes)
}

// larger takes the larger of each of two effects.
func larger(a, b box.Pair) box.Pair {
	return box.Pair{ASD: math.Max(a.ASD, b.ASD), LRFD: math.Max(a.LRFD, b.LRFD)}
}

// peakOf is something that a wall presses as service and factored effect.
func peakOf(p float64) box.Pair { return box.Pair{ASD: p, LRFD: 1.6 * p} }

// sharedText ends a sentence with a share of the pressure.
func sharedText(text string, share float64) string {
	return text + fmt.Sprintf("%.0f %% of it: 1.2 times its share, at most all, and for the sheet no less than what is left to it once the skin has crept.", math.Ceil(100*share-1e-6))
}
