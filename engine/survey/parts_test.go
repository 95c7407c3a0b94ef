package survey

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"hillset/engine/model"
)

func TestHeading(t *testing.T) {
	for cell, want := range map[string]Column{
		"Distance":        {"Distance", Distance, ""},
		" Distance (ft) ": {"Distance (ft)", Distance, "ft"},
		"Elev. [m]":       {"Elev. [m]", Level, "m"},
		"x/m":             {"x/m", Distance, "m"},
		"Level, m":        {"Level, m", Level, "m"},
		"Dist ft":         {"Dist ft", Distance, "ft"},
		"slope_distance":  {"slope_distance", SlopeDist, ""},
		"Slope (%)":       {"Slope (%)", Grade, "%"},
		"Slope %":         {"Slope %", Grade, "%"},
		"Slope°":          {"Slope°", Angle, "°"},
		"Slope (m)":       {"Slope (m)", SlopeDist, "m"},
		"%":               {"%", Grade, "%"},
		"Angle (deg)":     {"Angle (deg)", Angle, "deg"},
		"No.":             {"No.", NameCol, ""},
		"Reduced  Level":  {"Reduced  Level", Level, ""},
		"BS":              {"BS", Backsight, ""},
		"Remarks":         {"Remarks", Ignored, ""},
		"":                {"", Ignored, ""},
	} {
		if got := heading(cell); got != want {
			t.Errorf("heading(%q) = %+v, want %+v", cell, got, want)
		}
	}
}

func TestSeparator(t *testing.T) {
	for text, want := range map[string]rune{"a\tb;c,d e": '\t', "a;b,c": ';', "a,b c": ',', "a b": ' ', "": ' '} {
		if got := separator(text); got != want {
			t.Errorf("separator(%q) = %q, want %q", text, got, want)
		}
	}
	tab, err := Read("1,5 99,2\n2,5 99,4", Options{Separator: ' ', Read: metricReader})
	if err != nil {
		t.Fatal(err)
	}
	if p := tab.Points()[1]; p.X != 2.5 || p.Z != 99.4 {
		t.Errorf("point %+v with a chosen separator", p)
	}
}

func TestNumericAndBare(t *testing.T) {
	for cell, want := range map[string][2]bool{ // numeric, bare
		"1.5": {true, true}, "-1.5": {true, true}, "−1.5": {true, true}, ".5": {true, true}, "1e-3": {true, true},
		"1.5 m": {true, false}, "6'4\"": {true, false}, "P1": {false, false}, "": {false, false}, "-": {false, false}, "m": {false, false},
	} {
		if got := [2]bool{numeric(cell), bare(cell)}; got != want {
			t.Errorf("%q: numeric and bare are %v, want %v", cell, got, want)
		}
	}
}

func TestDecimalSign(t *testing.T) {
	for _, c := range []struct {
		cells        []string
		comma, fails bool
	}{
		{[]string{"1.5", "2"}, false, false},
		{[]string{"1,5", "2"}, true, false},
		{[]string{"0,125"}, true, false},
		{[]string{"0.125"}, false, false},
		{[]string{",5"}, true, false},
		{[]string{"1,2345"}, true, false},
		{[]string{"12345,678"}, true, false},
		{[]string{"1.234,567"}, true, false},
		{[]string{"1,234.567"}, false, false},
		{[]string{"10.234"}, false, false},
		{[]string{"10,234"}, false, true},
		{[]string{"10,234", "5.1"}, false, false},
		{[]string{"10,234", "5,1"}, true, false},
		{[]string{"1.5", "1,5"}, false, true},
		{[]string{"P1,x", "2.5"}, false, false}, // names do not count
		{nil, false, false},
	} {
		got, err := AutoDecimal.comma([]record{{1, c.cells}})
		if got != c.comma && err == nil || (err != nil) != c.fails {
			t.Errorf("%q: comma %v, %v", c.cells, got, err)
		}
	}
	for in, want := range map[string]string{"1.234,5": "1234.5", "1,5": "1.5", "P1,x": "P1,x"} {
		if got := pointed(in, true); got != want {
			t.Errorf("pointed(%q) = %q, want %q", in, got, want)
		}
	}
	if got := pointed("1,234.5", false); got != "1234.5" {
		t.Errorf("thousands stay: %q", got)
	}
}

