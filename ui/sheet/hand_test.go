package sheet

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// handScene is a drawing made here, so that the sheet is tested apart from the
// program's own drawing: areas, hatch, lines, the box and some labels.
func handScene(v *section.View, d Drawing) (*scene.Scene, error) {
	k := d.MMPerM
	sc := &scene.Scene{MMPerM: k, Caption: "Long section A-A"}
	if !v.Long {
		sc.Caption = "Cross section B-B"
	}
	path := func(p scene.Path) { sc.Items = append(sc.Items, scene.Item{Path: &p}) }
	for _, list := range [][]section.Zone{v.Strata, v.Bedding, v.Fill} {
		for _, z := range list {
			p := scene.Path{Layer: scene.Fills, Tag: "zone:" + string(z.Kind) + ":" + z.Name, Closed: true, Fill: scene.Clay}
			h := scene.Path{Layer: scene.Fills, Tag: "hatch:" + z.Name, Stroke: scene.HatchSoil, Width: 0.13}
			for _, poly := range clipped(z.Region, d.Land) {
				p.Parts = append(p.Parts, geom.Polyline(poly.Outer))
				r := poly.Bounds()
				for x := r.Min[0]; x < r.Max[0]; x += 3 / k {
					h.Parts = append(h.Parts, geom.Polyline{{x, r.Min[1]}, {x, r.Min[1] + 2/k}})
				}
			}
			path(p)
			path(h)
		}
	}
	path(scene.Path{Layer: scene.Ground, Tag: "ground", Parts: []geom.Polyline{along(v.Ground, d.Land)}, Stroke: scene.Earth, Width: 0.5, Dash: []float64{6, 2}})
	path(scene.Path{Layer: scene.Fills, Tag: "finish", Parts: []geom.Polyline{along(v.Finish, d.Land)}, Stroke: scene.Ink, Width: 0.5})
	if v.HasBox {
		path(scene.Path{Layer: scene.BoxLayer, Tag: "box", Parts: []geom.Polyline{geom.Polyline(v.Box.ToRing())}, Closed: true, Stroke: scene.Steel, Width: 0.7})
		l := scene.Label{Layer: scene.Callouts, Tag: "box:name", At: v.Box.Center(), Text: "steel box", Height: 2.5, Anchor: scene.Anchor{H: 0.5, V: 0.5}, Role: scene.Ink, Halo: true}
		up := l
		up.Text, up.Angle, up.At, up.Tag = "upright", math.Pi/2, v.Box.Min, "box:up"
		sc.Items = append(sc.Items, scene.Item{Label: &l}, scene.Item{Label: &up})
	}
	return sc, nil
}

// clipped and along are what a window of the ground leaves of areas and lines.
func clipped(r geom.Region, land geom.Rect) geom.Region {
	if land.Empty() {
		return r
	}
	out, err := geom.Intersect(r, land.ToRegion())
	if err != nil {
		panic(err)
	}
	return out
}

func along(l geom.Polyline, land geom.Rect) geom.Polyline {
	if land.Empty() {
		return l
	}
	return l.ClipX(land.Min[0], land.Max[0])
}

func rectZone(kind section.ZoneKind, name string, x0, z0, x1, z1 float64) section.Zone {
	return section.Zone{Kind: kind, Name: name, Region: geom.Rect{Min: geom.Vec{x0, z0}, Max: geom.Vec{x1, z1}}.ToRegion()}
}

// handViews is a long and a cross section of a box in a bank, invented.
func handViews() (long, cross *section.View) {
	stage := model.Stage{ID: "dry", Name: "In service, dry", Kind: model.StageService}
	long = &section.View{
		Stage: stage, Long: true,
		Ground:    geom.Polyline{{-40, 100}, {4, 101}, {12, 104}, {60, 109}},
		Finish:    geom.Polyline{{-40, 100}, {5, 100.5}, {5.001, 103.3}, {12, 104.2}, {60, 109}},
		Strata:    []section.Zone{rectZone(section.Natural, "Silty clay", -40, 98, 60, 100.15)},
		Fill:      []section.Zone{rectZone(section.Backfill, "Backfill", 11.06, 100.2, 12.5, 103.5)},
		Bedding:   []section.Zone{rectZone(section.Bed, "Rock bed", 5, 100.2, 11.06, 100.5)},
		CutLine:   geom.Polyline{{4, 101}, {4, 100.2}, {11.66, 100.2}, {14, 104.1}},
		Excavated: geom.Rect{Min: geom.Vec{4, 100.2}, Max: geom.Vec{12, 103}}.ToRegion(),
		Batters:   []section.Batter{{Foot: geom.Vec{11.66, 100.2}, Top: geom.Vec{14, 104.1}, N: 0.6}},
		Toe:       geom.Vec{11.66, 100.2}, Crest: geom.Vec{14, 104.1}, CutHeight: 3.9, Formation: 100.2,
		HasBox: true, Box: geom.Rect{Min: geom.Vec{5, 100.5}, Max: geom.Vec{11.058, 103.091}}, Doors: true, Water: math.NaN(),
	}
	c := *long
	c.Long, c.Station, c.Doors = false, 8, false
	c.Ground = geom.Polyline{{-20, 102}, {20, 103}}
	c.Finish = geom.Polyline{{-20, 102}, {-3, 103.5}, {3, 103.5}, {20, 103}}
	c.Box = geom.Rect{Min: geom.Vec{-1.219, 100.5}, Max: geom.Vec{1.219, 103.091}}
	c.CutLine = geom.Polyline{{-3, 102}, {-1.8, 100.2}, {1.8, 100.2}, {3, 102.5}}
	c.Strata = []section.Zone{rectZone(section.Natural, "Silty clay", -20, 98, 20, 100.15)}
	c.Fill = []section.Zone{rectZone(section.Backfill, "Backfill", 1.219, 100.2, 2, 103)}
	c.Bedding = []section.Zone{rectZone(section.Bed, "Rock bed", -1.219, 100.2, 1.219, 100.5)}
	return long, &c
}

