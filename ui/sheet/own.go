package sheet

import (
	"slices"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
)

// Handout gives the layers drawn when no others are asked for: all that is
// built from. Pressures and verdicts are left to the tables, so that the
// dimensions have room.
func Handout() map[scene.Layer]bool {
	return map[scene.Layer]bool{
		scene.Ground: true, scene.Fills: true, scene.BoxLayer: true, scene.Water: true, scene.Dims: true,
		scene.Levels: true, scene.Slopes: true, scene.Callouts: true, scene.Frame: true,
	}
}

// Room left round a section for its dimensions and callouts, mm.
const (
	roomLeft   = 24.0 // the level axis
	roomRight  = 12.0
	roomTop    = 18.0
	roomBottom = 36.0 // rows of dimensions
)

// ownScene draws the sections as the screen does, in the room that the paper
// has for them. Caption and scale bar are the sheet's own.
func ownScene(p *model.Project, r *assess.Result, o Options) SceneFunc {
	soils := map[string]model.Soil{}
	for _, s := range p.Site.Soils {
		soils[s.ID] = s
	}
	find := func(id string) (model.Soil, bool) { s, ok := soils[id]; return s, ok }
	layers := o.Layers
	if layers == nil {
		layers = Handout()
	}
	return func(v *section.View, mmPerM float64) (*scene.Scene, error) {
		sc, err := scene.Build(v, r, scene.Options{
			MMPerM: mmPerM, Units: o.Units, Soils: find, Show: layers, Clip: room(v, mmPerM),
		})
		if err != nil {
			return nil, err
		}
		sc = without(sc, "caption", "scalebar")
		sc.Lost = slices.DeleteFunc(slices.Clone(sc.Lost), func(s string) bool { return s == sc.Caption })
		return sc, nil
	}
}

// room is the window of a section on paper, m.
func room(v *section.View, mmPerM float64) geom.Rect {
	r := v.Ground.Bounds().Union(v.Finish.Bounds()).Union(works(v))
	for _, z := range v.Strata {
		r = r.Union(z.Region.Bounds())
	}
	r.Min = r.Min.Sub(geom.Vec{roomLeft / mmPerM, roomBottom / mmPerM})
	r.Max = r.Max.Add(geom.Vec{roomRight / mmPerM, roomTop / mmPerM})
	return r
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