// An adjusted run ends at the known level, begins at its own, and every
// correction lies between nothing and the whole misclosure, growing on the way.
func TestAdjustmentCloses(t *testing.T) {
	rnd := rand.New(rand.NewPCG(12, 13))
	for range 200 {
		n := 1 + rnd.IntN(12)
		rows := []Reading{{BS: r(rnd.Float64() * 4)}}
		along, l := make([]float64, n), 0.0
		for i := range n {
			if rnd.IntN(2) == 0 {
				rows = append(rows, Reading{IS: r(rnd.Float64() * 4)})
			}
			turn := Reading{FS: r(rnd.Float64() * 4)}
			if i < n-1 {
				turn.BS = r(rnd.Float64() * 4)
			}
			rows = append(rows, turn)
			l += 1 + 50*rnd.Float64()
			along[i] = l
		}
		b, err := Reduce(100, rows)
		if err != nil {
			t.Fatal(err)
		}
		known := b.Rows[len(rows)-1].Level + (rnd.Float64()-0.5)*0.05
		m := b.Misclosure(known)
		byDist, err := b.AdjustByDistance(known, along)
		if err != nil {
			t.Fatal(err)
		}
		for _, levels := range [][]float64{b.AdjustBySetups(known), byDist} {
			near(t, "last", levels[len(levels)-1], known, 1e-10)
			near(t, "first", levels[0], 100, 0)
			share := 0.0
			for i := 1; i < len(levels); i++ {
				s := (b.Rows[i].Level - levels[i]) / m
				if s < share-1e-6 || s > 1+1e-6 {
					t.Fatalf("row %d carries %v of the misclosure after %v", i, s, share)
				}
				share = s
			}
		}
		even := make([]float64, n)
		for i := range even {
			even[i] = float64(i+1) * 7
		}
		byEven, err := b.AdjustByDistance(known, even)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range b.AdjustBySetups(known) {
			near(t, "equal sights", byEven[i], v, 1e-10)
		}
	}
}

// Hanging: a set-up moved up or down as a whole changes no level.
func TestHeightOfTheInstrumentDropsOut(t *testing.T) {
	a, err := Reduce(40, bookLV01())
	if err != nil {
		t.Fatal(err)
	}
	moved := bookLV01()
	for _, p := range []*float64{moved[1].BS, moved[2].IS, moved[3].IS, moved[4].IS, moved[5].FS} {
		*p += 0.731 // the second set-up
	}
	b, err := Reduce(40, moved)
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Rows {
		near(t, a.Rows[i].Name, b.Rows[i].Level, a.Rows[i].Level, 1e-12)
	}
}

func TestReduceLeavesItsInput(t *testing.T) {
	rows := bookLV01()
	if _, err := Reduce(40, rows); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(rows, bookLV01()) {
		t.Error("the readings were changed")
	}
	pts := []Point{{"", 2, 0, 0}, {"", 1, 0, 0}}
	GroundLine(pts)
	Apply(pts, NoOffer)
	if pts[0].X != 2 {
		t.Error("the points were changed")
	}
}

// A stadia sight, a taped shot and a fan that look at the same mark agree.
func TestWaysOfMeasuringAgree(t *testing.T) {
	rnd := rand.New(rand.NewPCG(31, 7))
	for range 200 {
		start := model.Vec{rnd.Float64() * 10, 100}
		mark := model.Vec{start[0] + 5 + 80*rnd.Float64(), 100 + 40*(rnd.Float64()-0.5)}
		const eye, mid = 1.5, 1.2
		d, v := mark[0]-start[0], mark[1]+mid-start[1]-eye
		angle := math.Atan2(v, d)
		fan, err := Fan(start, eye, mid, []Shot{{math.Hypot(d, v), angle}})
		if err != nil {
			t.Fatal(err)
		}
		s := d / (100 * math.Cos(angle) * math.Cos(angle))
		stadia, err := Ordinary.Points(start, eye, []StadiaShot{{mid + s/2, mid, mid - s/2, angle}})
		if err != nil {
			t.Fatal(err)
		}
		for name, p := range map[string]Point{"tape": fan[1], "stadia": stadia[1]} {
			near(t, name+" x", p.X, mark[0], 1e-10)
			near(t, name+" z", p.Z, mark[1], 1e-10)
		}
	}
}
