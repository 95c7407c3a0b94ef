package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/steel"
)

// crossMembers is the spacing of the cross members under the floor, m (12 in,
// container specifications, verified).
const crossMembers = 0.305

// many stands for a bar that runs on over its supports.
const many = 3

// barCheck is a check of a bar under a line load.
type barCheck func(box.Rail) (check.Check, box.RailResult, error)

// railChecks offers the bars along the edges of the walls and the wales.
func (j *job) railChecks(v *section.View, sr *stageResult) error {
	for _, w := range append([]wallLoad{sr.back}, sr.walls...) {
		if !w.loaded {
			continue
		}
		if err := j.edges(v.Stage, w, sr); err != nil {
			return err
		}
		if err := j.waleChecks(v.Stage, w, sr); err != nil {
			return err
		}
	}
	if !j.hasRibs() {
		return j.diaphragm(v, sr)
	}
	return nil
}

// edges offers the top and the bottom bar of one wall at one station.
func (j *job) edges(st model.Stage, w wallLoad, sr *stageResult) error {
	pn := j.wallOf(w.face)
	side := partOf(w.face)
	top := direct(w.diagram, j.roofLevel(), pn.zTop).Plus(w.result.Top)
	bottom := direct(w.diagram, pn.zBottom, j.p.Box.Level).Plus(w.result.Bottom)
	type edge struct {
		part  string
		run   barCheck
		rail  box.Rail
		wale  *model.Wale
		load  box.Pair
		named string
	}
	var es []edge
	if pn.long {
		if j.hasRibs() {
			es = append(es, edge{part: side + ", top rail", run: box.TopRail, rail: j.ribbed(pn.top, j.metal), wale: pn.atTop(), load: top})
		}
		es = append(es, edge{part: side + ", bottom rail", run: box.BottomRail,
			rail: box.Rail{Bar: pn.bottom, Steel: j.metal, Span: crossMembers, Spans: many}, load: bottom})
	} else {
		span := j.endSpan()
		es = append(es,
			edge{part: side + ", header", run: box.Header, rail: box.Rail{Bar: pn.top, Steel: j.metal, Span: span, Spans: 1}, wale: pn.atTop(), load: top})
		if j.p.Box.NoFloor || pn.atBottom() != nil {
			// a sound floor, butted against the sill, holds it: see assumed
			es = append(es, edge{part: side + ", sill", run: box.Sill, rail: box.Rail{Bar: pn.bottom, Steel: j.metal, Span: span, Spans: 1}, wale: pn.atBottom(), load: bottom})
		}
	}
	for _, e := range es {
		if e.wale != nil {
			// a wale along the edge takes the load in place of the rail
			bar, err := j.bar(e.wale.Section)
			if err != nil {
				return err
			}
			e.rail.Bar, e.rail.Steel, e.run = bar, j.added, box.Wale
		}
		e.rail.Load = e.load
		if err := j.offerBar(st, sr, e.part, w, e.run, e.rail); err != nil {
			return err
		}
	}
	return nil
}

// endSpan is the width between the corner posts of the blind end.
func (j *job) endSpan() float64 { return j.box.W - 2*j.box.CastW/2 }

// ribbed is a bar that runs along the box over the ribs.
func (j *job) ribbed(b steel.Bar, m box.Material) box.Rail {
	s := j.p.Strengthening.Ribs.Spacing
	return box.Rail{Bar: b, Steel: m, Span: s, Spans: max(1, int(math.Round(j.box.L/s)))}
}

// direct is the pressure on the depth of a rail itself, between two levels.
func direct(d earth.Diagram, top, bottom float64) box.Pair {
	t, _ := d.Slice(top, bottom).ResultantOf(func(r *earth.Row) float64 { return r.Total })
	return box.Pair{ASD: t, LRFD: 1.6 * t}
}

