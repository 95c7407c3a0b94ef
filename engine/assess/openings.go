package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
)

const onRoof = "roof"

// openingPart names an opening as a part.
func openingPart(o *model.Opening) string { return fmt.Sprintf("opening %s, %s", o.ID, o.Wall) }

// atMost writes the largest length that is allowed, m.
func atMost(v float64) string {
	return "at most " + quantity.Floor.Text(math.Max(0, v), quantity.Length)
}

// misfit says why an opening does not fit where it is cut, nil where it does.
func (j *job) misfit(i int) *model.Problem {
	o := &j.p.Box.Openings[i]
	pr := func(field string, v float64, allowed, text string) *model.Problem {
		return &model.Problem{Field: fmt.Sprintf("box.openings[%d].%s", i, field), Value: quantity.Typed.Text(v, quantity.Length), Allowed: allowed, Text: text}
	}
	pn := j.wallOf(section.Face(o.Wall))
	length, height, long := j.box.W, pn.height(), pn.long
	if long || o.Wall == onRoof {
		length, long = j.box.L, true
	}
	if o.Wall == onRoof {
		height = j.roofSpan()
	}
	if o.From+o.Width > length+1e-9 {
		return pr("width", o.Width, atMost(length-o.From)+" from there", "the opening reaches past the end of its wall")
	}
	if o.Sill+o.Height > height+1e-9 {
		return pr("height", o.Height, atMost(height-o.Sill)+" from there", "the opening reaches past the edge of its sheet")
	}
	for k := range i {
		p := &j.p.Box.Openings[k]
		if p.Wall == o.Wall && o.From < p.From+p.Width && p.From < o.From+o.Width && o.Sill < p.Sill+p.Height && p.Sill < o.Sill+o.Height {
			return pr("from", o.From, "clear of the other openings", fmt.Sprintf("the opening overlaps opening %q", p.ID))
		}
	}
	if long && j.hasRibs() && o.Width > j.p.Strengthening.Ribs.Spacing {
		return pr("width", o.Width, atMost(j.p.Strengthening.Ribs.Spacing)+", the spacing of the ribs", "the opening lies across a rib")
	}
	if o.Wall == onRoof {
		return nil
	}
	if pn.long && !j.hasRibs() {
		return nil // no wale counts there
	}
	for _, w := range pn.between() {
		if w.Height > o.Sill && w.Height < o.Sill+o.Height {
			return pr("sill", o.Sill, "an opening clear of the wale at "+quantity.Text(w.Height, quantity.Length), "the opening lies across a wale")
		}
	}
	return nil
}

// openings offers what is beside every hole. One that does not fit is left
// out: it is a problem of the input.
func (j *job) openings(sr *stageResult, worst *worstOf) error {
	for i := range j.p.Box.Openings {
		if j.misfit(i) != nil {
			continue
		}
		o := &j.p.Box.Openings[i]
		offer := j.wallOpening
		if o.Wall == onRoof {
			offer = j.roofOpening
		}
		if err := offer(sr, o, worst); err != nil {
			return err
		}
	}
	return nil
}

// frameOf is the bar that frames an opening.
func (j *job) frameOf(o *model.Opening) (box.Material, error) {
	if _, ok := j.t.Bar(o.Bar); !ok {
		return j.added, model.Problem{Field: "box.openings.bar", Value: fmt.Sprintf("%q", o.Bar), Allowed: "a row of the bar table", Text: "no such bar"}
	}
	return j.added, nil
}

// wallOpening offers a hole in a wall where the wall is pressed most beside it.
func (j *job) wallOpening(sr *stageResult, o *model.Opening, worst *worstOf) error {
	w := j.pressedAt(sr, o)
	if w == nil {
		return nil
	}
	wall := j.agedAt(sr.st.Years).wall(j.wallOf(w.face).long)
	if g := j.lost(sr.st.Years, j.side.rows[:1], &wall.gone); g != nil {
		return g.offer(sr.whole("opening", openingPart(o)), "Opening in a wall", worst)
	}
	in := box.Opening{Sheet: w.strip, Width: o.Width, Low: o.Sill, High: math.Min(o.Sill+o.Height, w.strip.Height), Framed: o.Framed}
	if o.Framed {
		var err error
		if in.BarSteel, err = j.frameOf(o); err != nil {
			return err
		}
		if in.Bar, err = j.bar(o.Bar); err != nil {
			return err
		}
	}
	if err := j.railOver(sr, o, &in); err != nil {
		return err
	}
	r, err := in.Solve()
	if err != nil {
		return err
	}
	p, _ := r.Ratio()
	worst.add(candidate{slot: slot{"opening", openingPart(o)}, stage: sr.st.ID, station: w.station, hasStation: w.face != section.Back, ratio: ratioOf(p.ASD, p.LRFD),
		write: func() (check.Check, error) { made, _, err := box.WallOpening(in); return made, err }})
	return nil
}

