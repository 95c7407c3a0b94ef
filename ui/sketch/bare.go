package sketch

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/scene"
)

// Sizes of a bare drawing, mm of paper.
const (
	bareText   = 3.2
	bareLetter = 2.6 // wide enough for most letters of that height
	bareLeast  = 20  // letters in the shortest line
	gridApart  = 14  // least distance of two grid lines
)

// bareScene shows what is there of a project whose section cannot be built
// yet, over a grid with distances and levels: the lines of the site and the
// observed water, without soils or works. text says in the
// middle what is missing.
func bareScene(src Source, kind Kind, mmPerM float64, win geom.Rect, text string) *scene.Scene {
	s := &bare{Scene: scene.Scene{MMPerM: mmPerM, Bounds: win}, mm: 1 / mmPerM}
	if kind == LongSection {
		s.grid(src, win)
		s.site(src.Project())
	}
	lines := wrap(text, max(bareLeast, int((win.Max[0]-win.Min[0])*mmPerM/bareLetter)))
	at := win.Center().Add(geom.Vec{0, float64(len(lines)-1) * bareText * s.mm})
	for _, line := range lines {
		s.label(scene.Label{Layer: scene.Frame, Tag: "missing", At: at, Text: line, Height: bareText, Anchor: scene.Anchor{H: 0.5, V: 0.5}, Role: scene.Ink, Halo: true})
		at[1] -= 2 * bareText * s.mm
	}
	return &s.Scene
}

type bare struct {
	scene.Scene
	mm float64 // m of the section per mm of paper
}

func (s *bare) path(p scene.Path)   { s.Items = append(s.Items, scene.Item{Path: &p}) }
func (s *bare) label(l scene.Label) { s.Items = append(s.Items, scene.Item{Label: &l}) }

// grid draws lines at round distances and levels, with their values at the
// left and the lower edge.
func (s *bare) grid(src Source, win geom.Rect) {
	first, _ := src.Steps()
	step := gridStep(first, gridApart*s.mm)
	var lines []geom.Polyline
	for k := 0; k < 2; k++ {
		for n := math.Ceil(win.Min[k] / step); n*step <= win.Max[k]; n++ {
			a, b := win.Min, win.Max
			a[k], b[k] = n*step, n*step
			lines = append(lines, geom.Polyline{a, b})
			at, anchor := a.Add(geom.Vec{0, s.mm}), scene.Anchor{H: 0.5}
			if k == 1 {
				at, anchor = a.Add(geom.Vec{s.mm, s.mm / 2}), scene.Anchor{}
			}
			s.label(scene.Label{Layer: scene.Frame, Tag: "grid", At: at, Text: src.Format(n*step, quantity.Length), Height: 2, Anchor: anchor, Role: scene.Thin, Halo: true})
		}
	}
	s.Items = append([]scene.Item{{Path: &scene.Path{Layer: scene.Frame, Tag: "grid", Parts: lines, Stroke: scene.Concrete, Width: 0.13}}}, s.Items...)
}

// gridStep is the step that grows from the first by factors of 2 and 5 until it
// is not less than least.
func gridStep(first, least float64) float64 {
	step := first
	for i := 0; step < least; i++ {
		step *= [...]float64{2, 2.5, 2}[i%3]
	}
	return step
}

func (s *bare) site(p *model.Project) {
	line := func(tag string, role scene.Role, width float64, dash []float64, pts []model.Vec) {
		if len(pts) >= 2 {
			s.path(scene.Path{Layer: scene.Ground, Tag: tag, Parts: []geom.Polyline{pts}, Stroke: role, Width: width, Dash: dash})
		}
	}
	line("ground", scene.Earth, 0.5, nil, p.Site.Ground)
	for i := range p.Site.Strata {
		line("stratum:"+p.Site.Strata[i].ID, scene.Earth, 0.25, []float64{6, 2}, p.Site.Strata[i].Top)
	}
	line("rock", scene.Ink, 0.35, nil, p.Site.Rock)
	h := 1.5 * s.mm // half side of the sign of a water level
	for _, w := range p.Site.Water.Observed {
		s.path(scene.Path{Layer: scene.Water, Tag: "observed", Closed: true, Stroke: scene.WaterLine, Width: 0.25,
			Parts: []geom.Polyline{{w.Pos, w.Pos.Add(geom.Vec{-h, 2 * h}), w.Pos.Add(geom.Vec{h, 2 * h})}}})
	}
}

// siteBounds is the box round the points of the site; false where there are
// none.
func siteBounds(p *model.Project) (geom.Rect, bool) {
	var all []geom.Vec
	all = append(all, p.Site.Ground...)
	all = append(all, p.Site.Rock...)
	for i := range p.Site.Strata {
		all = append(all, p.Site.Strata[i].Top...)
	}
	for _, w := range p.Site.Water.Observed {
		all = append(all, w.Pos)
	}
	return boundsOf(all)
}
