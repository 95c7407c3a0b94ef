package sheet

import (
	"strings"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
)

// Prefixes of the tags by which a scene names what belongs to a material.
const (
	zoneTag  = "zone:"
	hatchTag = "hatch:"
	rimTag   = "rim:"
)

// lineNames are the lines and the tints of a scene that the legend explains, by their tags,
// in the order of the legend.
var lineNames = []struct{ tag, name string }{
	{"ground", "Ground as found"},
	{"ground:altered", "Ground as found, dug away or covered"},
	{"cut", "Cut: formation and faces"},
	{"finish", "Finished surface"},
	{"water", "Water level"},
	{"outlet", "Outlet pipe of the drain"},
	{"excavated", "Dug away and open"},
	{"wing", "Wing wall behind the section, blocks"},
}

// legend explains the hatches and the line types that the figures use, and no
// others.
func (c *content) legend(figs []*figure, sceneOf SceneFunc) (table, error) {
	t := table{tag: "legend", title: "Legend", least: together, cols: []column{{flex: true}, {flex: true}}}
	var cells []cell
	for _, l := range lineNames {
		if p := findPath(figs, l.tag); p != nil {
			cells = append(cells, cell{text: l.name, mark: lineMark(*p)})
		}
	}
	for _, l := range c.p.Defence.Layers {
		if p := findPath(figs, "defence:"+l.Kind); p != nil {
			cells = append(cells, cell{text: "On the walls, not to scale: " + l.Name, mark: lineMark(*p)})
		}
	}
	seen := map[string]bool{}
	for _, v := range []*section.View{c.long, c.cross} {
		for _, list := range [][]section.Zone{v.Strata, v.Fill, v.Bedding} {
			for _, z := range list {
				tag := zoneTag + string(z.Kind) + ":" + z.Name
				if seen[tag] || findPath(figs, tag) == nil {
					continue
				}
				seen[tag] = true
				mark, ok := c.marks[tag]
				if !ok {
					var err error
					if mark, err = zoneMark(z, sceneOf); err != nil {
						return t, err
					}
					c.marks[tag] = mark
				}
				cells = append(cells, cell{text: c.zoneName(z), mark: mark})
			}
		}
	}
	t.rows = inPairs(cells)
	return t, nil
}

// names tells whether a cell of a table ends with a name, in letters of any size.
func (t table) names(name string) bool {
	for _, row := range t.rows {
		for _, c := range row {
			if strings.HasSuffix(strings.ToLower(c.text), strings.ToLower(name)) {
				return true
			}
		}
	}
	return false
}

// inPairs sets cells in two columns, read down the first and then the second.
func inPairs(cells []cell) [][]cell {
	half := (len(cells) + 1) / 2
	rows := make([][]cell, half)
	for i := range rows {
		rows[i] = []cell{cells[i], {}}
		if half+i < len(cells) {
			rows[i][1] = cells[half+i]
		}
	}
	return rows
}

// zoneWords says what a material is for, where its name alone does not.
var zoneWords = map[section.ZoneKind]string{
	section.Natural: "Natural ground", section.Backfill: "Backfill", section.Rock: "Drain rock",
	section.Cap: "Cap", section.Bed: "Bed", section.RoofLay: "On the roof",
}

// zoneName is the use and the name of a material with the group symbol of its
// soil.
func (c *content) zoneName(z section.Zone) string {
	name := z.Name
	if name == "" {
		name = string(z.Kind)
	}
	for _, s := range c.p.Site.Soils {
		// Group symbols are capitals; other classes are plain words.
		if s.ID == z.Soil && s.USCS != "" && s.USCS == strings.ToUpper(s.USCS) && !strings.Contains(name, s.USCS) {
			name += " (" + s.USCS + ")"
		}
	}
	if use := zoneWords[z.Kind]; use != "" && !strings.EqualFold(use, z.Name) {
		return use + ": " + name
	}
	return strings.ToUpper(name[:1]) + name[1:]
}

func findPath(figs []*figure, tag string) *scene.Path {
	for _, f := range figs {
		for _, it := range f.sc.Items {
			if it.Path != nil && it.Path.Tag == tag && len(it.Path.Parts) > 0 {
				return it.Path
			}
		}
	}
	return nil
}

// lineMark draws a sample of a line, or of an area without one.
func lineMark(p scene.Path) func(*board, box) {
	return func(b *board, r box) {
		if p.Fill != "" {
			b.rect("legend:"+p.Tag, r, b.ink(p.Fill), black, hair)
			return
		}
		y := r.y + r.h/2
		b.path(Path{
			Tag: "legend:" + p.Tag, Layer: sheetLayer, Parts: []geom.Polyline{{{r.x, y}, {r.right(), y}}},
			Stroke: b.ink(p.Stroke), Width: p.Width, Dash: p.Dash,
		})
	}
}

