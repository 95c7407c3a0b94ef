package assess

import (
	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/timber"
)

// studPart names the timber skin of a wall.
func (w *wallLoad) studPart() string { return partOf(w.face) + ", " + studSkinName }

// Names of the skins of a wall, after that of the wall.
const (
	studSkinName     = "stud skin"
	concreteSkinName = "concrete skin"
)

// studSkin looks the timber of a skin up and makes it ready for loads. Studs
// stand between the edges of the sheet and bear on the depth of the rails.
func (j *job) studSkin(o *outer, pn panel) {
	in := j.p.Strengthening.Stud
	use := timber.Use{CD: timber.CDLasting, Wet: in.WetInUse, Incised: in.Incised, Repetitive: in.Spacing <= timber.RepetitiveSpacing}
	o.creep = use.Creep()
	o.ply = timber.Panel{CD: timber.CDLasting, Wet: in.WetInUse, Span: in.Spacing}
	row, ok := j.t.Lumber(timber.ID(in.Species, in.Size))
	if !ok {
		o.studFault = model.Problem{Field: "strengthening.stud_skin", Value: timber.ID(in.Species, in.Size),
			Allowed: "species and size of the lumber table", Text: "no such lumber"}
	} else {
		o.stud, o.studFault = timber.Stud{Lumber: row, Use: use, Spacing: in.Spacing, Height: pn.height(),
			Bottom: pn.bottom.H, Top: pn.top.H}.Ready()
	}
	if o.ply.Plywood, ok = j.t.Plywood(in.Plywood); !ok {
		o.plyFault = model.Problem{Field: "strengthening.stud_skin.plywood", Value: in.Plywood, Allowed: "a row of the plywood table", Text: "no such plywood"}
	}
}

// studChecks offers studs and plywood of a wall.
func (j *job) studChecks(sr *stageResult, w *wallLoad, worst *worstOf) {
	o, s := j.outer[w.face], w.skin
	part := w.studPart()
	if s.studFault != nil {
		for _, g := range studGaps {
			worst.missing(g.id, g.title, part, sr.st.ID, reason(s.studFault))
		}
		return
	}
	most := s.studs.Worst()
	c := w.candidate(sr, "stud", part, ratioOf(most.ASD, most.LRFD))
	c.write = func() (check.Check, error) {
		made, _, err := o.stud.With(w.load.Service(), s.share.OuterTakes).Check()
		made.Working = append(j.pressureLines(w), made.Working...)
		made.Assumptions = append(made.Assumptions, s.onSkin())
		return made, err
	}
	worst.add(c)
	c = w.candidate(sr, "stud-deflection", part, s.studs.Sag*j.sagLimit/j.wallOf(w.face).height())
	c.write = func() (check.Check, error) {
		made, _, err := o.stud.With(w.load.Service(), s.share.OuterTakes).SagCheck(j.sagLimit)
		made.Assumptions = append(made.Assumptions, s.onSkin())
		return made, err
	}
	worst.add(c)
	j.plyCheck(sr, w, worst)
}

// plyCheck offers the plywood of a wall under the largest pressure, all of which
// comes through it.
func (j *job) plyCheck(sr *stageResult, w *wallLoad, worst *worstOf) {
	o, title := j.outer[w.face], studGaps[2].title
	can, err := o.ply.Strength()
	if o.plyFault != nil {
		err = o.plyFault
	}
	if err != nil {
		worst.missing(plyID, title, w.studPart(), sr.st.ID, reason(err))
		return
	}
	load := peakOf(w.skin.peak)
	c := w.candidate(sr, plyID, w.studPart(), ratioOf(load.ASD/can.ASD, load.LRFD/can.LRFD))
	c.write = func() (check.Check, error) {
		made, err := o.ply.Check(plyID, title, load)
		made.Case, made.CaseLRFD = box.Allowable[1].Name, box.Strength[1].Name
		return made, err
	}
	worst.add(c)
	sag, err := o.ply.Sag(w.skin.peak)
	if err != nil {
		worst.missing(plySagID, plySagTitle, w.studPart(), sr.st.ID, reason(err))
		return
	}
	c.id, c.ratio = plySagID, sag*timber.PlySagLimit/o.ply.Span
	c.write = func() (check.Check, error) { return o.ply.SagCheck(plySagID, plySagTitle, w.skin.peak) }
	worst.add(c)
}

const (
	plyID       = "skin-plywood"
	plySagID    = "skin-plywood-deflection"
	plySagTitle = "Bow of the plywood"
)

// studGaps are the checks of a timber skin.
var studGaps = []gap{
	{id: "stud", title: "Stud of the outside skin", part: "stud skin"},
	{id: "stud-deflection", title: "Bow of the studs", part: "stud skin"},
	{id: plyID, title: "Plywood of the outside skin", part: "stud skin"},
}

// skinChecks offers the skins outside all loaded walls.
func (j *job) skinChecks(sr *stageResult, worst *worstOf) error {
	if j.outer == nil {
		return nil
	}
	for w := range sr.loadedWalls() {
		if w.skin == nil {
			continue // the wall could not be worked out: its own check says so
		}
		if j.hasStuds() {
			j.studChecks(sr, w, worst)
		}
		if j.hasConcrete() {
			j.concreteCheck(sr, w, worst)
		}
	}
	return nil
}
