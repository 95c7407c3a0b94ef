package sketch

import (
	"fmt"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/geom"
)

// aim finds where a handle goes that is drawn towards to. For a handle of one
// number the first coordinate of the answer is that number and isValue is true.
func (b *Board) aim(h *Handle, to geom.Vec, held fyne.KeyModifier) (at geom.Vec, why string, guides []geom.Vec, isValue bool, err error) {
	to = h.along(to)
	s := b.snapAt(h.ID, h.Axis, to, held, h.value == nil)
	if h.value == nil {
		return s.At, s.Why, s.Guides, false, nil
	}
	var v float64
	switch {
	case s.Why != "" || loose(held):
		v, err = h.value(s.At)
		why = s.Why
	default:
		grid, _ := b.src.Steps()
		var rounded bool
		v, rounded, err = roundValue(h, to, snapReach/b.cam.scale, grid)
		if rounded {
			why = "round value"
		}
	}
	return geom.Vec{v, 0}, why, s.Guides, true, err
}

// loose says whether snapping is held off: by Alt, or by Ctrl where the desktop
// keeps Alt for itself.
func loose(held fyne.KeyModifier) bool {
	return held&(fyne.KeyModifierAlt|fyne.KeyModifierControl) != 0
}

// snapAt draws a place to what is near it.
func (b *Board) snapAt(self string, axis Axis, to geom.Vec, held fyne.KeyModifier, useGrid bool) Snapped {
	in := SnapInput{At: to, Axis: axis, Tol: snapReach / b.cam.scale, Off: loose(held),
		Targets: targetsFor(b.src.Project(), b.view, b.kind, b.handles, self)}
	if useGrid {
		in.Grid, _ = b.src.Steps()
	}
	return Snap(in)
}

// changeTo is the edit that puts a handle where aim said.
func (b *Board) changeTo(h *Handle, at geom.Vec, isValue bool) func(*model.Project) error {
	if isValue {
		val := h.Values[0]
		return func(p *model.Project) error { return val.Set(p, at[0]) }
	}
	held := *h
	return func(p *model.Project) error { return held.Apply(p, at) }
}

// addPoint adds a point to what the tool draws and gives its handle; nil where
// it cannot stand there.
func (b *Board) addPoint(at fyne.Position, held fyne.KeyModifier) *Handle {
	s := b.snapAt(b.drawnPath(), Free, b.cam.point(at), held, true)
	id, merge, before := "", b.newGesture("add"), b.src.Project()
	ok := false
	switch b.tool {
	case DrawGround:
		ok = b.edit("Add ground point", merge, func(p *model.Project) (err error) {
			id, err = insertPoint("site.ground", &p.Site.Ground, s.At)
			return err
		})
	case DrawStratum:
		stratum := b.stratum
		ok = b.edit("Add boundary point", merge, func(p *model.Project) (err error) {
			id, stratum, err = addBoundary(p, b.stratum, b.soil, s.At)
			return err
		})
		if ok {
			b.stratum = stratum
		}
	case AddWater:
		ok = b.edit("Add observed water", merge, func(p *model.Project) error {
			id = fmt.Sprintf("site.water.observed[%d]", len(p.Site.Water.Observed))
			p.Site.Water.Observed = append(p.Site.Water.Observed, model.WaterPoint{Pos: s.At})
			return nil
		})
	}
	if !ok {
		return nil
	}
	b.drag = &drag{merge: merge, before: before, edited: true, why: s.Why, guides: s.Guides}
	return b.handle(id)
}

// insertPoint puts a point into a line in the order of its distance.
func insertPoint(path string, line *[]model.Vec, at geom.Vec) (id string, err error) {
	i := 0
	for i < len(*line) && (*line)[i][0] < at[0] {
		i++
	}
	id = fmt.Sprintf("%s[%d]", path, i)
	if i < len(*line) && (*line)[i][0] == at[0] {
		return id, model.Problem{Field: id, Value: "x = " + quantity.Text(at[0], quantity.Length), Allowed: "a distance that no other point has",
			Text: "a point of the line stands at this distance already", Hard: true}
	}
	*line = append((*line)[:i:i], append([]model.Vec{at}, (*line)[i:]...)...)
	return id, nil
}

