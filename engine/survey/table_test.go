package survey

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// metricReader is a reader of cells such as the screen has one, for metres and
// feet: a bare length is in metres, a bare angle in degrees, a bare grade in
// percent.
func metricReader(kind quantity.Kind, text string) (float64, error) {
	num := strings.TrimRight(text, " abcdefghijklmnopqrstuvwxyz°%'")
	v, err := strconv.ParseFloat(num, 64)
	if err != nil {
		return 0, errors.New("is not a number")
	}
	unit := strings.TrimSpace(text[len(num):])
	size, ok := map[quantity.Kind]map[string]float64{
		quantity.Length:   {"": 1, "m": 1, "cm": 0.01, "ft": 0.3048, "'": 0.3048},
		quantity.Angle:    {"": math.Pi / 180, "°": math.Pi / 180, "deg": math.Pi / 180, "rad": 1},
		quantity.Gradient: {"": 0.01, "%": 0.01},
	}[kind][unit]
	if !ok {
		return 0, fmt.Errorf("unit %q", unit)
	}
	return v * size, nil
}

func points(t *testing.T, text string, o Options) []model.Vec {
	t.Helper()
	o.Read = metricReader
	tab, err := Read(text, o)
	if err != nil {
		t.Fatal(err)
	}
	var out []model.Vec
	for _, p := range tab.Points() {
		out = append(out, model.Vec{p.X, p.Z})
	}
	return out
}

func TestReadDistanceLevel(t *testing.T) {
	// the ground of GS-01, first points
	want := []model.Vec{{0, 99.2}, {3, 99.95}, {6, 100.6}}
	for name, text := range map[string]string{
		"tabs":                   "0\t99.20\n3\t99.95\n6\t100.60\n",
		"commas":                 "0,99.20\n3,99.95\n6,100.60",
		"semicolons":             "0;99.20\n3;99.95\n6;100.60",
		"spaces":                 "0 99.20\n 3   99.95\n6 100.60\n",
		"decimal commas":         "0\t99,20\n3\t99,95\n6\t100,60",
		"semicolons and commas":  "0;99,20\n3;99,95\n6;100,60",
		"Windows line ends":      "0\t99.20\r\n3\t99.95\r\n6\t100.60\r\n",
		"old Mac line ends":      "0\t99.20\r3\t99.95\r6\t100.60",
		"byte order mark":        "\ufeff0\t99.20\n3\t99.95\n6\t100.60",
		"empty rows and remarks": "# ground\n\n0\t99.20\n\t\n3\t99.95\n# end\n6\t100.60\n\n",
		"names":                  "P1,0,99.20\nP2,3,99.95\nP3,6,100.60",
		"headings":               "Distance,Level\n0,99.20\n3,99.95\n6,100.60",
		"headings turned round":  "RL,Point,Chainage\n99.20,a,0\n99.95,b,3\n100.60,c,6",
		"units in brackets":      "x (cm);Elev [m]\n0;99.20\n300;99.95\n600;100.60",
		"units behind a comma":   "\"Dist, cm\",\"Level, m\"\n0,99.20\n300,99.95\n600,100.60",
		"units behind a stroke":  "x/cm\tz/m\n0\t99.20\n300\t99.95\n600\t100.60",
		"units behind a space":   "Dist cm\tLevel m\n0\t99.20\n300\t99.95\n600\t100.60",
		"a row of units":         "Distance\tLevel\n(cm)\t(m)\n0\t99.20\n300\t99.95\n600\t100.60",
		"units in the cells":     "x,z\n0 m,99.20 m\n300 cm,99.95\n6,100.60 m",
		"a column of remarks":    "x,remark,z\n0,\"gate, post\",99.20\n3,,99.95\n6,ash,100.60",
		"quoted numbers":         "\"0\",\"99.20\"\n\"3\",\"99.95\"\n\"6\",\"100.60\"",
	} {
		t.Run(name, func(t *testing.T) {
			got := points(t, text, Options{})
			if len(got) != len(want) {
				t.Fatalf("got %v", got)
			}
			for i := range want {
				near(t, "x", got[i][0], want[i][0], 1e-12)
				near(t, "z", got[i][1], want[i][1], 1e-12)
			}
		})
	}
}

func TestThousands(t *testing.T) {
	for _, c := range []struct {
		text string
		o    Options
		want float64
	}{
		{"0\t1,234.5", Options{}, 1234.5},
		{"0\t1.234,5", Options{}, 1234.5},
		{"0\t1,234\n1\t0.5", Options{}, 1234},
		{"0\t1,234\n1\t0,5", Options{}, 1.234},
		{"0\t1,234", Options{Decimal: DecimalPoint}, 1234},
		{"0\t1,234", Options{Decimal: DecimalComma}, 1.234},
		{"0\t1234", Options{}, 1234},
		{"0\t1.234", Options{}, 1.234},
		{"0;99,200\n3;99,95", Options{}, 99.2},
	} {
		if got := points(t, c.text, c.o); got[0][1] != c.want {
			t.Errorf("%q = %v, want %v", c.text, got[0][1], c.want)
		}
	}
}

