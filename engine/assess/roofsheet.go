package assess

import (
	"errors"
	"math"
	"slices"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
)

// roofSheet is a metre of roof under its load, pressed by the walls below it.
// Stages that load it alike share it.
type roofSheet struct {
	at     *roofAt
	on     box.OnRoof
	thrust box.Pair
	roof   *agedRoof
	result box.RoofResult
}

// onRoof are the even loads as sheet and ribs take them; the wheels come on
// top as they lie.
func (r *roofAt) onRoof() box.OnRoof {
	l := &r.load
	return box.OnRoof{Dead: l.Layers + l.Soil, Live: l.Area, Snow: l.Snow, Water: l.Water}
}

// sheet loads and solves the roof sheet here, nil where nothing presses on it.
func (pl *place) sheet(st model.Stage, r *roofAt, thrust box.Pair) (*roofSheet, error) {
	roof, on := &pl.j.agedAt(st.Years).roof, r.onRoof()
	if r.load.Total <= 0 && thrust.ASD <= 0 {
		return nil, nil
	}
	for _, s := range pl.sheets {
		if s.roof == roof && s.on == on && s.thrust == thrust && slices.Equal(s.at.wheels, r.wheels) {
			return s, nil
		}
	}
	if roof.ready == nil {
		return nil, roof.why
	}
	s := &roofSheet{at: r, roof: roof, on: on, thrust: thrust}
	if err := s.solve(); err != nil {
		return nil, err
	}
	pl.sheets = append(pl.sheets, s)
	return s, nil
}

// solve brings the load to the sheet.
func (s *roofSheet) solve() (err error) {
	s.result, err = s.roof.ready.UnderWheels(s.on, s.at.wheels, s.thrust)
	if s.roof.why != nil {
		none := s.roof.ratio()
		s.result.Deflection, s.result.ASD.Ratio, s.result.LRFD.Ratio = none, none, none
	}
	return err
}

// strip is the sheet with its load, to be written.
func (s *roofSheet) strip() box.RoofStrip {
	out := s.roof.ready.Strip(s.on, s.thrust)
	out.Wheels = s.at.wheels
	return out
}

// topThrust is what walls press on the edges of the roof sheet: the larger of
// their tops, the pressure on the rails themselves included. What one presses
// more than the other leaves the sheet sideways on its way, but it enters
// through one edge, so all of it is taken as compression in the sheet up to the
// middle of the span. A wall over several wales may pull at its top: that is no
// thrust.
//
// Where posts lean on the roof and no roof beam props them apart, what they
// bring goes through the sheet as well. That cross struts take part of it is
// not counted.
func (j *job) topThrust(walls ...*wallLoad) (out box.Pair) {
	for _, w := range walls {
		top := w.top
		if j.hasRibs() && j.p.Strengthening.Ribs.RoofBeam == "" {
			top = w.roofPush()
		}
		out = box.Pair{ASD: math.Max(out.ASD, top.ASD), LRFD: math.Max(out.LRFD, top.LRFD)}
	}
	return out
}

// pressRoofs solves the roof of a box set broadside, which the back wall
// presses.
func (j *job) pressRoofs(sr *stageResult) {
	thrust := j.topThrust(sr.back)
	for i := range sr.tops {
		t := &sr.tops[i]
		t.sheet, t.sheetFault = (&place{j: j, x: t.load.Station}).sheet(sr.st, &t.roofAt, thrust)
	}
}

// roofChecks offers the roof sheet, its deflection and the purlins under it at
// every station that carries or is pressed, and the corner posts.
func (j *job) roofChecks(sr *stageResult, worst *worstOf) error {
	if j.p.Box.Orientation == model.Broadside {
		j.pressRoofs(sr)
	}
	for i := range sr.tops {
		t := &sr.tops[i]
		if t.sheetFault != nil {
			return t.sheetFault
		}
		if t.sheet == nil {
			continue
		}
		s := t.sheet
		c := candidate{slot: slot{"roof-sheet", "roof"}, stage: sr.st.ID, station: t.load.Station, hasStation: true}
		c.ratio = math.Max(s.result.ASD.Ratio, s.result.LRFD.Ratio)
		if won := worst.add(c); won != nil {
			won.write = func() (check.Check, error) { return j.roofCheck(s) }
		}
		c.id, c.ratio = "roof-deflection", s.result.Deflection*j.sagLimit/s.result.Bay
		if won := worst.add(c); won != nil {
			won.write = func() (check.Check, error) { return j.roofSag(s) }
		}
		if err := j.purlinChecks(sr, s, t.load.Station, worst); err != nil {
			return err
		}
	}
	err := j.postCheck(sr, worst)
	if loaded := slices.ContainsFunc(sr.tops, func(t topLoad) bool { return t.sheet != nil }); loaded {
		err = errors.Join(err, j.agedAt(sr.st.Years).roof.fault())
	}
	return err
}

// roofCheck writes the check of a roof sheet.
func (j *job) roofCheck(s *roofSheet) (check.Check, error) {
	if s.roof.why != nil {
		return s.roof.check("roof-sheet", "Roof sheet as beam and strut", "roof"), nil
	}
	made := box.RoofSheetOf(s.strip(), &s.result)
	made.Working = slices.Concat(j.roofLines(s), s.roof.worn.lines(), made.Working)
	tell(&made, j.usual.roof, j.usual.yield)
	return made, nil
}

// roofSag writes the check of its deflection.
func (j *job) roofSag(s *roofSheet) (check.Check, error) {
	if s.roof.why != nil {
		return s.roof.check("roof-deflection", "Sag of the roof sheet", "roof"), nil
	}
	made, err := box.RoofDeflectionOf(s.strip(), &s.result, j.sagLimit)
	made.Working = append(s.roof.worn.lines(), made.Working...)
	tell(&made, j.usual.roof)
	return made, err
}
