package sheet

import (
	"maps"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/scene"
)

// Handout gives the layers drawn when no others are asked for: all that is
// built from. Pressures are left to the tables, so that the dimensions have
// room; so are verdicts, but on large sheets, where their marks are drawn with
// numbers when that makes the drawing no smaller.
func Handout() map[scene.Layer]bool {
	return map[scene.Layer]bool{
		scene.Ground: true, scene.Fills: true, scene.BoxLayer: true, scene.Water: true, scene.Dims: true,
		scene.Levels: true, scene.Slopes: true, scene.Callouts: true, scene.Frame: true, scene.SlipLine: true,
	}
}

// Room is the room left round the ground for dimensions, axis and texts, mm.
type Room struct{ Left, Right, Top, Bottom float64 }

// Rooms that are tried: the wide one gives more texts a place, the snug one is
// the least for axis and dimensions.
var (
	snugRoom  = Room{Left: 24, Right: 14, Top: 12, Bottom: 26}
	closeRoom = Room{Left: 24, Right: 14, Top: 18, Bottom: 36}
	wideRoom  = Room{Left: 38, Right: 34, Top: 26, Bottom: 42}
)

// ownScene draws the sections as the screen does, in the room that the paper
// has for them. Caption and scale bar are the sheet's own.
func ownScene(p *model.Project, r *assess.Result, o Options) SceneFunc {
	soils := map[string]model.Soil{}
	for _, s := range p.Site.Soils {
		soils[s.ID] = s
	}
	find := func(id string) (model.Soil, bool) { s, ok := soils[id]; return s, ok }
	return func(v *section.View, d Drawing) (*scene.Scene, error) {
		layers := o.Layers
		if layers == nil {
			layers = Handout()
			layers[scene.Verdicts] = d.Verdicts
		}
		if len(o.Also) > 0 {
			layers = maps.Clone(layers)
		}
		for _, l := range o.Also {
			layers[l] = true
		}
		land := d.Land
		if land.Empty() {
			land = extentOf(v)
		}
		shown := within(r, p, land)
		sc, err := scene.Build(v, shown, scene.Options{
			MMPerM: d.MMPerM, Units: o.Units, Soils: find, Project: shown.Project, Bars: tables.Default().Bar, Lumber: tables.Default().Lumber, Show: layers, Land: land, Clip: d.Room.round(land, d.MMPerM), Keyed: true,
		})
		if err != nil {
			return nil, err
		}
		sc = without(sc, "caption", "scalebar")
		sc.Lost = slices.DeleteFunc(slices.Clone(sc.Lost), func(s string) bool { return s == sc.Caption })
		return sc, nil
	}
}

// extentOf is the whole ground of a view, m.
func extentOf(v *section.View) geom.Rect {
	r := v.Ground.Bounds().Union(v.Finish.Bounds()).Union(works(v))
	for _, z := range v.Strata {
		r = r.Union(z.Region.Bounds())
	}
	return r
}

// round is the window of a section on paper, m.
func (r Room) round(land geom.Rect, mmPerM float64) geom.Rect {
	return geom.Rect{
		Min: land.Min.Sub(geom.Vec{r.Left / mmPerM, r.Bottom / mmPerM}),
		Max: land.Max.Add(geom.Vec{r.Right / mmPerM, r.Top / mmPerM}),
	}
}

// within is a result whose project has only the bench mark and the observed
// water that lie in the ground drawn: a mark without its ground misleads. All
// of them stand in the table of levels.
func within(r *assess.Result, drawn *model.Project, land geom.Rect) *assess.Result {
	p, out := *drawn, *r
	if !land.Contains(p.Site.Benchmark.Pos) {
		p.Site.Benchmark.Description = ""
	}
	p.Site.Water.Observed = slices.DeleteFunc(slices.Clone(p.Site.Water.Observed), func(w model.WaterPoint) bool { return !land.Contains(w.Pos) })
	out.Project = &p
	return &out
}

// without leaves out the items with the given tags.
func without(sc *scene.Scene, tags ...string) *scene.Scene {
	out := *sc
	out.Items = nil
	for _, it := range sc.Items {
		tag := ""
		if it.Path != nil {
			tag = it.Path.Tag
		} else if it.Label != nil {
			tag = it.Label.Tag
		}
		if !slices.Contains(tags, tag) {
			out.Items = append(out.Items, it)
		}
	}
	return &out
}
