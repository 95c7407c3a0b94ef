package assess

import (
	"errors"
	"fmt"
	"math"
	"slices"

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

// wallBar is a bar along a wall or under the roof, without its load.
type wallBar struct {
	part  string
	kind  *box.RailKind
	rail  box.Rail
	worn  worn   // how its thickness came about; of bars of the container
	odd   string // what is out of the ordinary of its steel
	load  func(*wallLoad) box.Pair
	fault error // why there is no such bar
	ready *box.ReadyRail
}

// made makes bars ready for their loads.
func made(bars []wallBar) []wallBar {
	for i := range bars {
		if b := &bars[i]; b.fault == nil {
			b.ready, b.fault = b.kind.Ready(b.rail)
		}
	}
	return bars
}

// barsOf lists the bars along a face: those along its edges, and the wales
// that divide its sheet, after some years of rust. Along the box wales rest on
// the ribs, across the end on the corner posts.
func (j *job) barsOf(f section.Face, years float64) []wallBar {
	pn, side := j.wallOf(f), partOf(f)
	atTop := func(w *wallLoad) box.Pair { return w.top }
	atBottom := func(w *wallLoad) box.Pair { return w.bottom }
	end := func(b steel.Bar) box.Rail { return box.Rail{Bar: b, Steel: j.metal, Span: j.endSpan(), Spans: 1} }
	top, topWorn, topFault := j.wornBar(pn.rows[0], years)
	bottom, bottomWorn, bottomFault := j.wornBar(pn.rows[1], years)
	var out []wallBar
	if pn.long {
		if j.hasRibs() {
			out = append(out, j.doubled(wallBar{part: side + ", top rail", kind: box.KindTopRail, rail: j.ribbed(top, j.metal), load: atTop, worn: topWorn, odd: j.usual.yield, fault: topFault}, pn.atTop()))
		} else {
			for _, o := range j.cutsInRoof() {
				out = append(out, wallBar{part: side + ", top rail", kind: box.KindCutRail, load: j.atCut(o), worn: topWorn, odd: j.usual.yield, fault: topFault,
					rail: box.Rail{Bar: top, Steel: j.metal, Span: o.Width, Spans: 1}})
			}
		}
		out = append(out, wallBar{part: side + ", bottom rail", kind: box.KindBottomRail, load: atBottom, worn: bottomWorn, odd: j.usual.yield, fault: bottomFault,
			rail: box.Rail{Bar: bottom, Steel: j.metal, Span: crossMembers, Spans: many}})
	} else {
		out = append(out, j.doubled(wallBar{part: side + ", header", kind: box.KindHeader, rail: end(top), load: atTop, worn: topWorn, odd: j.usual.yield, fault: topFault}, pn.atTop()))
		if j.p.Box.NoFloor || pn.atBottom() != nil {
			// a sound floor, butted against the sill, holds it: see assumed
			out = append(out, j.doubled(wallBar{part: side + ", sill", kind: box.KindSill, rail: end(bottom), load: atBottom, worn: bottomWorn, odd: j.usual.yield, fault: bottomFault}, pn.atBottom()))
		}
	}
	if pn.long && !j.hasRibs() {
		return out // wales are listed as not checked
	}
	for k, wale := range pn.between() {
		b := wallBar{part: fmt.Sprintf("%s, wale %d", side, k+1), kind: box.KindWale, rail: end(steel.Bar{}),
			load: func(w *wallLoad) box.Pair { return w.result.Wales[k] }}
		if pn.long {
			b.rail = j.ribbed(steel.Bar{}, j.added)
		}
		out = append(out, j.doubled(b, &wale))
	}
	return out
}

// doubled puts a wale in the place of a bar: along an edge it takes the load
// of the rail.
func (j *job) doubled(b wallBar, wale *model.Wale) wallBar {
	if wale == nil {
		return b
	}
	b.worn, b.odd = worn{}, "" // not of the container
	b.rail.Bar, b.fault = j.bar(wale.Section)
	b.rail.Steel, b.kind = j.added, box.KindWale
	return b
}

// offer rates a bar under its load and offers it. One that cannot be rated is
// offered as missing, and the error says why; one that has rusted through is
// beyond limits.
func (b *wallBar) offer(sr *stageResult, load box.Pair, cases box.Cases, station float64, hasStation bool, worst *worstOf) error {
	c := candidate{slot: slot{b.kind.ID(), b.part}, stage: sr.st.ID, station: station, hasStation: hasStation, ratio: math.Inf(1)}
	if errors.Is(b.fault, steel.ErrRustedThrough) {
		c.write = func() (check.Check, error) { return b.worn.through(b.kind.ID(), b.kind.Title()), nil }
		worst.add(c)
		return nil
	}
	err, bow := b.fault, 0.0
	if err == nil {
		c.ratio, bow, err = b.ready.Ratio(load)
	}
	if err != nil {
		worst.fault(slot{b.kind.ID(), b.part}, b.kind.Title(), sr.st.ID, "", err)
		return err
	}
	if won := worst.add(c); won != nil {
		won.write = func() (check.Check, error) {
			made, _, err := b.kind.Check(b.named(load, cases))
			made.Working = append(b.worn.lines(), made.Working...)
			tell(&made, b.odd)
			return made, err
		}
	}
	if b.kind.BowID() == "" {
		return nil
	}
	c.slot, c.ratio = slot{b.kind.BowID(), b.part}, bow
	if won := worst.add(c); won != nil {
		won.write = func() (check.Check, error) { return b.kind.BowCheck(b.named(load, cases)) }
	}
	return nil
}

// named is the bar with its load, and the combinations that it comes of.
func (b *wallBar) named(load box.Pair, cases box.Cases) box.Rail {
	in := b.under(load)
	in.Case = cases
	return in
}

// under is the bar with its load.
func (b *wallBar) under(load box.Pair) box.Rail {
	in := b.rail
	in.Load = load
	return in
}

// railChecks offers the bars along the edges of the walls and the wales.
func (j *job) railChecks(sr *stageResult, worst *worstOf) error {
	a := j.agedAt(sr.st.Years)
	all, cross := a.bars, &a.cross
	var faults []error
	for w := range sr.loadedWalls() {
		bars := all[w.face]
		for i := range bars {
			if err := bars[i].offer(sr, bars[i].load(w), box.Cases{}, w.station, w.face != section.Back, worst); err != nil {
				faults = append(faults, err)
			}
		}
		if j.wallOf(w.face).long {
			cross.offer(sr, w, worst)
		}
	}
	if !j.swayHeld() {
		faults = append(faults, j.diaphragm(sr, worst))
	}
	return errors.Join(faults...)
}

// roofPush is what a wall presses on the roof where the roof holds its top, kN
// per m: the top of its sheet, and what wales bring to posts that lean on the
// roof. The posts are hinged at the floor, so cross struts change nothing of
// what both walls together ask of the roof.
func (w *wallLoad) roofPush() box.Pair {
	out := w.top
	for k, p := range w.result.Wales {
		out = out.Plus(p.Times(w.strip.Wales[k] / w.strip.Height))
	}
	return out
}

// endSpan is the width between the middles of the corner posts of the blind end.
func (j *job) endSpan() float64 { return j.box.W - j.box.CastW }

// ribbed is a bar that runs along the box over the ribs.
func (j *job) ribbed(b steel.Bar, m box.Material) box.Rail {
	return box.Rail{Bar: b, Steel: m, Span: j.p.Strengthening.Ribs.Spacing, Spans: j.ribSpans()}
}

// direct is the pressure on the depth of a rail itself, between two levels.
func direct(d earth.Diagram, top, bottom float64) box.Pair {
	t := d.Thrust(top, bottom)
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

// diaphragm offers the roof of a box without ribs, or with ribs that do not
// hold themselves upright, as the beam that carries what one long wall presses
// more than the other to the ends.
func (j *job) diaphragm(sr *stageResult, worst *worstOf) error {
	net := box.Pair{}
	if j.p.Box.Orientation == model.Broadside {
		net = sr.back.roofPush()
	} else {
		for i := 0; i+1 < len(sr.walls); i += 2 {
			l, r := sr.walls[i].roofPush(), sr.walls[i+1].roofPush()
			net.ASD = math.Max(net.ASD, math.Abs(l.ASD-r.ASD))
			net.LRFD = math.Max(net.LRFD, math.Abs(l.LRFD-r.LRFD))
		}
	}
	if net.ASD < negligible {
		return nil
	}
	roof := &j.agedAt(sr.st.Years).roof
	if g := j.lost(sr.st.Years, j.side.rows[:1], &roof.gone); g != nil {
		return g.offer(sr.whole("roof-diaphragm", "roof"), "Roof as a diaphragm", worst)
	}
	rail, worn, err := j.wornBar(j.side.rows[0], sr.st.Years)
	if err != nil {
		return err
	}
	made, r, err := box.Diaphragm(box.Deck{Profile: roof.strip.Profile, Steel: j.metal, Rail: rail, RailSteel: j.metal,
		Length: j.box.L, Width: j.roofSpan(), Load: net})
	if err != nil {
		return err
	}
	sr.chord = r.N
	if why := j.cutRoof(); why != "" {
		worst.missing(made.ID, made.Title, "roof", sr.st.ID, why)
		return nil
	}
	worst.add(candidate{slot: slot{made.ID, "roof"}, stage: sr.st.ID, ratio: made.Worst(), write: func() (check.Check, error) {
		made.Working = slices.Concat(roof.worn.lines(), worn.lines(), made.Working)
		return made, nil
	}})
	return nil
}

// cutsInRoof are the openings in the roof that lie in it.
func (j *job) cutsInRoof() (out []*model.Opening) {
	for i := range j.p.Box.Openings {
		if o := &j.p.Box.Openings[i]; o.Wall == onRoof && j.misfit(i) == nil {
			out = append(out, o)
		}
	}
	return out
}

// roofCuts are where the roof sheet does not hold the top rails: at any cut, as the
// sheet holds one rail by running across to the other.
func (j *job) roofCuts() (out []box.RoofCut) {
	for _, o := range j.cutsInRoof() {
		at := func(x float64) float64 { return clampTo(x-j.box.CastL/2, 0, j.span()) }
		out = append(out, box.RoofCut{From: at(o.From), To: at(o.From + o.Width)})
	}
	return out
}

// atCut is the load of a top rail over a cut in the roof: the top of the wall there,
// nothing elsewhere.
func (j *job) atCut(o *model.Opening) func(*wallLoad) box.Pair {
	return func(w *wallLoad) box.Pair {
		if j.p.Box.Orientation == model.EndOn && !j.beside(o, w.station) {
			return box.Pair{}
		}
		return w.top
	}
}

// beside tells whether a station is so near to an opening that it stands for what
// presses there.
func (j *job) beside(o *model.Opening, x float64) bool {
	return x >= j.frontX+o.From-maxStation && x <= j.frontX+o.From+o.Width+maxStation
}

// cutRoof says why the roof is no diaphragm, empty where it is whole (structure
// reference, section 4: only if uncut).
func (j *job) cutRoof() string {
	for _, o := range j.p.Box.Openings {
		if o.Wall == onRoof {
			return fmt.Sprintf("opening %q is cut in the roof, which counts as a diaphragm only where it is whole: what one side presses more than the other needs ribs that take the sway", o.ID)
		}
	}
	return ""
}

// negligible is a line load far below anything a check would notice, kN/m: it
// keeps rounding from making a check of nothing.
const negligible = 0.01
