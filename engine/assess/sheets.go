package assess

import (
	"math"

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
func (j *job) sagLimit() float64 {
	for _, l := range j.p.Defence.Layers {
		if l.Kind == "membrane" {
			return box.SagLimitLined
		}
	}
	return box.SagLimit
}

// wallChecks offers the sheets of all loaded walls at this stage.
func (j *job) wallChecks(st model.Stage, sr *stageResult) {
	for _, w := range append([]wallLoad{sr.back}, sr.walls...) {
		if !w.loaded {
			continue
		}
		long := j.wallOf(w.face).long
		id, sheet := "end-sheet", box.EndSheet
		if long {
			id, sheet = "side-sheet", box.SideSheet
		}
		c := candidate{part: partOf(w.face), stage: st.ID, station: w.station, hasStation: w.face != section.Back}
		c.id, c.ratio = id, w.ratio()
		c.write = func() (check.Check, error) { made, _, err := sheet(w.strip); return made, err }
		sr.add(c)

		limit := j.sagLimit()
		sag, _, k := w.result.Line.Sag()
		c.id, c.ratio = "sheet-deflection", math.Abs(sag)*limit/w.result.Line.Spans[k].L
		c.write = func() (check.Check, error) { made, _, err := box.SheetDeflection(w.strip, limit); return made, err }
		sr.add(c)
	}
}

// ratio is the largest ratio of a solved strip.
func (w wallLoad) ratio() float64 {
	r := &w.result
	worst := 0.0
	for _, p := range []box.Pair{r.FieldRatio, r.HogRatio, r.ShearRatio, r.TogetherRatio} {
		worst = math.Max(worst, math.Max(p.ASD, p.LRFD))
	}
	return worst
}

// roofChecks offers the roof sheet and its deflection at every station that
// carries or is pressed.
func (j *job) roofChecks(v *section.View, sr *stageResult) error {
	for i, ra := range sr.roofs {
		strip, err := j.roofStrip(v.Stage, ra, j.roofThrust(sr, i))
		if err != nil {
			return err
		}
		if ra.load.Total <= 0 && strip.Thrust.ASD <= 0 {
			continue
		}
		made, err := strip.Solve()
		if err != nil {
			return err
		}
		c := candidate{part: "roof", stage: v.Stage.ID, station: ra.load.Station, hasStation: true}
		c.id, c.ratio = "roof-sheet", math.Max(made.ASD.Ratio, made.LRFD.Ratio)
		c.write = func() (check.Check, error) { ck, _, err := box.RoofSheet(strip); return ck, err }
		sr.add(c)
		limit := j.sagLimit()
		c.id, c.ratio = "roof-deflection", made.Deflection*limit/made.Bay
		c.write = func() (check.Check, error) { ck, _, err := box.RoofDeflection(strip, limit); return ck, err }
		sr.add(c)
		if err := j.purlinChecks(v, sr, &made, ra.load.Station); err != nil {
			return err
		}
	}
	return j.postCheck(v, sr)
}

// roofThrust is what presses on both edges of the roof sheet at a station: the
// smaller of the two walls' tops. What one side has more goes sideways through
// the roof and the ribs. A box broadside is pressed from one side only.
func (j *job) roofThrust(sr *stageResult, i int) box.Pair {
	if j.p.Box.Orientation == model.Broadside {
		return box.Pair{}
	}
	return sr.topThrust(i)
}