// atTop is a wale that doubles the top bar, atBottom the bottom one.
func (w panel) atTop() *model.Wale {
	for i := range w.wales {
		if w.wales[i].Height >= w.height()-waleMargin {
			return &w.wales[i]
		}
	}
	return nil
}

func (w panel) atBottom() *model.Wale {
	for i := range w.wales {
		if w.wales[i].Height <= waleMargin {
			return &w.wales[i]
		}
	}
	return nil
}

// between lists the wales that divide the sheet, from the bottom up.
func (w panel) between() []model.Wale {
	var out []model.Wale
	for _, x := range sortedWales(w.wales) {
		if x.Height > waleMargin && x.Height < w.height()-waleMargin {
			out = append(out, x)
		}
	}
	return out
}

// bar looks a new bar up.
func (j *job) bar(id string) (steel.Bar, error) {
	row, ok := j.t.Bar(id)
	if !ok {
		return steel.Bar{}, model.Problem{Field: "strengthening", Value: fmt.Sprintf("%q", id), Allowed: "a row of the bar table", Text: "no such bar"}
	}
	return steel.BarProps(row)
}

// offerBar makes the check of a bar and offers it.
func (j *job) offerBar(st model.Stage, sr *stageResult, part string, w wallLoad, run barCheck, in box.Rail) error {
	made, _, err := run(in)
	if err != nil {
		return err
	}
	sr.add(candidate{id: made.ID, part: part, stage: st.ID, station: w.station, hasStation: w.face != section.Back,
		ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	return nil
}

// waleChecks offers the wales that divide a sheet: along the box they rest on
// the ribs, across the end on the corner posts.
func (j *job) waleChecks(st model.Stage, w wallLoad, sr *stageResult) error {
	pn := j.wallOf(w.face)
	if pn.long && !j.hasRibs() {
		return nil // listed as not checked
	}
	for k, wale := range pn.between() {
		bar, err := j.bar(wale.Section)
		if err != nil {
			return err
		}
		in := box.Rail{Bar: bar, Steel: j.added, Span: j.endSpan(), Spans: 1}
		if pn.long {
			in = j.ribbed(bar, j.added)
		}
		in.Load = w.result.Wales[k]
		part := fmt.Sprintf("%s, wale %d", partOf(w.face), k+1)
		if err := j.offerBar(st, sr, part, w, box.Wale, in); err != nil {
			return err
		}
	}
	return nil
}

// diaphragm offers the roof of a box without ribs as the beam that carries
// what one long wall presses more than the other to the ends.
func (j *job) diaphragm(v *section.View, sr *stageResult) error {
	net := box.Pair{}
	if j.p.Box.Orientation == model.Broadside {
		net = sr.back.result.Top
	} else {
		for i := 0; i+1 < len(sr.walls); i += 2 {
			l, r := sr.walls[i].result.Top, sr.walls[i+1].result.Top
			net.ASD = math.Max(net.ASD, math.Abs(l.ASD-r.ASD))
			net.LRFD = math.Max(net.LRFD, math.Abs(l.LRFD-r.LRFD))
		}
	}
	if net.ASD < negligible {
		return nil
	}
	t := j.roof.T
	if j.p.Box.RoofT > 0 {
		t = j.p.Box.RoofT / 1000
	}
	t, err := j.rusted(t, v.Stage.Years)
	if err != nil {
		return err
	}
	prof, err := profileOf(j.roof, t)
	if err != nil {
		return err
	}
	made, _, err := box.Diaphragm(box.Deck{Profile: prof, Steel: j.metal, Rail: j.side.top, RailSteel: j.metal,
		Length: j.box.L, Width: j.roofSpan(), Load: net})
	if err != nil {
		return err
	}
	sr.add(candidate{id: made.ID, part: "roof", stage: v.Stage.ID, ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	return nil
}

// negligible is a line load far below anything a check would notice, kN/m: it
// keeps rounding from making a check of nothing.
const negligible = 0.01