func handProject() *model.Project {
	high := 101.5
	return &model.Project{
		Title: "Seed store in the lower bank", Invented: true,
		Sheet: model.Sheet{Owner: "Invented owner", Place: "Lower bank", DrawnBy: "A. Drafter", Number: "HS-01", Revision: "B", Date: "2024-03-01"},
		Site: model.Site{
			Benchmark: model.Benchmark{Pos: model.Vec{0, 100}, Description: "nail in the gate post"},
			Water:     model.Water{DesignHigh: &high},
		},
		Cut:    model.Cut{WorkBack: 0.6, WorkSide: 0.6},
		Fill:   model.Fill{LiftHeight: 0.2, MaxAhead: 0.4},
		Stages: model.DefaultStages(),
	}
}

// handResult has n checks beyond and within the limit and two not made.
func handResult(n int) *assess.Result {
	r := &assess.Result{
		Assumed: []string{"Earth pressure at rest: the wall is held.", "Water stands still at the design level."},
		Depth:   assess.Answer{Question: "How deep may this box sit here?", Value: 0.45, Solved: true},
		WaterUp: assess.Answer{Question: "How high may the water come?", Value: math.NaN(), Why: "no water level is given"},
	}
	for i := range n {
		q := 2 - float64(i)*1.9/float64(n)
		r.Checks = append(r.Checks, check.Check{
			ID: fmt.Sprintf("c%d", i), Title: "Side sheet in bending", Part: fmt.Sprintf("left side wall %d", i+1), Stage: "lift-mid",
			Demand: quantity.Of("M", q, quantity.LineMoment), Capacity: quantity.Of("Mc", 1, quantity.LineMoment), Ratio: q, RatioLRFD: math.NaN(),
		})
	}
	r.Checks = append(r.Checks,
		check.Unchecked("roof-slab", "Slab over the roof", "roof slab", "the reinforcement of the slab"),
		check.Unchecked("seepage", "Inflow to the drain", "drain", "permeability of the silty clay"))
	return r
}

// orientations lists every size both ways.
func orientations() []Options {
	var out []Options
	for _, s := range Sizes {
		for _, l := range []bool{true, false} {
			u := units.Metric
			if s.Name == "letter" || s.Name == "tabloid" {
				u = units.US
			}
			out = append(out, Options{Size: s.Name, Landscape: l, Units: u, Version: "test", Plain: true, Scene: handScene})
		}
	}
	return out
}

func (o Options) name() string {
	if o.Landscape {
		return o.Size + " landscape"
	}
	return o.Size + " portrait"
}

func record(t testing.TB, p *model.Project, r *assess.Result, o Options) *Recorder {
	t.Helper()
	long, cross := handViews()
	d, err := plan(p, r, long, cross, o)
	must(t, err)
	rec := &Recorder{}
	must(t, d.draw(rec))
	return rec
}

func write(t testing.TB, p *model.Project, r *assess.Result, o Options) []byte {
	t.Helper()
	long, cross := handViews()
	var b bytes.Buffer
	must(t, Write(&b, p, r, long, cross, o))
	return b.Bytes()
}

// find joins the texts of a recorded page.
func (pg *RecordedPage) allText() string {
	var b strings.Builder
	for _, t := range pg.Texts {
		b.WriteString(t.Text + "\n")
	}
	return b.String()
}

// allText joins the texts of all recorded pages.
func (r *Recorder) allText() string {
	var b strings.Builder
	for _, pg := range r.Pages {
		b.WriteString(pg.allText())
	}
	return b.String()
}
