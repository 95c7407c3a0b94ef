package scene

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// flatCases are results with panels of all kinds.
func flatCases(tb testing.TB) map[string]*assess.Result {
	tb.Helper()
	out := map[string]*assess.Result{}
	for name, d := range demos(tb) {
		out[name] = d.r
		if name != "potato-store-put-right" {
			continue
		}
		long := d.p.Clone()
		long.Box.Type, long.Box.Front = "40std", 9.2
		long.Box.Openings = []model.Opening{{ID: "window", Wall: "left", From: 2, Width: 1.2, Sill: 0.9, Height: 1, Framed: true},
			{ID: "hatch", Wall: "roof", From: 4, Width: 1, Sill: 0.6, Height: 1}}
		out["long box"] = rerun(tb, long)
		wide := d.p.Clone()
		wide.Box.Orientation = model.Broadside
		out["broadside"] = rerun(tb, wide)
	}
	return out
}

func rerun(tb testing.TB, p *model.Project) *assess.Result {
	tb.Helper()
	r, err := assess.Run(context.Background(), p, tables.Default())
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// sizes are a sheet, the window at 1280 by 800, a narrow column.
var flatSizes = [][2]float64{{380, 230}, {260, 150}, {160, 240}, {120, 120}}

// No two texts overlap, everything lies inside, at every size, in both systems.
func TestPanelsTextsApart(t *testing.T) {
	for name, r := range flatCases(t) {
		for _, size := range flatSizes {
			for _, sys := range []units.System{units.Metric, units.US} {
				s, err := BuildPanels(r, PanelOptions{Width: size[0], Height: size[1], Units: sys})
				if err != nil {
					t.Fatalf("%s %v: %v", name, size, err)
				}
				what := fmt.Sprintf("%s %v %v", name, size, sys)
				examine(t, what, s, geom.Rect{Max: geom.Vec{size[0] / s.MMPerM, size[1] / s.MMPerM}})
				most := 0
				if name == "long box" {
					most = 1 // it is small beside its wing walls
				}
				if size[0] > 150 && len(s.Lost) > most || len(s.Lost) > 6 {
					t.Errorf("%s: no place for %q", what, s.Lost)
				}
				if *lookDir != "" && sys == units.Metric {
					for _, look := range []Look{Light, Dark, Print} {
						img, err := paint(s, look, 4)
						if err != nil {
							t.Fatal(err)
						}
						keep(t, img, fmt.Sprintf("panels-%s-%.0f-%s.png", name, size[0], look))
					}
				}
			}
		}
	}
}

// Every bay of the result is drawn with the tint of its ratio, and every panel
// says its worst.
func TestPanelsShowEveryBay(t *testing.T) {
	for name, r := range flatCases(t) {
		s, err := BuildPanels(r, PanelOptions{Width: 380, Height: 230})
		if err != nil {
			t.Fatal(err)
		}
		drawn := map[string]int{}
		for _, it := range s.Items {
			if it.Path != nil && it.Path.Fill != "" {
				drawn[it.Path.Tag+string(it.Path.Fill)]++
			}
		}
		want := map[string]int{}
		for _, b := range r.Bays {
			want["bay:"+b.Part+string(useOf(b.Ratio).role())]++
		}
		for k, n := range want {
			if drawn[k] != n {
				t.Errorf("%s: %d bays %q drawn, want %d", name, drawn[k], k, n)
			}
		}
		titles := texts(s, "panel:worst")
		if len(titles) < 5 {
			t.Errorf("%s: titles %q", name, titles)
		}
		if g := r.Governing(); g != nil && g.Worst() > 1 && strings.HasSuffix(g.Part, "wall") &&
			!strings.Contains(strings.Join(titles, "\n"), ratioText(g.Worst())) {
			t.Errorf("%s: the governing %.2f of %s stands on no panel: %q", name, g.Worst(), g.Part, titles)
		}
	}
}

// The steps are bounded where the legend says, and what is beyond limits never
// reads as the limit.
func TestStepsOfUse(t *testing.T) {
	for _, c := range []struct {
		r    float64
		u    use
		text string
	}{{0, useLow, "0.00"}, {0.5, useLow, "0.50"}, {0.5000001, useMid, "0.50"}, {0.8, useMid, "0.80"}, {0.999, useHigh, "1.00"}, {1, useHigh, "1.00"},
		{1.0001, useOver, "1.01"}, {12.344, useOver, "12.35"}, {math.Inf(1), useOver, "over 99"}, {math.NaN(), useNone, "not checked"}} {
		if u, text := useOf(c.r), ratioText(c.r); u != c.u || text != c.text {
			t.Errorf("%g: step %d, text %q, want %d, %q", c.r, u, text, c.u, c.text)
		}
	}
}

// The steps stay apart in grey: each is further from the paper than the one
// before.
func TestStepsInGrey(t *testing.T) {
	for _, look := range Looks() {
		p := Colours(look)
		last := 0.0
		for u := useLow; u <= useOver; u++ {
			d := math.Abs(Lightness(p[u.role()]) - Lightness(p[Paper]))
			if d < last+3 {
				t.Errorf("%s: step %d is %.1f L* off the paper, the step before %.1f", look, u, d, last)
			}
			last = d
		}
	}
}

// flatByHand is a made-up result with one bay of each kind.
func flatByHand() *assess.Result {
	return &assess.Result{Project: &model.Project{Stages: []model.Stage{{ID: "s", Name: "Snow"}},
		Box: model.Box{Openings: []model.Opening{{ID: "window", Wall: "left", From: 3.5, Width: 1, Sill: 0.8, Height: 1, Framed: true}}}},
		Panels: []assess.Panel{{Face: section.Left, Length: 6, Height: 2.5}, {Face: section.Roof, Length: 6, Height: 2.4}, {Face: section.Back, Length: 2.4, Height: 2.5}},
		Bays: []assess.Bay{
			{Panel: section.Left, From: 0, To: 3, Low: 0.2, High: 2.4, Part: "left side wall", ID: "side-sheet", Stage: "s", Ratio: 1.0004},
			{Panel: section.Left, From: 3, To: 6, Low: 0.2, High: 2.4, Part: "left side wall", ID: "side-sheet", Stage: "s", Ratio: math.NaN()},
			{Panel: section.Left, From: 0, To: 6, Low: 1, High: 1.1, Bar: true, Part: "left side wall, wale 1", ID: "wale", Stage: "s", Ratio: 0.7},
			{Panel: section.Left, From: 1.9, To: 2, Low: 0.2, High: 2.4, Bar: true, Part: "ribs", ID: "rib", Stage: "s", Ratio: 0.96},
			{Panel: section.Roof, From: 0, To: 6, Low: 0, High: 0.4, Part: "roof", ID: "roof-sheet", Stage: "s", Ratio: 0.31},
		}}
}

// Checked by hand.
func TestPanelByHand(t *testing.T) {
	r := flatByHand()
	s, err := BuildPanels(r, PanelOptions{Width: 200, Height: 200})
	if err != nil {
		t.Fatal(err)
	}
	for tag, want := range map[string]string{"bay:left side wall": "1.01", "bay:left side wall, wale 1": "wale 1 0.70", "bay:roof": "0.31", "panel:worst": "worst 1.01: left side wall, Snow"} {
		if got := texts(s, tag); len(got) == 0 || got[0] != want {
			t.Errorf("%s: %q, want %q", tag, got, want)
		}
	}
	// The roof is seen from above with its left at the top.
	for _, it := range s.Items {
		if p := it.Path; p != nil && p.Tag == "bay:roof" && p.Fill != "" {
			top := 0.0
			for _, q := range s.Items {
				if q.Path != nil && q.Path.Tag == "panel:roof" {
					top = q.Path.Parts[0].Bounds().Max[1]
				}
			}
			if got := p.Parts[0].Bounds().Max[1]; math.Abs(got-top) > 1e-9 {
				t.Errorf("the left of the roof is drawn at %g, want the top %g", got, top)
			}
		}
	}
}

func TestPanelsRefuse(t *testing.T) {
	good := PanelOptions{Width: 200, Height: 150}
	full := flatCases(t)["potato-store-put-right"]
	for _, c := range []struct {
		name string
		r    *assess.Result
		o    PanelOptions
		want string
	}{
		{"no result", nil, good, "nothing was worked out"}, {"empty result", &assess.Result{}, good, "nothing was worked out"},
		{"no room", full, PanelOptions{}, "width 0"}, {"not a number", full, PanelOptions{Width: math.NaN(), Height: 100}, "width NaN"},
		{"endless", full, PanelOptions{Width: math.Inf(1), Height: 100}, "width +Inf"},
	} {
		if c.r == nil && c.name != "no result" {
			t.Fatalf("%s: no such demo", c.name)
		}
		if s, err := BuildPanels(c.r, c.o); err == nil || s != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one that names %q", c.name, err, c.want)
		}
	}
}

// A made-up result: what the engine says must not change the golden files.
func TestGoldenPanels(t *testing.T) {
	for name, o := range map[string]PanelOptions{"panels": {Width: 200, Height: 200}, "panels-us": {Width: 260, Height: 120, Units: units.US, Selected: "roof"}} {
		s, err := BuildPanels(flatByHand(), o)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name, Dump(s))
	}
}

// golden compares a dump with the file of that name.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if line, a, b := firstDifference(got, string(want)); line > 0 {
		t.Errorf("%s line %d:\n got %s\nwant %s", file, line, a, b)
	}
}

func BenchmarkBuildPanels(b *testing.B) {
	r := flatCases(b)["long box"]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := BuildPanels(r, PanelOptions{Width: 380, Height: 230}); err != nil {
			b.Fatal(err)
		}
	}
}
