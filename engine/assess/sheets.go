package assess

import (
	"errors"
	"math"
	"slices"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// partOf names the wall that a face is, as the drawing marks it.
func partOf(f section.Face) string {
	switch f {
	case section.Left:
		return "left side wall"
	case section.Right:
		return "right side wall"
	}
	return "back wall"
}

// sagLimit is the deflection limit of a sheet: tighter under a membrane or a
// brittle lining.
func sagLimit(p *model.Project) float64 {
	for _, l := range p.Defence.Layers {
		if l.Kind == "membrane" {
			return box.SagLimitLined
		}
	}
	return box.SagLimit
}

// candidate is one of a check of the wall at a stage.
func (w *wallLoad) candidate(sr *stageResult, id, part string, ratio float64) candidate {
	return candidate{slot: slot{id, part}, stage: sr.st.ID, station: w.station, hasStation: w.face != section.Back, ratio: ratio}
}

// wallChecks offers the sheets of all loaded walls at this stage, and their
// crests under wales.
func (j *job) wallChecks(sr *stageResult, worst *worstOf) error {
	var faults []error
	for w := range sr.loadedWalls() {
		id := "end-sheet"
		if j.wallOf(w.face).long {
			id = "side-sheet"
		}
		if err := w.sheet.fault(); err != nil {
			faults = append(faults, err)
		}
		if won := worst.add(w.candidate(sr, id, partOf(w.face), w.ratio())); won != nil {
			won.write = func() (check.Check, error) { return j.sheetCheck(w) }
		}
		if won := worst.add(w.candidate(sr, "sheet-deflection", partOf(w.face), w.sag)); won != nil {
			won.write = func() (check.Check, error) { return j.sheetBow(w) }
		}
	}
	j.wallCrestChecks(sr, worst)
	return errors.Join(faults...)
}

// sheetCheck writes the check of the sheet of a wall.
func (j *job) sheetCheck(w *wallLoad) (check.Check, error) {
	id, title, sheet := "end-sheet", "End sheet in bending", box.EndSheet
	if j.wallOf(w.face).long {
		id, title, sheet = "side-sheet", "Side sheet in bending", box.SideSheet
	}
	if w.sheet.why != nil {
		return w.sheet.check(id, title, partOf(w.face)), nil
	}
	made, _, err := sheet(w.strip)
	made.Working = slices.Concat(j.pressureLines(w), w.sheet.worn.lines(), made.Working)
	w.told(&made)
	tell(&made, j.usual.sheet(j.wallOf(w.face).long), j.usual.yield)
	return made, err
}

// sheetBow writes the check of its deflection.
func (j *job) sheetBow(w *wallLoad) (check.Check, error) {
	if w.sheet.why != nil {
		return w.sheet.check("sheet-deflection", "Bow of the wall sheet", partOf(w.face)), nil
	}
	made, _, err := box.SheetDeflection(w.strip, j.sagLimit)
	made.Working = append(w.sheet.worn.lines(), made.Working...)
	w.told(&made)
	tell(&made, j.usual.sheet(j.wallOf(w.face).long))
	return made, err
}

// ratio is the largest ratio of a solved strip.
func (w *wallLoad) ratio() float64 {
	p := w.bend()
	return math.Max(p.ASD, p.LRFD)
}
