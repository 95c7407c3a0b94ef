package survey

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/model"
)

func r(v float64) *float64 { return &v }

// bookLV01 is the level book of LV-01 (verified: full table of a university
// lecture on level books).
func bookLV01() []Reading {
	return []Reading{
		{Name: "BM1", BS: r(6.482)},
		{Name: "CP1", FS: r(2.159), BS: r(5.844)},
		{Name: "C", IS: r(3.141)},
		{Name: "D", IS: r(-2.956)}, // underside of a bridge
		{Name: "E", IS: r(5.600)},
		{Name: "CP2", FS: r(7.318), BS: r(4.298)},
		{Name: "F", IS: r(3.015)},
		{Name: "BM2", FS: r(4.264)},
	}
}

func TestLevelBook(t *testing.T) {
	const tol = 0.0005 // of the case
	want := []float64{40, 44.323, 47.026, 53.123, 44.567, 42.849, 44.132, 42.883}
	t.Run("LV-01", func(t *testing.T) {
		b, err := Reduce(40, bookLV01())
		if err != nil {
			t.Fatal(err)
		}
		hi := []float64{0, 46.482, 50.167, 50.167, 50.167, 50.167, 47.147, 47.147}
		for i, w := range want {
			near(t, "level of "+b.Rows[i].Name, b.Rows[i].Level, w, tol)
			if i > 0 {
				near(t, "HI over "+b.Rows[i].Name, b.Rows[i].HI, hi[i], tol)
			}
		}
		near(t, "ΣBS", b.SumBS, 16.624, tol)
		near(t, "ΣFS", b.SumFS, 13.741, tol)
		near(t, "ΣBS − ΣFS", b.SumBS-b.SumFS, 2.883, tol)
		if b.Setups != 3 || !math.IsNaN(b.Rows[0].HI) {
			t.Errorf("%d set-ups, first HI %v", b.Setups, b.Rows[0].HI)
		}
	})
	t.Run("LV-02", func(t *testing.T) { // derived
		b, err := ReduceByRise(40, bookLV01())
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range []float64{0, 4.323, 2.703, 6.097, -8.556, -1.718, 1.283, -1.249} {
			near(t, "rise to "+b.Rows[i].Name, b.Rows[i].Diff, w, tol)
			near(t, "level of "+b.Rows[i].Name, b.Rows[i].Level, want[i], tol)
		}
		near(t, "Σrise", b.Rises, 14.406, tol)
		near(t, "Σfall", b.Falls, 11.523, tol)
	})
}

