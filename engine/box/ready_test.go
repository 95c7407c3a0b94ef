package box

import (
	"math/rand"
	"reflect"
	"testing"

	"hillset/engine/frame"
)

// TestReadyRib: a rib made ready once gives, under any loads and in any order,
// what a rib solved for those loads alone gives.
func TestReadyRib(t *testing.T) {
	rng := rand.New(rand.NewSource(11))
	for _, wales := range [][]float64{nil, {1.25}, {0.8, 1.6}} {
		bare := rib(nil, nil, wales...)
		ready, err := bare.Ready()
		if err != nil {
			t.Fatal(err)
		}
		for range 20 {
			in := rib(soil().Scale(rng.Float64()), soil().Scale(rng.Float64()), wales...)
			in.Dead, in.Live, in.Snow, in.Water = 20*rng.Float64(), float64(rng.Intn(2)), float64(rng.Intn(3)), float64(rng.Intn(2))
			want, err := in.Solve()
			if err != nil {
				t.Fatal(err)
			}
			got, err := ready.Under(in.Left, in.Right, OnRoof{in.Dead, in.Live, in.Snow, in.Water})
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(got.ASD, want.ASD) || !reflect.DeepEqual(got.LRFD, want.LRFD) || got.Corner != want.Corner || got.Sway != want.Sway {
				t.Fatalf("wales %v: made ready %+v, alone %+v", wales, got.ASD, want.ASD)
			}
		}
		if _, err := ready.Under(Pressures{}, Pressures{}, OnRoof{Dead: -1}); err == nil {
			t.Error("suction on the roof is taken")
		}
	}
	bad := rib(nil, nil)
	bad.Width = 0
	if _, err := bad.Ready(); err == nil {
		t.Error("a rib without width is made ready")
	}
}

// TestRibAtOnce: the ratings by combination of kinds of load are those of the
// frame solved for the whole of every combination.
func TestRibAtOnce(t *testing.T) {
	in := rib(soil(), soil().Scale(0.4), 1.1)
	in.Dead, in.Live, in.Snow = 12, 3, 1.5
	r, err := in.Solve()
	if err != nil {
		t.Fatal(err)
	}
	f := in.build()
	k, err := f.Factor()
	if err != nil {
		t.Fatal(err)
	}
	rt, err := in.newRater(&f, k)
	if err != nil {
		t.Fatal(err)
	}
	var kinds [4]ribLoads
	if err := in.kinds(&f, &kinds); err != nil {
		t.Fatal(err)
	}
	var all RibResult
	for _, c := range Allowable {
		s, err := k.Solve(combine(&kinds, c))
		if err != nil {
			t.Fatal(err)
		}
		rt.seeWhole(s, c.Name, asdForm, &all)
	}
	for _, c := range Strength {
		s, err := k.Solve(combine(&kinds, c))
		if err != nil {
			t.Fatal(err)
		}
		rt.seeWhole(s, c.Name, lrfdForm, &all)
	}
	for p := range ringParts {
		near(t, "allowable ratio of the "+p.String(), r.ASD[p].Ratio, all.ASD[p].Ratio, 1e-9)
		near(t, "strength ratio of the "+p.String(), r.LRFD[p].Ratio, all.LRFD[p].Ratio, 1e-9)
	}
}

// TestReadySheets: wall and roof sheets made ready once give under any load
// what they give solved for it alone, and refuse the same loads.
func TestReadySheets(t *testing.T) {
	rng := rand.New(rand.NewSource(12))
	for _, supports := range [][]float64{nil, {0.9}, {0.7, 1.5}} {
		wall := strip(2.5, nil, supports...)
		roof := RoofStrip{Profile: wall.Profile, Steel: wall.Steel, Span: 2.3, Supports: supports}
		readyWall, err := wall.Ready()
		if err != nil {
			t.Fatal(err)
		}
		readyRoof, err := roof.Ready()
		if err != nil {
			t.Fatal(err)
		}
		for range 20 {
			wall.Load = Pressures{Earth: soil().Scale(rng.Float64()), Water: WallLoad([2]float64{0, 9 * rng.Float64()}, [2]float64{1.1, 0})}
			want, errW := wall.Solve()
			got, err := readyWall.Under(wall.Load)
			if err != nil || errW != nil || !reflect.DeepEqual(got, want) {
				t.Fatalf("wall with supports %v: %v %v", supports, err, errW)
			}
			on := OnRoof{30 * rng.Float64(), 9 * rng.Float64(), float64(rng.Intn(2)), float64(rng.Intn(2))}
			strip := readyRoof.Strip(on, Pair{9 * rng.Float64(), 14 * rng.Float64()})
			wantR, errW := strip.Solve()
			gotR, err := readyRoof.Under(on, strip.Thrust)
			if err != nil || errW != nil || !reflect.DeepEqual(gotR, wantR) {
				t.Fatalf("roof with supports %v: %v %v", supports, err, errW)
			}
		}
		if _, err := readyRoof.Under(OnRoof{Snow: -1}, Pair{}); err == nil {
			t.Error("suction on the roof is taken")
		}
		if _, err := readyWall.Under(Pressures{Earth: WallLoad([2]float64{0, 1}, [2]float64{9, 1})}); err == nil {
			t.Error("a load above the wall is taken")
		}
	}
}

// build is the frame of a rib as it is held under its loads.
func (in Rib) build() ribFrame {
	f, err := in.layout(in.heldLeft())
	if err != nil {
		panic(err)
	}
	return f
}

// combine is one combination in memory of its own.
func combine(kinds *[4]ribLoads, c Combo) (lc frame.LoadCase) {
	c.sum(kinds, &lc)
	return lc
}