// A sample of a hatch is drawn larger than any swatch, and the swatch shows
// the part of it with most whole signs. The signs of a hatch keep their size
// on paper at every scale.
const (
	sampleScale = 10.0 // mm per m
	sampleW     = 44.0 // mm
	sampleH     = 30.0
	sampleStep  = 0.5
)

// zoneSample draws a sample of a material into a swatch.
type zoneSample = func(*board, box)

// zoneMark draws a sample of a material with the very hatch of the drawing.
func zoneMark(z section.Zone, sceneOf SceneFunc) (zoneSample, error) {
	w, h := sampleW/sampleScale, sampleH/sampleScale
	z.Region = geom.Rect{Max: geom.Vec{w, h}}.ToRegion()
	top := geom.Polyline{{0, h}, {w, h}}
	sc, err := sceneOf(&section.View{Long: true, Ground: top, Finish: top, Strata: []section.Zone{z}}, Drawing{MMPerM: sampleScale})
	if err != nil {
		return nil, err
	}
	f := &figure{sc: &scene.Scene{}, k: sampleScale}
	for _, it := range sc.Items {
		if it.Path != nil && isMaterial(it.Path.Tag) {
			f.sc.Items = append(f.sc.Items, it)
		}
	}
	at := f.fullest(swatchW*capLeast, swatchH*capLeast)
	return func(b *board, r box) { f.drawInside(b, r, at) }, nil
}

// fullest finds where in a sample a window of w by h mm holds the most whole
// strokes: the lower left corner of the window, mm, up from that of the sample.
func (f *figure) fullest(w, h float64) (best geom.Vec) {
	var bounds []geom.Rect
	for _, it := range f.sc.Items {
		if it.Path.Stroke == "" {
			continue
		}
		for _, part := range it.Path.Parts {
			r := part.Bounds()
			r.Min, r.Max = r.Min.Mul(f.k), r.Max.Mul(f.k)
			bounds = append(bounds, r)
		}
	}
	most := 0
	for y := 0.0; y+h <= sampleH; y += sampleStep {
		for x := 0.0; x+w <= sampleW; x += 2 * sampleStep {
			n := 0
			for _, r := range bounds {
				if r.Min[0] > x && r.Max[0] < x+w && r.Min[1] > y && r.Max[1] < y+h {
					n++
				}
			}
			if n > most {
				most, best = n, geom.Vec{x, y}
			}
		}
	}
	return best
}

func isMaterial(tag string) bool {
	return strings.HasPrefix(tag, zoneTag) || strings.HasPrefix(tag, hatchTag)
}

// drawInside draws the areas and lines of a figure within a rectangle, whose
// lower left corner is the given point of the figure, and outlines it. Areas
// fill the whole rectangle; lines that leave it are cut off at its edge.
func (f *figure) drawInside(b *board, r box, at geom.Vec) {
	for _, it := range f.sc.Items {
		p := *it.Path
		if p.Closed && p.Fill != "" {
			b.rect("legend:"+p.Tag, r, b.ink(p.Fill), none, 0)
		}
		if p.Stroke == "" {
			continue
		}
		var parts []geom.Polyline
		for _, part := range p.Parts {
			pts := f.paper(part, r.x-at[0], r.bottom()+at[1])
			for i := 1; i < len(pts); i++ {
				if s, ok := r.inset(0.2).clip(pts[i-1], pts[i]); ok {
					parts = append(parts, s)
				}
			}
		}
		b.path(Path{Tag: "legend:" + p.Tag, Layer: sheetLayer, Parts: parts, Stroke: b.ink(p.Stroke), Width: p.Width, Dash: p.Dash})
	}
	b.rect("legend:swatch", r, none, black, hair)
}

// clip cuts a segment to the rectangle (Liang and Barsky, 1984); ok is false
// when nothing of it is inside.
func (b box) clip(p, q geom.Vec) (geom.Polyline, bool) {
	t0, t1 := 0.0, 1.0
	d := q.Sub(p)
	for _, e := range [4][2]float64{
		{-d[0], p[0] - b.x}, {d[0], b.right() - p[0]},
		{-d[1], p[1] - b.y}, {d[1], b.bottom() - p[1]},
	} {
		switch t := e[1] / e[0]; {
		case e[0] == 0:
			if e[1] < 0 {
				return nil, false
			}
		case e[0] < 0:
			t0 = max(t0, t)
		default:
			t1 = min(t1, t)
		}
	}
	if t0 >= t1 {
		return nil, false
	}
	return geom.Polyline{p.Add(d.Mul(t0)), p.Add(d.Mul(t1))}, true
}