func TestFeetInHeadings(t *testing.T) {
	got := points(t, "Station (ft),Elevation (ft)\n10,328.08\n20,1 m", Options{})
	near(t, "x", got[0][0], 3.048, 1e-12)
	near(t, "z", got[0][1], 328.08*0.3048, 1e-9)
	near(t, "a cell with a unit of its own", got[1][1], 1, 1e-12)
}

func TestReadNamesRowColumnAndValue(t *testing.T) {
	_, err := Read("Point,Distance,Level\nP1,0,99.20\nP2,3,abc\n\nP3,,101\nP4,9 lb,102", Options{Read: metricReader})
	var c *CellError
	if !errors.As(err, &c) || c.Line != 3 || c.Column != 3 || c.Heading != "Level" || c.Value != "abc" {
		t.Fatalf("first fault %+v", c)
	}
	for _, says := range []string{`row 3, column 3 (Level): "abc": is not a number`, `row 5, column 2 (Distance): "": is empty`, `row 6, column 2 (Distance): "9 lb": unit`} {
		if !strings.Contains(err.Error(), says) {
			t.Errorf("%q is missing in %q", says, err)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text string
		form       Form
		says       string
	}{
		{"nothing", "", DistanceLevel, "no rows"},
		{"only remarks", "# a\n\n", DistanceLevel, "no rows"},
		{"only headings", "Distance,Level", DistanceLevel, "no rows"},
		{"one column", "1\n2", DistanceLevel, "1 columns without headings: expected distance, level"},
		{"four columns", "1,2,3,4", DistanceLevel, "4 columns without headings"},
		{"odd headings", "Length,Depth\n1,2", DistanceLevel, `no column for distance, level among the headings "Length", "Depth"`},
		{"no level", "Distance,Remark\n1,2", DistanceLevel, "no column for level"},
		{"twice the level", "Distance,Level,RL\n1,2,3", DistanceLevel, "2 columns for level"},
		{"neither angle nor grade", "Slope distance,Remark\n1,x1", SlopeShots, "angle or grade"},
		{"angle and grade", "Slope distance,Angle,Grade\n1,2,3", SlopeShots, "both an angle and a grade"},
		{"too many cells", "x,z\n1,2,3", DistanceLevel, "row 2: 3 cells in a table of 2"},
		{"two kinds of decimals", "0\t1.5\n1\t2,5", DistanceLevel, "choose one"},
		{"commas that may be either", "0\t1,500\n1\t2,500", DistanceLevel, "choose which"},
		{"an open quote", "\"0\t1\n", DistanceLevel, "1 columns"},
		{"too many rows", strings.Repeat("1,2\n", maxRows+1), DistanceLevel, "more than 5000"},
		{"too long", strings.Repeat(" ", maxPaste+1), DistanceLevel, "longer than"},
		{"many faults", strings.Repeat("1,x1\n", 30), DistanceLevel, "and 10 more"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if tab, err := Read(c.text, Options{Form: c.form, Read: metricReader}); err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%+v, %v; want %q", tab, err, c.says)
			}
		})
	}
}

// LV-04 again, from a pasted table of angles and one of percentages.
func TestReadShots(t *testing.T) {
	const tol = 0.0005 // of the case
	for name, text := range map[string]string{
		"LV-04 angle":   "Slope distance (m)\tAngle (°)\n30.00\t18.5\n20.00\t18.263",
		"LV-04 degrees": "Tape, m;Slope °\n30,00;18,5\n20,00;18,263",
		"LV-04 grade":   "Slope dist,Slope %\n30.00,33.4595\n20.00,33",
		"LV-04 plain":   "30.00 18.5\n20.00 18.263",
	} {
		t.Run(name, func(t *testing.T) {
			tab, err := Read(text, Options{Form: SlopeShots, Read: metricReader})
			if err != nil {
				t.Fatal(err)
			}
			pts, err := tab.Ground(Start{At: model.Vec{0, 100}, Chained: true}, Ordinary)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "x1", pts[1].X, 28.4497, tol)
			near(t, "z1", pts[1].Z, 109.5191, tol)
			near(t, "x2", pts[2].X, 28.4497+18.9926, 2*tol)
			near(t, "z2", pts[2].Z, 109.5191+6.2675, 2*tol)
			fan, err := tab.Ground(Start{At: model.Vec{0, 100}, Eye: 1.6, Target: 1.6}, Ordinary)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "second of the fan", fan[2].X, 18.9926, tol)
			if _, issues := GroundLine(fan); len(issues) != 1 || issues[0].Offer != SortPoints {
				t.Errorf("a fan read far point first: %v", issues)
			}
		})
	}
}

