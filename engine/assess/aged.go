package assess

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/model"
)

// aged are the sheets after some years of rust, without load.
type aged struct {
	years           float64
	side, end       box.Strip
	sideErr, endErr error
	roof            box.RoofStrip
	roofErr         error
}

// age lets the sheets rust.
func (j *job) age(years float64) aged {
	a := aged{years: years}
	a.side, a.sideErr = j.rustedStrip(j.side, years)
	a.end, a.endErr = j.rustedStrip(j.end, years)
	a.roof, a.roofErr = j.roofStrip(years)
	return a
}

// agedAt is the sheets after some years; known is false where no stage of the
// project is so old.
func (j *job) agedAt(years float64) (a aged, known bool) {
	for i := range j.aged {
		if j.aged[i].years == years {
			return j.aged[i], true
		}
	}
	return aged{}, false
}

// sheetAt is the strip of a long or an end wall after some years.
func (j *job) sheetAt(years float64, long bool) (box.Strip, error) {
	a, known := j.agedAt(years)
	if !known {
		a = j.age(years)
	}
	if long {
		return a.side, a.sideErr
	}
	return a.end, a.endErr
}

func (j *job) rustedStrip(pn panel, years float64) (box.Strip, error) {
	t, err := j.rusted(pn.t, years)
	if err != nil {
		return box.Strip{}, err
	}
	return j.stripOf(pn, t)
}

// roofStrip is a metre of rusted roof without load.
func (j *job) roofStrip(years float64) (box.RoofStrip, error) {
	t := j.roof.T
	if j.p.Box.RoofT > 0 {
		t = j.p.Box.RoofT / 1000
	}
	t, err := j.rusted(t, years)
	if err != nil {
		return box.RoofStrip{}, err
	}
	prof, err := profileOf(j.roof, t)
	if err != nil {
		return box.RoofStrip{}, err
	}
	s := box.RoofStrip{Profile: prof, Steel: j.metal, Span: j.roofSpan(), Dent: j.p.Box.RoofDent / 1000}
	if n := j.p.Strengthening.Ribs.Purlins; n > 0 && j.hasRibs() {
		for i := 1; i <= n; i++ {
			s.Supports = append(s.Supports, s.Span*float64(i)/float64(n+1))
		}
	}
	return s, nil
}

// rusted is a thickness after the years of a stage, rust on the soil side only.
func (j *job) rusted(t, years float64) (float64, error) {
	if years <= 0 {
		return t, nil
	}
	env := "fill"
	if j.p.Fill.Proven {
		env = "compacted-fill"
	}
	loss, err := j.t.Loss(env, years)
	if err != nil {
		return 0, model.Problem{Field: "stages.years", Value: fmt.Sprint(years), Allowed: "0 to 100", Text: err.Error()}
	}
	if loss >= t {
		return 0, model.Problem{Field: "stages.years", Value: fmt.Sprint(years), Allowed: "fewer years",
			Text: fmt.Sprintf("rust has eaten through %.1f mm of sheet", t*1000)}
	}
	return t - loss, nil
}
