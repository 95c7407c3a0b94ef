package scene

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/section"
	"hillset/geom"
)

// What cannot be drawn is refused by name before anything is drawn.

func checkOptions(v *section.View, o Options) error {
	if v == nil {
		return fmt.Errorf("view: none given")
	}
	if !(o.MMPerM > 0) || math.IsInf(o.MMPerM, 0) {
		return fmt.Errorf("MMPerM = %g: want a scale above 0", o.MMPerM)
	}
	if o.PressureMMPerKPa < 0 || !geom.Finite(o.PressureMMPerKPa) {
		return fmt.Errorf("PressureMMPerKPa = %g: want 0 or more", o.PressureMMPerKPa)
	}
	for name, c := range map[string]geom.Rect{"Clip": o.Clip, "Land": o.Land} {
		if !geom.FiniteVec(c.Min) || !geom.FiniteVec(c.Max) {
			return fmt.Errorf("%s = %v: want finite numbers", name, c)
		}
	}
	return checkView(v)
}

// checkView refuses numbers that are not finite before they reach the paper.
func checkView(v *section.View) error {
	for name, l := range map[string]geom.Polyline{"ground": v.Ground, "finish": v.Finish, "cut line": v.CutLine} {
		for i, p := range l {
			if !geom.FiniteVec(p) {
				return fmt.Errorf("view: %s point %d = %v: want finite numbers", name, i, p)
			}
		}
	}
	for _, zs := range [][]section.Zone{v.Strata, v.Bedding, v.Fill} {
		for _, z := range zs {
			if r := z.Region.Bounds(); len(z.Region) > 0 && r.Empty() {
				return fmt.Errorf("view: zone %q has no extent or numbers that are not finite", z.Name)
			}
		}
	}
	if math.IsInf(v.Water, 0) {
		return fmt.Errorf("view: water level = %g: want a finite level, or NaN for none", v.Water)
	}
	if len(v.Ground) < 2 {
		return fmt.Errorf("view: ground line has %d points, want 2 or more", len(v.Ground))
	}
	if v.HasBox && (v.Box.Empty() || !geom.Finite(v.Box.Min[0], v.Box.Min[1], v.Box.Max[0], v.Box.Max[1])) {
		return fmt.Errorf("view: box = %v has no extent", v.Box)
	}
	return nil
}

// checkResult refuses loads of the stage that are not finite.
func checkResult(v *section.View, r *assess.Result) error {
	if r == nil {
		return nil
	}
	for _, l := range r.Loads {
		for i, row := range l.Diagram {
			if l.Stage == v.Stage.ID && !geom.Finite(row.Level, row.Total, row.U) {
				return fmt.Errorf("load on %s, row %d: level %g, total %g, water %g: want finite numbers", l.Face, i, row.Level, row.Total, row.U)
			}
		}
	}
	for _, l := range r.Roofs {
		if l.Stage == v.Stage.ID && !geom.Finite(l.Station, l.Total) {
			return fmt.Errorf("roof load at %g m: total %g: want finite numbers", l.Station, l.Total)
		}
	}
	return nil
}