// LV-05 again, from a table.
func TestReadSights(t *testing.T) {
	tab, err := Read("Point,Upper,Middle,Lower,Angle\nA,1.9325,1.500,1.0675,4", Options{Form: StadiaSights, Read: metricReader})
	if err != nil {
		t.Fatal(err)
	}
	pts, err := tab.Ground(Start{Eye: 1.5}, Ordinary)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "LV-05 D", pts[1].X, 86.07909397, 1e-5)
	near(t, "LV-05 V", pts[1].Z, 6.01924, 1e-5)
	if pts[1].Name != "A" || pts[1].Row != 2 {
		t.Errorf("point %+v", pts[1])
	}
	tab.Rows[0].Values[Angle] = r(math.Pi)
	if _, err := tab.Ground(Start{}, Ordinary); err == nil {
		t.Error("a sight backwards was reduced")
	}
}

// LV-01 again, from a table with distances for the ground points.
func TestReadBook(t *testing.T) {
	const text = `Point;Distance;BS;IS;FS;Remark
BM1;;6,482;;;nail
CP1;0;5,844;;2,159
C;4,0;;3,141
D;;;-2,956;;bridge
E;9,5;;5,600
CP2;12;4,298;;7,318
F;15;;3,015
BM2;;;;4,264`
	tab, err := Read(text, Options{Form: LevelBook, Read: metricReader})
	if err != nil {
		t.Fatal(err)
	}
	got := tab.Readings()
	for i, want := range bookLV01() {
		if got[i].Name != want.Name || !reflect.DeepEqual(got[i], want) {
			t.Errorf("row %d = %+v, want %+v", i+1, got[i], want)
		}
	}
	b, err := Reduce(40, got)
	if err != nil {
		t.Fatal(err)
	}
	pts, err := tab.BookPoints(b.AdjustBySetups(42.883))
	if err != nil || len(pts) != 5 {
		t.Fatal(pts, err)
	}
	near(t, "LV-01 E", pts[2].Z, 44.567, 0.0005)
	if pts[2].Name != "E" || pts[2].X != 9.5 || pts[2].Row != 6 {
		t.Errorf("point %+v", pts[2])
	}
	if _, err := tab.BookPoints(nil); err == nil {
		t.Error("levels for other rows were taken")
	}
	if _, err := tab.Ground(Start{}, Ordinary); err == nil {
		t.Error("a level book has no first level of its own")
	}
}

func TestHeadingsAreOfOneRole(t *testing.T) {
	seen := map[string]Role{}
	for role, words := range headings {
		for _, w := range words {
			if other, twice := seen[w]; twice {
				t.Errorf("%q stands for %s and for %s", w, role, other)
			}
			seen[w] = role
			if got := heading(strings.ToUpper(w) + " (m)"); got.Role != role || got.Unit != "m" {
				t.Errorf("heading %q was understood as %+v", w, got)
			}
		}
	}
}

func FuzzTable(f *testing.F) {
	f.Add("Distance,Level\n0,99.20\n3,abc", 0)
	f.Add("P;x/m;Slope %\nA;1,5;33", 1)
	f.Add("BS\tIS\tFS\n1\t\t\n\t\t2", 2)
	f.Add("\"a\"\"\n1 2 3 4 5", 3)
	f.Fuzz(func(t *testing.T, text string, form int) {
		fm := Form(uint(form) % 4)
		tab, err := Read(text, Options{Form: fm, Read: metricReader})
		if err != nil {
			if tab != nil {
				t.Fatal("a table came with an error")
			}
			return
		}
		if fm == LevelBook {
			if b, err := Reduce(0, tab.Readings()); err == nil {
				b.AdjustBySetups(0)
			}
			return
		}
		pts, err := tab.Ground(Start{}, Ordinary)
		if err != nil {
			return
		}
		if line, _ := GroundLine(Apply(Apply(pts, SortPoints), DropRepeats)); line != nil {
			p := model.New()
			p.Site.Ground = line
			for _, pr := range p.Validate() {
				if pr.Hard && strings.Contains(pr.Text, "increase") {
					t.Fatalf("a line that does not increase came out: %v", pr)
				}
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	for i := range 1000 {
		fmt.Fprintf(&text, "P%d\t%.2f\t%.3f\n", i, float64(i)/4, 100+math.Sin(float64(i)))
	}
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		if _, err := Read(text.String(), Options{Read: metricReader}); err != nil {
			b.Fatal(err)
		}
	}
}
