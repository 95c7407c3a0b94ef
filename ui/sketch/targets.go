package sketch

import (
	"math"
	"strings"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
)

// targetsFor lists what a point may be drawn to while the handle self is
// moved; self is empty for a new point.
func targetsFor(p *model.Project, v *section.View, kind Kind, handles []Handle, self string) []Target {
	var out []Target
	for i := range handles {
		h := &handles[i]
		if h.ID == self || h.Axis != Free || h.body {
			continue
		}
		out = append(out,
			Target{Why: "at " + lower(h.Label), Kind: PointTarget, At: h.At},
			Target{Why: "level with " + lower(h.Label), Kind: LevelTarget, At: h.At, Weak: true},
			Target{Why: "plumb with " + lower(h.Label), Kind: PlumbTarget, At: h.At, Weak: true})
	}
	if kind == LongSection {
		out = append(out, groundTargets(p, self)...)
	}
	if v == nil || v.Stage.Kind == model.StageNatural {
		return out
	}
	out = append(out, Target{Why: "formation level", Kind: LevelTarget, At: geom.Vec{v.Box.Min[0], v.Formation}})
	if self != "box" && self != "box.front" && self != "box.level" {
		out = append(out, boxTargets(v.Box)...)
	}
	return out
}

// lower puts the first letter of a label in lower case, for use in a sentence.
func lower(s string) string {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return string(s[0]+'a'-'A') + s[1:]
}

func boxTargets(b geom.Rect) []Target {
	front, back := geom.Vec{b.Min[0], b.Min[1]}, geom.Vec{b.Max[0], b.Max[1]}
	return []Target{
		{Why: "front foot of the box", Kind: PointTarget, At: front},
		{Why: "back foot of the box", Kind: PointTarget, At: geom.Vec{b.Max[0], b.Min[1]}},
		{Why: "front roof edge", Kind: PointTarget, At: geom.Vec{b.Min[0], b.Max[1]}},
		{Why: "back roof edge", Kind: PointTarget, At: back},
		{Why: "floor level of the box", Kind: LevelTarget, At: front},
		{Why: "roof level of the box", Kind: LevelTarget, At: back},
		{Why: "plumb with the front of the box", Kind: PlumbTarget, At: front},
		{Why: "plumb with the back of the box", Kind: PlumbTarget, At: back},
	}
}

// groundTargets are the pieces of the ground line, unless it is the ground line
// itself that is drawn.
func groundTargets(p *model.Project, self string) []Target {
	if strings.HasPrefix(self, groundPath) {
		return nil
	}
	var out []Target
	g := p.Site.Ground
	for i := 1; i < len(g); i++ {
		out = append(out, Target{Why: "on the ground line", Kind: LineTarget, At: g[i-1], B: g[i], Weak: self == "box"})
	}
	return out
}

// groundPath begins the ids of ground points.
const groundPath = "site.ground["

// roundValue takes the number of a handle to its round step when the handle
// stays within tol of the pointer.
func roundValue(h *Handle, to geom.Vec, tol, grid float64) (v float64, rounded bool, err error) {
	if v, err = h.value(to); err != nil {
		return 0, false, err
	}
	step := h.step(grid)
	r := round(v, step)
	if math.Abs(r-v)*h.reach <= tol {
		return r, true, nil
	}
	return round(v, fine), false, nil
}