// LV-03 (derived): a closed run on a hillside that misses by 15 mm.
func TestMisclosure(t *testing.T) {
	const tol = 0.0001 // of the case
	b, err := Reduce(100, []Reading{
		{Name: "BM1", BS: r(2.845)}, {Name: "P1", IS: r(1.930)}, {Name: "TP1", FS: r(0.655), BS: r(3.120)},
		{Name: "P2", IS: r(2.075)}, {Name: "P3", IS: r(0.980)}, {Name: "TP2", FS: r(0.412), BS: r(2.760)},
		{Name: "TP3", FS: r(1.244), BS: r(0.388)}, {Name: "TP4", FS: r(3.415), BS: r(0.512)}, {Name: "BM1", FS: r(3.914)},
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Run("LV-03 raw", func(t *testing.T) {
		for i, w := range []float64{100, 100.915, 102.190, 103.235, 104.330, 104.898, 106.414, 103.387, 99.985} {
			near(t, b.Rows[i].Name, b.Rows[i].Level, w, tol)
		}
		near(t, "m", b.Misclosure(100), -0.015, tol)
	})
	t.Run("LV-03 by distance", func(t *testing.T) {
		got, err := b.AdjustByDistance(100, []float64{25, 52, 70, 98, 125})
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range map[int]float64{0: 100, 2: 102.1930, 5: 104.9042, 6: 106.4224, 7: 103.3988, 8: 100} {
			near(t, b.Rows[i].Name, got[i], w, tol)
		}
	})
	t.Run("LV-03 by set-ups", func(t *testing.T) {
		got := b.AdjustBySetups(100)
		for i, w := range map[int]float64{0: 100, 1: 100.918, 2: 102.193, 5: 104.904, 6: 106.423, 7: 103.399, 8: 100} {
			near(t, b.Rows[i].Name, got[i], w, tol)
		}
	})
	t.Run("LV-03 limits", func(t *testing.T) {
		m := math.Abs(b.Misclosure(100))
		for i, w := range []struct {
			mm  float64
			met bool
		}{{4.24, false}, {11.2, false}, {22.4, true}} {
			l := Limits(0.125, b.Setups)[i]
			near(t, l.Name, l.Metres*1000, w.mm, 0.05)
			if (m <= l.Metres) != w.met {
				t.Errorf("%s: met %v", l.Name, m <= l.Metres)
			}
		}
	})
	for _, along := range [][]float64{{1, 2, 3, 4}, {1, 2, 2, 4, 5}, {0, 1, 2, 3, 4}, {1, 2, math.NaN(), 4, 5}, {1, 2, 3, 4, math.Inf(1)}} {
		if got, err := b.AdjustByDistance(100, along); err == nil {
			t.Errorf("%v gives %v", along, got)
		}
	}
}

func TestLevelBookRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		first float64
		rows  []Reading
		says  string
	}{
		{"empty", 0, nil, "0 rows"},
		{"one row", 0, []Reading{{BS: r(1)}}, "1 rows"},
		{"no first level", math.NaN(), bookLV01(), "first_level"},
		{"no backsight", 0, []Reading{{IS: r(1)}, {FS: r(1)}}, "row 1 (): the first row"},
		{"foresight first", 0, []Reading{{BS: r(1), FS: r(1)}, {FS: r(1)}}, "row 1 (): the first row"},
		{"ends in an intermediate sight", 0, []Reading{{BS: r(1)}, {Name: "P", IS: r(1)}}, "row 2 (P): the last row"},
		{"ends in a backsight", 0, []Reading{{BS: r(1)}, {FS: r(1), BS: r(2)}}, "row 2 (): the last row"},
		{"three in a row", 0, []Reading{{BS: r(1)}, {BS: r(1), IS: r(1), FS: r(1)}, {FS: r(1)}}, "stands alone"},
		{"backsight alone", 0, []Reading{{BS: r(1)}, {BS: r(1)}, {FS: r(1)}}, "needs the foresight"},
		{"foresight alone", 0, []Reading{{BS: r(1)}, {FS: r(1)}, {FS: r(1)}}, "a backsight to the same point"},
		{"nothing read", 0, []Reading{{BS: r(1)}, {Name: "Q"}, {FS: r(1)}}, "row 2 (Q): nothing was read"},
		{"not a number", 0, []Reading{{BS: r(1)}, {FS: r(math.NaN())}}, "FS = NaN m"},
		{"a staff of 12 m", 0, []Reading{{BS: r(12)}, {FS: r(1)}}, "BS = 12 m"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, f := range []func(float64, []Reading) (*Book, error){Reduce, ReduceByRise} {
				if b, err := f(c.first, c.rows); err == nil || b != nil || !strings.Contains(err.Error(), c.says) {
					t.Errorf("%v, %v; want %q", b, err, c.says)
				}
			}
		})
	}
	var p model.Problem
	if _, err := Reduce(0, []Reading{{BS: r(12)}, {FS: r(1)}}); !errors.As(err, &p) || !p.Hard {
		t.Errorf("the error holds no problem: %v", err)
	}
}

// A book made from known ground gives that ground back, both ways, and a run
// that closes needs no correction.
func TestBookOfKnownGround(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 9))
	for range 100 {
		level := 100 * rnd.Float64()
		truth := []float64{level}
		hi := level + 0.2 + 3*rnd.Float64()
		rows := []Reading{{BS: r(hi - level)}}
		for n := 2 + rnd.IntN(20); n > 0; n-- {
			level = hi - (0.2 + 3*rnd.Float64())
			truth = append(truth, level)
			switch {
			case n == 1:
				rows = append(rows, Reading{FS: r(hi - level)})
			case rnd.IntN(3) == 0:
				next := level + 0.2 + 3*rnd.Float64()
				rows = append(rows, Reading{FS: r(hi - level), BS: r(next - level)})
				hi = next
			default:
				rows = append(rows, Reading{IS: r(hi - level)})
			}
		}
		b, err := Reduce(truth[0], rows)
		b2, err2 := ReduceByRise(truth[0], rows)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		adjusted := b.AdjustBySetups(truth[len(truth)-1])
		for i, w := range truth {
			near(t, "by HI", b.Rows[i].Level, w, 1e-9)
			near(t, "by rise and fall", b2.Rows[i].Level, w, 1e-9)
			near(t, "corrected by nothing", adjusted[i], w, 1e-9)
		}
	}
}

// Two pegs 40 m apart, a line of sight that rises 1 mm in 20 m: half way both
// readings are wrong alike; beside the first peg only the far one is.
func TestTwoPeg(t *testing.T) {
	const tilt = 0.001 / 20
	a, b := 1.2, 1.5 // true readings from one height
	e := TwoPeg(a+20*tilt, b+20*tilt, a, b+40*tilt)
	near(t, "e", e, -0.002, 1e-12)
	near(t, "e of a good level", TwoPeg(a, b, a+0.3, b+0.3), 0, 1e-12)
}
