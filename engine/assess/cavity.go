package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
)

// barGrade is the steel of bars in concrete.
const barGrade = "rebar-420"

// concretePart names the concrete skin of a wall.
func (w *wallLoad) concretePart() string { return partOf(w.face) + ", " + concreteSkinName }

// bars are bars of the project in concrete: diameter in mm as it holds them.
func (j *job) bars(mm, spacing, cover float64) (concrete.Bars, error) {
	g, ok := j.t.Grade(barGrade)
	if !ok {
		return concrete.Bars{}, fmt.Errorf("assess: grade %q must be in the table", barGrade)
	}
	return concrete.Bars{Diameter: mm / 1000, Spacing: spacing, Cover: cover, Fy: g.Fy}, nil
}

// concreteSkin is a metre of the filled cavity outside a face, from the
// underside of the box to its roof line.
func (j *job) concreteSkin(f section.Face) (*concrete.ReadyWall, error) {
	c := j.p.Strengthening.Cavity
	in := concrete.Wall{Section: concrete.Section{Thickness: c.Width, Fc: c.Fc * 1000, Soil: j.castAgainstSoil(f)}, Height: j.box.H}
	if c.Bar > 0 {
		var err error
		if in.Bars, err = j.bars(c.Bar, c.BarSpacing, c.BarCover); err != nil {
			return nil, err
		}
	}
	return in.Ready()
}

// castAgainstSoil tells whether the cut is the outer form of the cavity: the
// working space is no wider than it, and no studs with plywood stand there.
func (j *job) castAgainstSoil(f section.Face) bool {
	room := j.p.Cut.WorkSide
	if f == section.Back {
		room = j.p.Cut.WorkBack
	}
	return !j.hasStuds() && room <= j.p.Strengthening.Cavity.Width+formRoom
}

// formRoom is the least room for a form between the concrete and the cut, m
// (common practice).
const formRoom = 0.1

// concreteCheck offers the concrete skin of a wall.
func (j *job) concreteCheck(sr *stageResult, w *wallLoad, worst *worstOf) {
	s := w.skin
	if s.wallFault != nil {
		worst.missing(concreteGap.id, concreteGap.title, w.concretePart(), sr.st.ID, reason(s.wallFault))
		return
	}
	c := w.candidate(sr, concreteGap.id, w.concretePart(), s.wall.Worst())
	c.write = func() (check.Check, error) {
		made, _, err := j.outer[w.face].concrete.With(j.onConcrete(w)).Check()
		made.Working = append(j.pressureLines(w), made.Working...)
		if j.castAgainstSoil(w.face) {
			made.Assumptions = append(made.Assumptions, "The cut is the form on the outside: the skin is cast against soil.")
		} else {
			made.Assumptions = append(made.Assumptions, "A form stands on the outside: the skin is not cast against soil.")
		}
		return made, err
	}
	worst.add(c)
	o := j.outer[w.face]
	c.id, c.ratio = concreteSagID, s.wall.Sag(o.softer())*j.sagLimit/j.box.H
	c.write = func() (check.Check, error) {
		return o.concrete.With(j.onConcrete(w)).SagCheck(j.sagLimit, o.softer())
	}
	worst.add(c)
}

const concreteSagID = "concrete-skin-deflection"

// concreteGap is the check of a concrete skin, pourGap that of its pour.
var (
	concreteGap = gap{id: "concrete-skin", title: "Concrete skin in bending", part: "concrete skin"}
	pourGap     = gap{id: "pour", title: "Fresh concrete against the sheet"}
)

// pourChecks offers the pour of a concrete skin against the sheets as they stand
// inside: it is done before any fill comes, in no stage of its own.
func (j *job) pourChecks(worst *worstOf) {
	if !j.hasConcrete() || j.p.Strengthening.Cavity.Propped {
		return
	}
	stage := j.beforeFill()
	for _, part := range []struct {
		name string
		pn   panel
	}{{"long walls", j.side}, {partOf(section.Back), j.end}} {
		strip, err := j.rustedStrip(part.pn, 0)
		in := box.Pour{Strip: strip, Lift: j.p.Strengthening.Cavity.Lift}
		var r box.Pair
		if err == nil {
			r, err = in.Ratio()
		}
		if err != nil {
			worst.missing(pourGap.id, pourGap.title, part.name, stage, reason(err))
			continue
		}
		worst.add(candidate{slot: slot{pourGap.id, part.name}, stage: stage, ratio: math.Max(r.ASD, r.LRFD),
			write: func() (check.Check, error) { made, _, err := in.Check(); return made, err }})
	}
}

// beforeFill is the stage in which the box stands without fill; the first of all
// that have the box where there is none.
func (j *job) beforeFill() string {
	first := ""
	for _, st := range j.p.Stages {
		if st.Kind == model.StageSet {
			return st.ID
		}
		if first == "" && st.Kind != model.StageNatural && st.Kind != model.StageCut {
			first = st.ID
		}
	}
	return first
}

// propped says what props must hold where the walls are propped during the
// pour: their spacing is taken as holding.
func (j *job) propped() string {
	lift := j.p.Strengthening.Cavity.Lift
	p := box.Fresh * lift
	text := fmt.Sprintf("the walls are propped inside while the concrete is poured: the props are taken to hold at their spacing, against up to %s at the foot of a lift of %s, and are not checked", quantity.Text(p, quantity.Pressure), quantity.Text(lift, quantity.Length))
	strip, err := j.rustedStrip(j.side, 0)
	if err != nil {
		return text
	}
	if span, err := box.PropSpan(strip, p); err == nil {
		text += fmt.Sprintf("; under that pressure the side sheet spans %s from prop line to prop line", quantity.Text(span, quantity.Length))
	}
	return text
}