// railOver brings the edge of the roof to the top rail of a long wall over an
// opening that reaches it: all combinations, at the heaviest place.
func (j *job) railOver(sr *stageResult, o *model.Opening, in *box.Opening) error {
	if !j.wallOf(section.Face(o.Wall)).long || in.High < in.Sheet.Height-waleMargin {
		return nil
	}
	top, err := j.wallTops(sr)
	if err != nil {
		return err
	}
	e := box.Effects{D: mostOf(top.dead), L: mostOf(top.live), S: mostOf(top.snow)}
	in.RailLoad.ASD, _ = box.Largest(box.Allowable, e)
	in.RailLoad.LRFD, _ = box.Largest(box.Strength, e)
	in.RailSteel = j.metal
	in.Rail, err = j.rustedBar(j.side.rows[0], sr.st.Years)
	return err
}

// pressedAt is the wall that presses most beside an opening, nil where nothing
// does.
func (j *job) pressedAt(sr *stageResult, o *model.Opening) *wallLoad {
	along := j.p.Box.Orientation == model.EndOn && o.Wall != string(section.Back)
	var out *wallLoad
	for w := range sr.loadedWalls() {
		if string(w.face) != o.Wall || along && !j.beside(o, w.station) {
			continue
		}
		if out == nil || worse(w.ratio(), out.ratio()) {
			out = w
		}
	}
	return out
}

// roofOpening offers a hole in the roof under the heaviest load beside it.
// Broadside the stations run across the roof, so the heaviest of all counts.
func (j *job) roofOpening(sr *stageResult, o *model.Opening, worst *worstOf) error {
	if g := j.lost(sr.st.Years, nil, &j.agedAt(sr.st.Years).roof.gone); g != nil {
		return g.offer(sr.whole("opening", openingPart(o)), "Opening in the roof", worst)
	}
	for i := range sr.tops {
		t := &sr.tops[i]
		x := t.load.Station
		if t.sheet == nil || j.p.Box.Orientation == model.EndOn && !j.beside(o, x) {
			continue
		}
		strip := t.sheet.strip()
		if o.Framed {
			if err := j.framedRoof(sr, o, t, strip, worst); err != nil {
				return err
			}
			continue
		}
		made, _, err := box.BareRoofOpening(strip, o.Width)
		if err != nil {
			return err
		}
		worst.add(candidate{slot: slot{"opening", openingPart(o)}, stage: sr.st.ID, station: x, hasStation: true, ratio: made.Worst(),
			write: func() (check.Check, error) { return made, nil }})
	}
	return nil
}

// framedRoof offers the frame of a hole in the roof. The wheels go on it as the
// even load that stands for them.
func (j *job) framedRoof(sr *stageResult, o *model.Opening, t *topLoad, strip box.RoofStrip, worst *worstOf) error {
	strip.Live, strip.Wheels = strip.Live+t.load.Live, nil
	in := box.RoofOpening{Sheet: strip, Width: o.Width}
	var err error
	if in.BarSteel, err = j.frameOf(o); err != nil {
		return err
	}
	if in.Bar, err = j.bar(o.Bar); err != nil {
		return err
	}
	r, err := in.Solve()
	if err != nil {
		return err
	}
	p := r.Ratio()
	worst.add(candidate{slot: slot{"opening", openingPart(o)}, stage: sr.st.ID, station: t.load.Station, hasStation: true, ratio: ratioOf(p.ASD, p.LRFD),
		write: func() (check.Check, error) { made, _, err := box.FramedRoof(in); return made, err }})
	return nil
}