// addBoundary adds a point to the top of a stratum; without one it makes a
// stratum of the given soil below those that lie above the point.
func addBoundary(p *model.Project, stratum, soil string, at geom.Vec) (id, of string, err error) {
	for i := range p.Site.Strata {
		if s := &p.Site.Strata[i]; s.ID == stratum && i > 0 {
			id, err = insertPoint(fmt.Sprintf("site.strata[%d].top", i), &s.Top, at)
			return id, stratum, err
		}
	}
	if soil, err = newSoil(p, soil); err != nil {
		return "", "", err
	}
	if len(p.Site.Strata) == 0 {
		p.Site.Strata = []model.Stratum{{ID: freeID(p), Soil: p.Site.Soils[0].ID}}
	}
	i := 1
	for i < len(p.Site.Strata) {
		if z, ok := lineLevel(p.Site.Strata[i].Top, at[0]); ok && z < at[1] {
			break
		}
		i++
	}
	s := model.Stratum{ID: freeID(p), Soil: soil, Top: []model.Vec{at}}
	p.Site.Strata = append(p.Site.Strata[:i:i], append([]model.Stratum{s}, p.Site.Strata[i:]...)...)
	return fmt.Sprintf("site.strata[%d].top[0]", i), s.ID, nil
}

// lineLevel is the level of a line at x, carried on level beyond its ends.
func lineLevel(line []model.Vec, x float64) (float64, bool) {
	n := len(line)
	switch {
	case n == 0:
		return 0, false
	case x <= line[0][0]:
		return line[0][1], true
	case x >= line[n-1][0]:
		return line[n-1][1], true
	}
	return geom.Polyline(line).At(x)
}

// newSoil is the soil for a new stratum: the one asked for, else the first that
// no stratum has yet and that is not brought in as fill.
func newSoil(p *model.Project, want string) (string, error) {
	used := map[string]bool{p.Fill.Backfill: true, p.Fill.RockSoil: true, p.Fill.CapSoil: true, p.Fill.TopsoilSoil: true, p.Bedding.RockSoil: true}
	for _, s := range p.Site.Strata {
		used[s.Soil] = true
	}
	for i, s := range p.Site.Soils {
		if s.ID == want || want == "" && !used[s.ID] && (i > 0 || len(p.Site.Strata) > 0) {
			return s.ID, nil
		}
	}
	return "", model.Problem{Field: "site.soils", Value: fmt.Sprintf("%d soils", len(p.Site.Soils)),
		Allowed: "a soil that is not in the ground yet", Text: "add the soil below the boundary to the list of soils first"}
}

// freeID is an id that no stratum has.
func freeID(p *model.Project) string {
	for n := 1; ; n++ {
		id, taken := fmt.Sprintf("s%d", n), false
		for _, s := range p.Site.Strata {
			taken = taken || s.ID == id
		}
		if !taken {
			return id
		}
	}
}

// boxAt is the handle of the box, for the tool that places it: held where the
// pointer is when that is in the box, else the front foot comes to the
// pointer. It is there even while the section cannot be drawn.
func (b *Board) boxAt(at fyne.Position) *Handle {
	h := b.handle("box")
	p := b.src.Project()
	if h == nil && b.kind == LongSection {
		whole := wholeBox(geom.Vec{p.Box.Front, p.Box.Level})
		h = &whole
	}
	if h == nil {
		return b.handle("box.level")
	}
	if b.view != nil && b.view.HasBox && inside(b.cam.point(at), b.view.Box) {
		return h
	}
	b.hold(h, at)
	b.drag.grab = geom.Vec{}
	b.drag.moved = true
	b.dragTo(b.cam.point(at), b.modifiers())
	return nil
}
