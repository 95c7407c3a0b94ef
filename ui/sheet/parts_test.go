package sheet

import (
	"bytes"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/scene"
	"hillset/ui/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The display list of one sheet made by hand: what changes in it, changes on
// every sheet.
func TestGoldenDisplayList(t *testing.T) {
	for _, o := range orientations()[:2] { // A4, both ways
		var got bytes.Buffer
		must(t, record(t, handProject(), handResult(6), o).Finish(&got))
		path := filepath.Join("testdata", strings.ReplaceAll(o.name(), " ", "-")+".txt")
		if *update {
			must(t, os.MkdirAll("testdata", 0o755))
			must(t, os.WriteFile(path, got.Bytes(), 0o644))
		}
		want, err := os.ReadFile(path)
		must(t, err)
		if bytes.Equal(got.Bytes(), want) {
			continue
		}
		g, w := strings.Split(got.String(), "\n"), strings.Split(string(want), "\n")
		for i := range min(len(g), len(w)) {
			if g[i] != w[i] {
				t.Errorf("%s line %d:\n got %s\nwant %s", path, i+1, g[i], w[i])
				break
			}
		}
		if len(g) != len(w) {
			t.Errorf("%s: %d lines, want %d", path, len(g), len(w))
		}
	}
}

func TestLandKeepsTheWorks(t *testing.T) {
	d := loadDemo(t, demos[1])
	long, cross := handViews()
	for _, l := range looks() {
		for _, v := range []*section.View{long, cross, d.long, d.cross} {
			land, w := l.land(v), works(v)
			room, below := l.beyond*w.H()+1e-9, l.below*w.H()+1e-9
			if got := land.Min.Sub(w.Min); math.Abs(got[0]) > room || math.Abs(got[1]) > below || got[0] > 0 || got[1] > 0 {
				t.Errorf("land from %v, works from %v", land.Min, w.Min)
			}
			if land.Max[0] < w.Max[0] || land.Max[0] > w.Max[0]+room {
				t.Errorf("land to %g, works to %g", land.Max[0], w.Max[0])
			}
			for x := land.Min[0]; x <= land.Max[0]; x += 0.1 {
				for _, line := range []geom.Polyline{v.Ground, v.Finish} {
					if z, ok := line.At(x); ok && z > land.Max[1]+1e-9 {
						t.Fatalf("the surface at %g stands at %g, above the land to %g", x, z, land.Max[1])
					}
				}
			}
		}
	}
	bare := &section.View{Ground: long.Ground, Finish: long.Ground}
	if l := looks()[0].land(bare); !l.Empty() {
		t.Errorf("a hill without works is cropped to %v", l)
	}
}

// Marks whose ground is cropped are not drawn, and the project stays as it is.
func TestMarksWithoutTheirGround(t *testing.T) {
	d := loadDemo(t, demos[1])
	all := d.p.Site.Water.Observed
	if len(all) == 0 {
		t.Fatal("the demonstration has no observed water")
	}
	at := all[0].Pos
	in := within(d.r, d.p, geom.Rect{Min: at.Sub(geom.Vec{0.1, 0.1}), Max: at.Add(geom.Vec{0.1, 0.1})})
	if got := in.Project.Site.Water.Observed; len(got) != 1 || got[0] != all[0] || in.Project.Site.Benchmark.Description != "" {
		t.Errorf("kept %v", got)
	}
	c := &content{p: d.p, r: d.r, long: d.long, cross: d.cross}
	for _, w := range all {
		if !slices.ContainsFunc(c.levels().rows, func(row []cell) bool {
			return strings.HasPrefix(row[0].text, "Water observed") && row[1].text == "["+c.level(w.Pos[1])+"]"
		}) {
			t.Errorf("the water observed at %g is not in the table of levels", w.Pos[1])
		}
	}
	if len(d.r.Project.Site.Water.Observed) != len(all) || d.r.Project.Site.Benchmark.Description == "" {
		t.Error("the project itself is changed")
	}
}

func TestClipOfSegments(t *testing.T) {
	// Brute force: a point of the segment is kept exactly if it is inside.
	rng := rand.New(rand.NewPCG(3, 4))
	r := box{10, 20, 30, 15}
	for range 2000 {
		p := geom.Vec{rng.Float64() * 60, rng.Float64() * 60}
		q := geom.Vec{rng.Float64() * 60, rng.Float64() * 60}
		if rng.IntN(8) == 0 {
			q[0] = p[0]
		}
		s, ok := r.clip(p, q)
		kept := 0.0
		if ok {
			kept = s[1].Sub(s[0]).Len()
		}
		const n = 2000
		in := 0
		for i := range n {
			v := p.Add(q.Sub(p).Mul((float64(i) + 0.5) / n))
			if v[0] >= r.x && v[0] <= r.right() && v[1] >= r.y && v[1] <= r.bottom() {
				in++
			}
		}
		whole := q.Sub(p).Len()
		if want := whole * float64(in) / n; math.Abs(kept-want) > 2*whole/n+1e-9 {
			t.Fatalf("%v to %v: %g mm kept, want %g", p, q, kept, want)
		}
	}
}

func TestLegendExplainsWhatIsDrawnAndNothingElse(t *testing.T) {
	d := loadDemo(t, demos[1])
	doc, err := plan(d.p, d.r, d.long, d.cross, ownOptions()[2])
	must(t, err)
	drawn := map[string]bool{}
	for _, f := range doc.fig.figs {
		for _, it := range f.sc.Items {
			if it.Path != nil && strings.HasPrefix(it.Path.Tag, zoneTag) {
				drawn[it.Path.Tag] = true
			}
		}
	}
	named := 0
	for _, row := range doc.legend.rows {
		for _, c := range row {
			if c.text != "" {
				named++
			}
			if (c.text == "") != (c.mark == nil) {
				t.Errorf("entry %q without a sample, or the other way round", c.text)
			}
		}
	}
	lines := 0
	for _, l := range lineNames {
		if findPath(doc.fig.figs, l.tag) != nil {
			lines++
		}
	}
	layers := 0
	for _, l := range d.p.Defence.Layers {
		if findPath(doc.fig.figs, "defence:"+l.Kind) != nil {
			layers++
		}
	}
	if layers != 2 || named != len(drawn)+lines+layers {
		t.Errorf("%d entries for %d materials, %d lines and %d layers on the walls", named, len(drawn), lines, layers)
	}
	// Every sample of a material shows strokes of its hatch.
	b := newBoard(&Recorder{})
	b.page(100, 100)
	for _, row := range doc.legend.rows {
		for _, c := range row {
			if c.mark != nil {
				c.mark(b, box{10, 10, swatchW * capLeast, swatchH * capLeast})
			}
		}
	}
	must(t, b.err)
	strokes := map[string]int{}
	for _, p := range b.paper.(*Recorder).Pages[0].Paths {
		if strings.HasPrefix(p.Tag, "legend:"+hatchTag) {
			strokes[p.Tag] += len(p.Parts)
		}
		for _, part := range p.Parts {
			for _, v := range part {
				if v[0] < 10-1e-9 || v[0] > 10+swatchW*capLeast+1e-9 || v[1] < 10-1e-9 || v[1] > 10+swatchH*capLeast+1e-9 {
					t.Errorf("%s leaves its swatch", p.Tag)
				}
			}
		}
	}
	for tag, n := range strokes {
		if n == 0 {
			t.Errorf("%s has no strokes in its sample", tag)
		}
	}
	if len(strokes) == 0 {
		t.Error("no hatch in the legend")
	}
}

func TestLayersAskedFor(t *testing.T) {
	d := loadDemo(t, demos[0])
	o := ownOptions()[2]
	has := func(o Options, l scene.Layer) bool {
		doc, err := plan(d.p, d.r, d.long, d.cross, o)
		must(t, err)
		for _, f := range doc.fig.figs {
			for _, it := range f.sc.Items {
				if it.Path != nil && it.Path.Layer == l {
					return true
				}
			}
		}
		return false
	}
	if has(o, scene.Pressures) {
		t.Error("pressures on the plain hand-out")
	}
	o.Layers = Handout()
	o.Layers[scene.Pressures] = true
	if !has(o, scene.Pressures) {
		t.Error("pressures asked for are not drawn")
	}
}

// What is dug away in an open cut is tinted, and the legend says so.
func TestLegendNamesTheTintOfTheCut(t *testing.T) {
	d := loadDemo(t, demos[1])
	for stage, want := range map[string]bool{"cut": true, "": false} {
		long, cross, err := Views(d.p, tables.Default(), stage, math.NaN())
		must(t, err)
		doc, err := plan(d.p, d.r, long, cross, ownOptions()[2])
		must(t, err)
		found := false
		for _, row := range doc.legend.rows {
			for _, c := range row {
				found = found || c.text == "Dug away and open"
			}
		}
		if found != want {
			t.Errorf("stage %q: in the legend %v, want %v", stage, found, want)
		}
	}
}

func TestTableWidths(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	word := func() string { return strings.Repeat("abc ", 1+rng.IntN(12)) }
	for range 200 {
		tab := table{tag: "t", title: "T", cols: []column{{head: "A", flex: true}, {head: "B", flex: true}, {head: "C", right: true}}}
		for range 1 + rng.IntN(6) {
			tab.rows = append(tab.rows, []cell{{text: word()}, {text: word()}, {text: "12.3"}})
		}
		w := 40 + rng.Float64()*150
		l := tab.lay(newBoard(&Recorder{}), w, capBody)
		sum := 2 * colGap * capBody
		for _, c := range l.widths {
			sum += c
		}
		if sum > w+1e-6 {
			t.Fatalf("columns of %v in %g mm", l.widths, w)
		}
		rec := &Recorder{}
		b := newBoard(rec)
		b.page(300, 2000)
		h := l.draw(b, box{10, 10, w, 1900})
		must(t, b.err)
		if !l.done() || h <= 0 {
			t.Fatal("a table does not fit a field two metres high")
		}
		for _, x := range rec.Pages[0].Texts {
			for _, v := range x.corners() {
				if v[0] < 10-1e-6 || v[0] > 10+w+1e-6 || v[1] > 10+h+1e-6 {
					t.Fatalf("%q reaches (%g, %g) of a table %g by %g", x.Text, v[0], v[1], w, h)
				}
			}
		}
	}
}

func TestAnswerWords(t *testing.T) {
	p := handProject()
	p.Box.Level = 100
	r := &assess.Result{Project: p, Checks: []check.Check{{ID: "side-sheet", Part: "left side wall", Title: "Side sheet in bending"}}}
	for _, c := range []struct {
		a    assess.Answer
		want string
	}{
		{assess.Answer{Kind: "cover", Value: 0.45, Solved: true, Governs: "side-sheet"}, "cover of 0.45 m; beyond that: left side wall, side sheet in bending"},
		{assess.Answer{Kind: "cover", Value: -0.5, Solved: true, Governs: "side-sheet"}, "no cover, and fill beside it no higher than 0.50 m below the roof; beyond that: left side wall, side sheet in bending"},
		{assess.Answer{Kind: "cover", Value: 4, Solved: true, AtLeast: true}, "cover of 4.00 m, the most that was tried"},
		{assess.Answer{Kind: "water", Value: 0.8, Solved: true, Governs: "float"}, "0.80 m above the underside, level 100.80 m; beyond that: float"},
		{assess.Answer{Kind: "water", None: true, Value: 0, Governs: "side-sheet"}, "not at all as drawn; what stops it: left side wall, side sheet in bending"},
		{assess.Answer{Why: "no stage has high water", Value: math.NaN()}, "not solved: no stage has high water"},
		{assess.Answer{Kind: "cover", Value: math.NaN()}, "not solved"},
	} {
		if got := AnswerWords(r, c.a, units.Metric); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

func TestRatiosInWords(t *testing.T) {
	for v, want := range map[float64]string{0: "0.00", 0.996: "1.00", 43.114: "43.11", 1e6: "over 1000", math.Inf(1): "no capacity"} {
		if got := ratio(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
	if got := ratio(math.NaN()); got != "–" {
		t.Errorf("NaN: %q", got)
	}
	// No capacity at all must still read as beyond limits.
	r := handResult(1)
	r.Checks[0].Ratio, r.Checks[0].Capacity = math.Inf(1), quantity.Of("", 0, quantity.Moment)
	all := record(t, handProject(), r, orientations()[2]).Pages[0].allText()
	if !strings.Contains(all, "no capacity") || !strings.Contains(all, "beyond limits") {
		t.Error("a part without capacity is not called beyond limits")
	}
}

// No word of a check's name is said twice, and none is lost.
func TestCalled(t *testing.T) {
	for _, c := range []struct{ part, title, want string }{
		{"box", "Sliding out of the hill", "box, sliding out of the hill"},
		{"drain", "Drain, how it is laid", "drain, how it is laid"},
		{"ribs", "Rib as a closed frame", "rib as a closed frame"},
		{"corner posts", "Corner post in compression", "corner post in compression"},
		{"roof", "Roofing felt", "roof, roofing felt"},
		{"back wall, wale 1", "Bow of the wale", "back wall, wale 1, bow of the wale"},
	} {
		if got := Called(c.part, c.title); got != c.want {
			t.Errorf("%q, %q: %q, want %q", c.part, c.title, got, c.want)
		}
	}
}
