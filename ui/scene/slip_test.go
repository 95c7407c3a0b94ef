package scene

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// slipPaths are the slips of a scene by their parts.
func slipPaths(s *Scene) map[string]*Path {
	out := map[string]*Path{}
	for _, it := range s.Items {
		if it.Path == nil {
			continue
		}
		if part, ok := strings.CutPrefix(it.Path.Tag, "slip:"); ok {
			out[part] = it.Path
		}
	}
	return out
}

// Each section shows the slips of its stage, where they were found, with factor
// and verdict, and none of another stage or station.
func TestSlipsAreDrawnWhereTheyAre(t *testing.T) {
	d := wetDemo(t, "put-right")
	if err := assess.Hillside(context.Background(), d.r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	draw := func(v *section.View, show map[Layer]bool) *Scene {
		o := d.options(20, units.Metric)
		o.Show = show
		s, err := Build(v, d.r, o)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for stage, want := range map[string][]string{"natural": {"natural hill"}, "cut": {"cut face"}, "set": nil, "high": {"finished hill"}} {
		v := d.view(t, stage)
		got := slipPaths(draw(v, nil))
		if len(got) != len(want) {
			t.Errorf("%s: slips %v, want %v", stage, got, want)
		}
		for _, part := range want {
			p := got[part]
			if p == nil {
				t.Errorf("%s: no slip of %s", stage, part)
				continue
			}
			i := slices.IndexFunc(d.r.Slips, func(s assess.Slip) bool { return s.Part == part })
			line := geom.Polyline(d.r.Slips[i].Line)
			low := math.Inf(1)
			for _, c := range p.Parts {
				for _, q := range c {
					low = math.Min(low, q[1])
				}
			}
			if part != "finished hill" && math.Abs(low-line.Bounds().Min[1]) > 0.01 { // the finished hill has several
				t.Errorf("%s: lowest point %.2f, want %.2f", part, low, line.Bounds().Min[1])
			}
			if p.Stroke != WithinMark {
				t.Errorf("%s: drawn as %v", part, p.Stroke)
			}
		}
		if all := everything(); len(want) > 0 {
			all[SlipLine] = false
			if got := slipPaths(draw(v, all)); len(got) > 0 {
				t.Errorf("%s: hidden, %d slips are drawn", stage, len(got))
			}
		}
	}
	texts := said(draw(d.view(t, "cut"), nil), "slip:cut face")
	if len(texts) != 1 || !strings.Contains(texts[0], "asked 1.30") {
		t.Errorf("at the cut face: %q", texts)
	}
	i := slices.IndexFunc(d.r.Slips, func(s assess.Slip) bool { return s.Part == "left side of the fill" })
	for off, want := range map[float64]int{0: 2, 1: 0} {
		v, err := section.CrossOf(d.p, tables.Default(), d.view(t, "high"), d.r.Slips[i].Station+off)
		if err != nil {
			t.Fatal(err)
		}
		if got := slipPaths(draw(v, nil)); len(got) != want {
			t.Errorf("cross section %.0f m off: %d slips, want %d", off, len(got), want)
		}
	}
}

// A factor just below what is asked does not read as equal, and is drawn as
// beyond.
func TestSlipJustBelow(t *testing.T) {
	s := &assess.Slip{Factor: 1.2996, Asked: 1.3}
	if below(s.Factor, s.Asked) != "1.29" || slipRole(s) != BeyondMark {
		t.Errorf("%s, %v", below(s.Factor, s.Asked), slipRole(s))
	}
	if below(1.3004, 1.3) != "1.30" {
		t.Error("just above is cut down")
	}
}
