package survey

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/model"
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %v, want %v ± %v", what, got, want, tol)
	}
}

// LV-04 (derived): slope taping by angle and by percentage.
func TestSlopeTaping(t *testing.T) {
	const tol = 0.0005 // of the case
	for _, c := range []struct {
		shot Shot
		h, v float64
	}{
		{Shot{30, rad(18.5)}, 28.4497, 9.5191},
		{Shot{20, GradeAngle(0.33)}, 18.9926, 6.2675},
	} {
		t.Run("LV-04", func(t *testing.T) {
			h, v, err := c.shot.Reduce()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "H", h, c.h, tol)
			near(t, "V", v, c.v, tol)
		})
	}
	t.Run("LV-04 angle", func(t *testing.T) { near(t, "θ", GradeAngle(0.33)*180/math.Pi, 18.263, 0.0005) })
	// DR-03 (derived): percentages and degrees do not add.
	t.Run("DR-03", func(t *testing.T) { near(t, "17 %", GradeAngle(0.17)*180/math.Pi, 9.648, 0.0005) })
}

// LV-05: K 100, C 0, s 0.865 m, +4°; D verified (published 86.07909397), V derived.
func TestStadia(t *testing.T) {
	t.Run("LV-05", func(t *testing.T) {
		d, v, err := Ordinary.Reduce(0.865, rad(4))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "D", d, 86.07909397, 1e-5)
		near(t, "V", v, 6.01924, 1e-5)
	})
	t.Run("second route", func(t *testing.T) {
		// an upright staff seen at an angle: the rays through the outer hairs part
		// by 1/K of the distance along the line of sight from the anallactic point
		scope := Telescope{K: 100, C: 0.3}
		for _, deg := range []float64{-30, -4, 0, 12, 40} {
			const s = 0.7
			along := scope.K*s*math.Cos(rad(deg)) + scope.C // the staff turned square to the sight
			d, v, err := scope.Reduce(s, rad(deg))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "D", d, along*math.Cos(rad(deg)), 1e-12*along)
			near(t, "V", v, along*math.Sin(rad(deg)), 1e-12*along)
		}
	})
	t.Run("ground level", func(t *testing.T) {
		// RL = RL0 + hi + V − mid with the readings of LV-05 about 1.500
		pts, err := Ordinary.Points(model.Vec{10, 50}, 1.4, []StadiaShot{{1.9325, 1.5, 1.0675, rad(4)}})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "x", pts[1].X, 10+86.07909397, 1e-5)
		near(t, "level", pts[1].Z, 50+1.4+6.01924-1.5, 1e-5)
	})
}

func TestShotsOutOfBounds(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, s := range []Shot{{0, 0}, {-1, 0}, {1001, 0}, {nan, 0}, {inf, 0}, {1, nan}, {1, inf}, {1, rad(89.1)}, {1, rad(-90)}} {
		_, _, err := s.Reduce()
		var p model.Problem
		if !errors.As(err, &p) || p.Field == "" || p.Allowed == "" {
			t.Errorf("%v gives %v", s, err)
		}
		if pts, err := Chain(model.Vec{}, []Shot{{1, 0}, s}); err == nil || pts != nil || !strings.HasPrefix(err.Error(), "shot 2: ") {
			t.Errorf("chain with %v gives %v, %v", s, pts, err)
		}
		if pts, err := Fan(model.Vec{}, 1, 1, []Shot{{1, 0}, s}); err == nil || pts != nil || !strings.HasPrefix(err.Error(), "shot 2: ") {
			t.Errorf("fan with %v gives %v, %v", s, pts, err)
		}
	}
	for _, c := range []struct {
		scope Telescope
		s, a  float64
		field string
	}{
		{Telescope{0, 0}, 1, 0, "K"}, {Telescope{nan, 0}, 1, 0, "K"}, {Telescope{100, -1}, 1, 0, "C"}, {Telescope{100, nan}, 1, 0, "C"},
		{Ordinary, 0, 0, "intercept"}, {Ordinary, 11, 0, "intercept"}, {Ordinary, nan, 0, "intercept"}, {Ordinary, 1, rad(90), "angle"}, {Ordinary, 1, nan, "angle"},
	} {
		_, _, err := c.scope.Reduce(c.s, c.a)
		var p model.Problem
		if !errors.As(err, &p) || p.Field != c.field {
			t.Errorf("%+v gives %v", c, err)
		}
	}
	for field, s := range map[string]StadiaShot{"upper": {Upper: nan}, "mid": {2, 1.7, 1, 0}, "lower": {1, 1, -1, 0}, "intercept": {1, 1, 1, 0}} {
		_, err := Ordinary.Points(model.Vec{}, 1, []StadiaShot{s})
		var p model.Problem
		if !errors.As(err, &p) || p.Field != field || !strings.HasPrefix(err.Error(), "sight 1: ") {
			t.Errorf("%+v gives %v", s, err)
		}
	}
	for _, s := range []Step{{0, 1}, {nan, 1}, {1, nan}, {1, 11}, {1001, 0}} {
		if pts, err := Steps(model.Vec{}, []Step{s}); err == nil || pts != nil {
			t.Errorf("%v gives %v, %v", s, pts, err)
		}
	}
}

