package section

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

const foot = 0.3048

// banked is a box end-on with fill level with its roof at the front, on level
// ground.
func banked(t *testing.T) *model.Project {
	t.Helper()
	p := demos(t)[0].Clone()
	p.Site.Ground = []model.Vec{{0, 100}, {60, 100}}
	p.Site.Strata[1].Top = []model.Vec{{0, 97}, {60, 97}}
	p.Site.CrossSlope = 0
	p.Box.Front, p.Box.Level = 20, 100
	p.Fill.FrontTop, p.Fill.BackTop, p.Fill.BackSlope, p.Fill.Shoulder, p.Fill.SideSlope = 0, 0, -.5, 20, 2
	return p
}

func layWing(t *testing.T, p *model.Project, dir float64) *Wing {
	t.Helper()
	plan, err := NewPlan(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	w, err := plan.Wing(dir)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestWingBlocks: QT-01 of the site reference (derived): 24 ft x 6 ft of 2 x 2 x 6
// blocks in half bond are 11 whole and 2 half blocks. Rock by hand.
func TestWingBlocks(t *testing.T) {
	p := banked(t)
	p.Wings = model.WingWalls{Courses: 3, BlockLength: 6 * foot, BlockWidth: 2 * foot, BlockHeight: 2 * foot, Length: 24 * foot, BaseRock: .2}
	for _, dir := range []float64{-1, 1} {
		w := layWing(t, p, dir)
		if w.Blocks.Full != 11 || w.Blocks.Half != 2 {
			t.Errorf("%+v, want 11 and 2", w.Blocks)
		}
		if want := 24 * foot * (2*foot + .2) * .2; math.Abs(w.Blocks.Rock-want) > 1e-9 {
			t.Errorf("rock %.4f m3, want %.4f", w.Blocks.Rock, want)
		}
	}
}

// TestWingDrawn: what the long section shows of a wing is what is counted, block
// by block, and its face is as large as its columns, seen at the splay; the other
// wing has as many.
func TestWingDrawn(t *testing.T) {
	for _, p := range demos(t) {
		p = p.Clone()
		p.Wings = model.WingWalls{Courses: 6, BlockLength: 1.22, BlockWidth: 1.2, BlockHeight: .61, Splay: 40, Length: 4.5, Embed: .4, BaseRock: .3}
		w := layWing(t, p, -1)
		v, err := NewLong(p, tables.Default(), service)
		if err != nil {
			t.Fatal(err)
		}
		if len(v.Wings) != 1 || len(v.Wings[0].Blocks) != w.Blocks.Full+w.Blocks.Half {
			t.Fatalf("drawn %+v, counted %+v", v.Wings, w.Blocks)
		}
		seen, face := 0.0, 0.0
		for _, r := range v.Wings[0].Blocks {
			seen += r.W() * r.H()
		}
		for i, c := range w.Columns {
			face += (c.To - c.From) * float64(c.Courses) * w.Height
			if i > 0 && c.Courses > w.Columns[i-1].Courses {
				t.Error("the wall steps up outwards")
			}
			if top := w.Top(c); c.Courses < p.Wings.Courses && top < w.Finish(c.From)-1e-6 {
				t.Errorf("fill %.3f over a column of %.3f", w.Finish(c.From), top)
			}
		}
		if want := face * math.Sin(40*math.Pi/180); math.Abs(seen-want) > 1e-9 {
			t.Errorf("face seen %.4f m2, want %.4f", seen, want)
		}
		lift, err := NewLong(p, tables.Default(), model.Stage{Kind: model.StageBackfill, FillTo: .3})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(lift.Wings[0].Blocks); n == 0 || n >= len(v.Wings[0].Blocks) {
			t.Errorf("%d blocks while the fill comes up, %d at the end", n, len(v.Wings[0].Blocks))
		}
	}
}

// TestWingInPlan: places along the wing and square behind it (plan geometry).
func TestWingInPlan(t *testing.T) {
	p := banked(t)
	p.Wings = model.WingWalls{Courses: 2, BlockLength: 1, BlockWidth: .6, BlockHeight: .6, Length: 4, Splay: 30}
	box, _ := tables.Default().Box(p.Box.Type)
	for _, dir := range []float64{-1, 1} {
		w := layWing(t, p, dir)
		if x, y := w.At(0, 0); x != 20 || y != dir*box.W/2 {
			t.Errorf("corner at %g, %g", x, y)
		}
		x, y := w.At(2, 0)
		if math.Abs(x-19) > 1e-12 || math.Abs(y-dir*(box.W/2+math.Sqrt(3))) > 1e-12 {
			t.Errorf("2 m along: %g, %g", x, y)
		}
		x2, y2 := w.At(2, 1)
		if math.Abs((x2-x)*(x-20)+(y2-y)*(y-dir*box.W/2)) > 1e-12 || x2 <= x || dir*(y2-y) <= 0 {
			t.Error("behind the wall is uphill and outwards, square to it")
		}
	}
}

func TestWingNone(t *testing.T) {
	p := banked(t)
	if w := layWing(t, p, 1); w != nil {
		t.Error("no courses, no wing")
	}
	p.Wings = model.WingWalls{Courses: 2, BlockLength: 1, BlockWidth: .6, BlockHeight: .6, Length: 4}
	p.Box.Orientation = model.Broadside
	if layWing(t, p, -1) != nil || layWing(t, p, 1) == nil {
		t.Error("set broadside, fill lies on the right alone")
	}
	p.Box.Orientation, p.Wings.Length = model.EndOn, 0
	plan, err := NewPlan(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	_, err = plan.Wing(1)
	var pr model.Problem
	if !errors.As(err, &pr) || pr.Field != "wing_walls.length" || !strings.Contains(pr.Text, "sizes") {
		t.Errorf("%v", err)
	}
}
