package sketch

import (
	"fmt"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
)

// siteHandles are the handles of what was found on the hill.
func siteHandles(p *model.Project) []Handle {
	out := lineHandles("site.ground", "Ground point", func(p *model.Project) *[]model.Vec { return &p.Site.Ground }, p.Site.Ground)
	for i := 1; i < len(p.Site.Strata); i++ {
		s := p.Site.Strata[i]
		label := fmt.Sprintf("Top of %s, point", soilName(p, s.Soil))
		out = append(out, lineHandles(fmt.Sprintf("site.strata[%d].top", i), label, stratumTop(s.ID), s.Top)...)
	}
	out = append(out, lineHandles("site.rock", "Rock line point", func(p *model.Project) *[]model.Vec { return &p.Site.Rock }, p.Site.Rock)...)
	for i, w := range p.Site.Water.Observed {
		out = append(out, observedHandle(i, w))
	}
	return out
}

// outsideBox leaves out the points of the site that lie inside the box: there
// the ground is dug away, and who presses there means the box. The drawing
// tools and the stages without a box still reach them.
func outsideBox(hs []Handle, v *section.View) []Handle {
	if v == nil || !v.HasBox {
		return hs
	}
	out := hs[:0]
	for _, h := range hs {
		if strings.HasPrefix(h.ID, "site.") && h.Axis == Free && v.Box.Contains(h.At) {
			continue
		}
		out = append(out, h)
	}
	return out
}

// stratumTop finds the boundary of a stratum by its id.
func stratumTop(id string) func(*model.Project) *[]model.Vec {
	return func(p *model.Project) *[]model.Vec {
		for i := range p.Site.Strata {
			if p.Site.Strata[i].ID == id {
				return &p.Site.Strata[i].Top
			}
		}
		return nil
	}
}

// soilName is what the project calls a soil.
func soilName(p *model.Project, id string) string {
	for i := range p.Site.Soils {
		if s := &p.Site.Soils[i]; s.ID == id && s.Name != "" {
			return s.Name
		}
	}
	return "soil " + id
}

// gone is the error of a handle whose object is no longer there.
func gone(id string) error {
	return model.Problem{Field: id, Value: "none", Allowed: "a point that is there", Text: "is no longer there"}
}

// lineHandles are the points of a line that must run into the hill.
func lineHandles(path, label string, line func(*model.Project) *[]model.Vec, pts []model.Vec) []Handle {
	var out []Handle
	for i, at := range pts {
		id := fmt.Sprintf("%s[%d]", path, i)
		move := func(p *model.Project, to geom.Vec) error {
			l := line(p)
			if l == nil || i >= len(*l) {
				return gone(id)
			}
			if err := between(id, *l, i, to[0]); err != nil {
				return err
			}
			(*l)[i] = to
			return nil
		}
		out = append(out, Handle{ID: id, Label: fmt.Sprintf("%s %d", label, i+1), At: at, Axis: Free,
			Values: pointValues(at, move), move: move,
			remove: func(p *model.Project) error {
				l := line(p)
				if l == nil || i >= len(*l) {
					return gone(id)
				}
				*l = append((*l)[:i:i], (*l)[i+1:]...)
				return nil
			}})
	}
	return out
}

// between says whether point i of a line may stand at x: beyond the point
// before it and short of the one after.
func between(id string, l []model.Vec, i int, x float64) error {
	low, high := i > 0 && x <= l[i-1][0], i+1 < len(l) && x >= l[i+1][0]
	if !low && !high {
		return nil
	}
	allowed := "between its neighbours: "
	if i > 0 {
		allowed += "more than " + quantity.Text(l[i-1][0], quantity.Length)
	}
	if i+1 < len(l) {
		if i > 0 {
			allowed += ", "
		}
		allowed += "less than " + quantity.Text(l[i+1][0], quantity.Length)
	}
	return model.Problem{Field: id, Value: "x = " + quantity.Text(x, quantity.Length), Allowed: allowed,
		Text: "distances must increase along the line", Hard: true}
}

func observedHandle(i int, w model.WaterPoint) Handle {
	id := fmt.Sprintf("site.water.observed[%d]", i)
	label := fmt.Sprintf("Observed water %d", i+1)
	if w.Season != "" {
		label += ", " + w.Season
	}
	move := func(p *model.Project, to geom.Vec) error {
		if i >= len(p.Site.Water.Observed) {
			return gone(id)
		}
		p.Site.Water.Observed[i].Pos = to
		return nil
	}
	return Handle{ID: id, Label: label, At: w.Pos, Axis: Free, Values: pointValues(w.Pos, move), move: move,
		remove: func(p *model.Project) error {
			o := p.Site.Water.Observed
			if i >= len(o) {
				return gone(id)
			}
			p.Site.Water.Observed = append(o[:i:i], o[i+1:]...)
			return nil
		}}
}

// Where the handles of water levels stand beside the works, m: side by side, as
// the levels may be close to each other.
const (
	waterOff  = 0.4
	waterStep = 0.5
)

// waterLevelHandles are the levels that water is taken to stand at; place gives
// the horizontal position of the i-th one at level z.
func waterLevelHandles(p *model.Project, place func(z float64, i int) float64) []Handle {
	var out []Handle
	add := func(id, label string, field func(*model.Project) **float64) {
		z := *field(p)
		if z == nil {
			return
		}
		out = append(out, Handle{ID: id, Label: label, At: geom.Vec{place(*z, len(out)), *z}, Axis: Vertical, reach: 1, level: true,
			value: func(to geom.Vec) (float64, error) { return to[1], nil },
			Values: []Value{{Label: label, Kind: quantity.Length, Now: *z, set: func(p *model.Project, v float64) error {
				*field(p) = &v
				return nil
			}}},
			remove: func(p *model.Project) error { *field(p) = nil; return nil }})
	}
	add("site.water.design_high", "Design high water level", func(p *model.Project) **float64 { return &p.Site.Water.DesignHigh })
	add("site.water.seasonal", "Seasonal water level", func(p *model.Project) **float64 { return &p.Site.Water.Seasonal })
	return out
}
