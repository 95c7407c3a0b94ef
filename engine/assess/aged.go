package assess

import (
	"fmt"
	"slices"

	"hillset/engine/box"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// aged are the sheets and the bars of the container after some years of rust,
// without load.
type aged struct {
	years     float64
	side, end agedWall
	roof      agedRoof
	bars      map[section.Face][]wallBar
	// front and rear are the corner posts of the blind end and of the doors.
	front, rear agedPost
	// portal is the door end; a box with ribs has none, as they take the sway.
	portal      *box.ReadyPortal
	portalFault error
}

// agedWall is a strip of wall made ready for loads. fault says why there is no
// such sheet, unfit why it cannot be solved.
type agedWall struct {
	strip        box.Strip
	ready        *box.ReadyStrip
	fault, unfit error
}

// agedRoof is the same of the roof.
type agedRoof struct {
	strip        box.RoofStrip
	ready        *box.ReadyRoof
	fault, unfit error
}

// agedPost is a corner post after some years; fault says why there is none.
type agedPost struct {
	steel.Post
	strength float64 // kN, lower bound in compression, less by the share of steel lost
	fault    error
}

// post is a row of the table of posts after some years. All its parts are
// thinned by what the soil takes from one side.
func (j *job) post(id string, years float64) (out agedPost) {
	row, ok := j.t.Post(id)
	if !ok {
		out.fault = fmt.Errorf("the table has no corner post %q", id)
		return out
	}
	fresh, err := steel.PostProps(row)
	if err != nil {
		out.fault = err
		return out
	}
	row.Parts = slices.Clone(row.Parts)
	for i := range row.Parts {
		if row.Parts[i].T, out.fault = j.rusted(row.Parts[i].T, years); out.fault != nil {
			return out
		}
	}
	out.Post, out.fault = steel.PostProps(row)
	out.strength = j.box.PostStrength * out.Area / fresh.Area
	return out
}

// age lets the sheets rust.
func (j *job) age(years float64) *aged {
	a := &aged{years: years}
	for _, w := range []struct {
		pn  panel
		out *agedWall
	}{{j.side, &a.side}, {j.end, &a.end}} {
		if w.out.strip, w.out.fault = j.rustedStrip(w.pn, years); w.out.fault == nil {
			w.out.ready, w.out.unfit = w.out.strip.Ready()
		}
	}
	if a.roof.strip, a.roof.fault = j.roofStrip(years); a.roof.fault == nil {
		a.roof.ready, a.roof.unfit = a.roof.strip.Ready()
	}
	a.bars = map[section.Face][]wallBar{}
	for _, f := range []section.Face{section.Back, section.Left, section.Right} {
		a.bars[f] = j.barsOf(f, years)
	}
	a.front, a.rear = j.post("front", years), j.post("rear", years)
	if !j.hasRibs() {
		a.portal, a.portalFault = j.doorPortal(a)
	}
	return a
}

// agedAt is the sheets after some years, at hand for all stages of the project.
func (j *job) agedAt(years float64) *aged {
	for _, a := range j.aged {
		if a.years == years {
			return a
		}
	}
	return j.age(years)
}

// wall is the sheet of a long or an end wall.
func (a *aged) wall(long bool) *agedWall {
	if long {
		return &a.side
	}
	return &a.end
}

func (j *job) rustedStrip(pn panel, years float64) (box.Strip, error) {
	t, err := j.rusted(pn.t, years)
	if err != nil {
		return box.Strip{}, err
	}
	return j.stripOf(pn, t)
}

// rustedBar is a bar of the container after some years: all its walls are
// thinned by what the soil takes from one side. Bars put in stand inside and do
// not rust.
func (j *job) rustedBar(row tables.Bar, years float64) (steel.Bar, error) {
	var err error
	if row.T, err = j.rusted(row.T, years); err != nil {
		return steel.Bar{}, err
	}
	return steel.BarProps(row)
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
	return box.RoofStrip{Profile: prof, Steel: j.metal, Span: j.roofSpan(), Supports: j.purlinPlaces(), Dent: j.p.Box.RoofDent / 1000}, nil
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
			Text: fmt.Sprintf("rust has eaten through %.1f mm of steel", t*1000)}
	}
	return t - loss, nil
}