// A chain up a straight slope is the same as one long shot, and the points of a
// fan lie where each shot alone puts them.
func TestChainAndFan(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		angle := (r.Float64() - 0.5) * 2.5
		shots := make([]Shot, 1+r.IntN(8))
		total := 0.0
		for i := range shots {
			shots[i] = Shot{0.1 + r.Float64()*20, angle}
			total += shots[i].Slope
		}
		start := model.Vec{r.Float64() * 10, r.Float64() * 100}
		pts, err := Chain(start, shots)
		if err != nil || len(pts) != len(shots)+1 {
			t.Fatal(pts, err)
		}
		last := pts[len(pts)-1]
		near(t, "x", last.X, start[0]+total*math.Cos(angle), 1e-10)
		near(t, "z", last.Z, start[1]+total*math.Sin(angle), 1e-10)
		fan, err := Fan(start, 1.5, 1.5, shots)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "first of the fan", math.Hypot(fan[1].X-start[0], fan[1].Z-start[1]), shots[0].Slope, 1e-10)
	}
	fan, err := Fan(model.Vec{0, 100}, 1.6, 0.2, []Shot{{10, 0}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "level with eye and target", fan[1].Z, 101.4, 1e-12)
	steps, err := Steps(model.Vec{1, 10}, []Step{{3, 0.9}, {2.5, 1.1}, {4, -0.2}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "H", steps[3].X, 10.5, 1e-12)
	near(t, "V", steps[3].Z, 11.8, 1e-12)
}

// σ by differences: moving the angle by a small amount moves the ends by σ.
func TestSigma(t *testing.T) {
	s, da := Shot{30, rad(18.5)}, 1e-6
	h0, v0, err0 := s.Reduce()
	h1, v1, err1 := Shot{s.Slope, s.Angle + da}.Reduce()
	if err0 != nil || err1 != nil {
		t.Fatal(err0, err1)
	}
	h, v := s.Sigma(da)
	near(t, "σ_H", h, h0-h1, 1e-9)
	near(t, "σ_V", v, v1-v0, 1e-9)
	// section 2: tape and clinometer ±0.5° on 30 m is about ±0.25 m of height
	_, v = Shot{30, 0}.Sigma(rad(0.5))
	near(t, "σ_V on 30 m", v, 0.25, 0.02)
}

func TestGroundLine(t *testing.T) {
	good := []Point{{"", 0, 100, 1}, {"", 2, 101, 2}, {"", 5, 103, 3}}
	line, issues := GroundLine(good)
	if len(issues) != 0 || len(line) != 3 || line[1] != (model.Vec{2, 101}) {
		t.Fatalf("%v, %v", line, issues)
	}
	for _, c := range []struct {
		name  string
		pts   []Point
		offer Offer
		field string
		says  string
	}{
		{"out of order", []Point{{"", 0, 100, 1}, {"", 5, 103, 2}, {"", 2, 101, 3}}, SortPoints, "site.ground[2]", "row 3: lies before"},
		{"the same point twice", []Point{{"", 0, 100, 4}, {"", 2, 101, 5}, {"", 2, 101, 6}, {"", 5, 103, 7}}, DropRepeats, "site.ground[2]", "row 6: repeats"},
		{"two levels at one distance", []Point{{"", 0, 100, 0}, {"", 2, 101, 0}, {"", 2, 102, 0}}, NoOffer, "site.ground[2]", "same distance"},
		{"not a number", []Point{{"", 0, 100, 0}, {"", math.NaN(), 101, 0}}, NoOffer, "site.ground[1]", "not a point"},
		{"one point", good[:1], NoOffer, "site.ground", "not a line"},
		{"none", nil, NoOffer, "site.ground", "not a line"},
	} {
		t.Run(c.name, func(t *testing.T) {
			line, issues := GroundLine(c.pts)
			if line != nil || len(issues) != 1 {
				t.Fatalf("%v, %v", line, issues)
			}
			if is := issues[0]; is.Offer != c.offer || is.Field != c.field || !strings.Contains(is.Error(), c.says) {
				t.Errorf("offer %v: %v", is.Offer, is)
			}
			if c.offer == NoOffer {
				return
			}
			if line, issues := GroundLine(Apply(c.pts, c.offer)); len(line) != 3 || len(issues) != 0 {
				t.Errorf("after the offer: %v, %v", line, issues)
			}
		})
	}
}

// A shuffled line comes back by the offers that GroundLine makes.
func TestOffersRestoreAShuffledLine(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 100 {
		var pts []Point
		for i := range 3 + r.IntN(30) {
			p := Point{X: float64(i) + r.Float64()*0.9, Z: r.Float64()}
			pts = append(pts, p)
			if r.IntN(5) == 0 {
				pts = append(pts, p)
			}
		}
		mixed := append([]Point(nil), pts...)
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		before := fmt.Sprint(mixed)
		got := Apply(Apply(mixed, SortPoints), DropRepeats)
		want := Apply(pts, DropRepeats)
		line, issues := GroundLine(got)
		if len(issues) > 0 || len(line) != len(want) || fmt.Sprint(mixed) != before {
			t.Fatalf("%v\n%v\n%v", issues, got, want)
		}
		for i := range line {
			if line[i] != (model.Vec{want[i].X, want[i].Z}) {
				t.Fatalf("point %d is %v, want %v", i, line[i], want[i])
			}
		}
	}
}
