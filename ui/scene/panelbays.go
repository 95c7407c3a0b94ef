package scene

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/assess"
	"hillset/engine/section"
	"hillset/geom"
)

// use is a step of how far a bay is used.
type use int

// The steps. Each has a tint and a hatch of its own, so that they stay apart
// without colour.
const (
	useLow  use = iota // up to 0.5
	useMid             // up to 0.8
	useHigh            // up to 1
	useOver            // beyond limits
	useNone            // not checked
	uses
)

// useOf is the step of a ratio.
func useOf(r float64) use {
	switch {
	case math.IsNaN(r):
		return useNone
	case r <= 0.5:
		return useLow
	case r <= 0.8:
		return useMid
	case r <= 1:
		return useHigh
	}
	return useOver
}

// role is the tint of a step.
func (u use) role() Role {
	return [...]Role{UseLow, UseMid, UseHigh, UseBeyond, Paper}[u]
}

// words is what the legend says of a step.
func (u use) words() string {
	return [...]string{"up to 0.50", "up to 0.80", "up to 1.00, the limit", "beyond 1.00", "not checked"}[u]
}

// ratioText writes a ratio so that one beyond limits never reads 1.00.
func ratioText(r float64) string {
	switch {
	case math.IsNaN(r):
		return "not checked"
	case r > 99:
		return "over 99"
	case r > 1:
		return fmt.Sprintf("%.2f", ceil2(r))
	}
	return fmt.Sprintf("%.2f", r)
}

// cut2 parts the name of a bar into the part that it belongs to and its own.
func cut2(part string) (head, tail string, ok bool) { return strings.Cut(part, ", ") }

// worstBay is the bay that must not be hidden: the largest ratio beyond
// limits, else one not checked, else the largest ratio; nil for none.
func worstBay(bays []assess.Bay) *assess.Bay {
	var out *assess.Bay
	for i := range bays {
		if w := &bays[i]; out == nil || bayWeight(w) > bayWeight(out) {
			out = w
		}
	}
	return out
}

// bayWeight orders bays by what must not be hidden.
func bayWeight(w *assess.Bay) float64 {
	switch {
	case math.IsNaN(w.Ratio):
		return 1.5
	case w.Ratio > 1:
		return 1 + w.Ratio
	}
	return w.Ratio
}

// rect is where a bay lies on the drawing. Roof and floor are seen from above,
// with the left of the box at the top.
func (p *sheetPanel) rect(w *assess.Bay) geom.Rect {
	low, high := w.Low, w.High
	if p.Face == section.Roof || p.Face == section.Floor || p.Face == assess.OverRoof {
		low, high = p.Height-w.High, p.Height-w.Low
	}
	return geom.Rect{Min: p.at.Add(geom.Vec{w.From, low}), Max: p.at.Add(geom.Vec{w.To, high})}
}

// panel draws the areas of a panel: sheets, then bars over them, openings, the
// outline and the ticks.
func (b *builder) panel(p *sheetPanel) {
	all := geom.Rect{Min: p.at, Max: p.at.Add(geom.Vec{p.Length, p.Height})}
	ring := geom.Polyline(all.ToRing())
	b.add(Path{Layer: PanelLayer, Tag: "panel:" + string(p.Face), Parts: []geom.Polyline{ring}, Closed: true, Fill: Paper})
	for _, bars := range []bool{false, true} {
		if bars {
			b.cutOut(p)
		}
		for i := range p.bays {
			if w := &p.bays[i]; w.Bar == bars {
				b.bay(p, w)
			}
		}
	}
	b.add(Path{Layer: PanelLayer, Tag: "panel:" + string(p.Face), Parts: []geom.Polyline{ring}, Closed: true, Stroke: Steel, Width: wGround})
	b.at.closedChain(ring, true)
	b.panelTicks(p)
}

// bay draws one bay: tint, hatch, outline.
func (b *builder) bay(p *sheetPanel, w *assess.Bay) {
	r := overlap(p.rect(w), geom.Rect{Min: p.at, Max: p.at.Add(geom.Vec{p.Length, p.Height})})
	if r.Empty() || !geom.Finite(r.Min[0], r.Min[1], r.Max[0], r.Max[1]) {
		return
	}
	u, ring := useOf(w.Ratio), []geom.Polyline{geom.Polyline(r.ToRing())}
	tag := "bay:" + w.Part
	b.add(Path{Layer: PanelLayer, Tag: tag, Parts: ring, Closed: true, Fill: u.role()})
	b.useHatch(tag, u, r)
	edge := Path{Layer: PanelLayer, Tag: tag, Parts: ring, Closed: true, Stroke: Thin, Width: wHair}
	switch {
	case w.Part == b.o.Selected:
		edge.Stroke, edge.Width = Selection, wHeavy
	case u == useOver:
		edge.Stroke, edge.Width = BeyondMark, wMid
	case w.Bar:
		edge.Width = wNarrow
	}
	b.add(edge)
}

// useHatch lays the lines of a step over an area.
func (b *builder) useHatch(tag string, u use, r geom.Rect) {
	p := Path{Layer: PanelLayer, Tag: tag + ":hatch", Stroke: Thin, Width: wHair}
	gap, ways := 0.0, []float64{math.Pi / 4}
	switch u {
	case useMid:
		gap = 5
	case useHigh:
		gap = 2.2
	case useOver:
		gap, ways, p.Stroke = 2.8, []float64{math.Pi / 4, -math.Pi / 4}, BeyondMark
	case useNone:
		gap, ways, p.Dash = 4, []float64{math.Pi / 4, -math.Pi / 4}, []float64{0.9, 0.7}
	default:
		return
	}
	region := geom.Ring(r.ToRing()).ToRegion()
	for _, way := range ways {
		b.scan.load(region, way)
		for i := math.Ceil(b.scan.lo / (gap * b.mm)); i*gap*b.mm < b.scan.hi && b.left > 0; i++ {
			c := i * gap * b.mm
			for h := b.scan.cut(c); len(h) > 1; h = h[2:] {
				from, to := b.scan.u.Mul(h[0]).Add(b.scan.n.Mul(c)), b.scan.u.Mul(h[1]).Add(b.scan.n.Mul(c))
				p.Parts = append(p.Parts, b.ink.chain(from, to))
				b.left--
			}
		}
	}
	b.add(p)
}

// cutOut draws the openings of a panel.
func (b *builder) cutOut(p *sheetPanel) {
	if b.r.Project == nil {
		return
	}
	all := geom.Rect{Min: p.at, Max: p.at.Add(geom.Vec{p.Length, p.Height})}
	for _, o := range b.r.Project.Box.Openings {
		if o.Wall != string(p.Face) {
			continue
		}
		base := b.o.Shell.Floor
		if p.Face == section.Roof {
			base = 0
		}
		w := assess.Bay{From: o.From, To: o.From + o.Width, Low: base + o.Sill, High: base + o.Sill + o.Height}
		r := overlap(p.rect(&w), all)
		if r.Empty() {
			continue
		}
		width := wNarrow
		if o.Framed {
			width = wHeavy
		}
		b.add(Path{Layer: PanelLayer, Tag: "opening:" + o.ID, Parts: []geom.Polyline{geom.Polyline(r.ToRing())}, Closed: true, Fill: Paper, Stroke: Ink, Width: width})
		b.add(Path{Layer: PanelLayer, Tag: "opening:" + o.ID, Stroke: Thin, Width: wHair,
			Parts: []geom.Polyline{{r.Min, r.Max}, {{r.Min[0], r.Max[1]}, {r.Max[0], r.Min[1]}}}})
	}
}
