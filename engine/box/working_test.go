package box

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
)

// formulas recompute what a line of a working claims, from the values it
// shows. A line that is not here shows a value that its terms alone do not
// give (statics, iterations).
var formulas = map[string]func(v map[string]float64) float64{
	"λ = (1.052/√k)·(w/t)·√(f/E)": nil, // w/t is a property of the sheet
	"ρ = (1 − 0.22/λ)/λ, at most 1": func(v map[string]float64) float64 {
		return math.Min(1, (1-0.22/v["λ"])/v["λ"])
	},
	"Mn = Se·Fy":     func(v map[string]float64) float64 { return v["Se"] * v["Fy"] },
	"Mn = S·Fy":      func(v map[string]float64) float64 { return v["S"] * v["Fy"] },
	"Mn = Z·Fy":      func(v map[string]float64) float64 { return v["Z"] * v["Fy"] },
	"V·Ω/Vn":         func(v map[string]float64) float64 { return v["V"] * v["Ω"] / v["Vn"] },
	"r = V·Ω/Vn":     func(v map[string]float64) float64 { return v["V"] * v["Ω"] / v["Vn"] },
	"wa = L/n":       func(v map[string]float64) float64 { return v["L"] / v["n"] },
	"Pn = Ae·Fn":     func(v map[string]float64) float64 { return v["Ae"] * v["Fn"] },
	"Pn = A·Fn":      func(v map[string]float64) float64 { return v["A"] * v["Fn"] },
	"M = w·L²/n":     func(v map[string]float64) float64 { return v["w"] * v["L"] * v["L"] / v["n"] },
	"N = w·L²/(8·B)": func(v map[string]float64) float64 { return v["w"] * v["L"] * v["L"] / (8 * v["B"]) },
	"vy = 0.6·Fy·t":  func(v map[string]float64) float64 { return 0.6 * v["Fy"] * v["t"] },
	"P = Rb·s":       func(v map[string]float64) float64 { return v["Rb"] * v["s"] },
	"s = (1 + 2·ex/L)·(1 + 2·ey/B)/4": func(v map[string]float64) float64 {
		return (1 + 2*v["ex"]/v["L"]) * (1 + 2*v["ey"]/v["B"]) / 4
	},
	"r = Ωc·P/Pn + Ωb·M/(Mn·(1 − Ωc·P/PE))": func(v map[string]float64) float64 {
		return v["Ωc"]*v["P"]/v["Pn"] + v["Ωb"]*v["M"]/(v["Mn"]*(1-v["Ωc"]*v["P"]/v["PE"]))
	},
	"M2 = (q/k²)·(sec(kL/2) − 1) + P·e/(1 − P/PE), k² = P/EI": nil, // e stands in another line
}

// twoTerms are formulas that occur with M and Mn complete in one line.
func init() {
	formulas["r = Mu/(φ·Mn)"] = func(v map[string]float64) float64 {
		if _, ok := v["Mn"]; !ok {
			return math.NaN() // Mn stands in the line before
		}
		return v["Mu"] / (v["φ"] * v["Mn"])
	}
	formulas["r = M·Ω/Mn"] = func(v map[string]float64) float64 {
		if _, ok := v["M"]; !ok {
			return math.NaN()
		}
		return v["M"] * v["Ω"] / v["Mn"]
	}
}

// recompute checks every line of a working that its own terms determine, and
// returns how many that were.
func recompute(t *testing.T, c check.Check) int {
	t.Helper()
	done := 0
	for _, l := range c.Working {
		f := formulas[l.Formula]
		if f == nil {
			continue
		}
		v := map[string]float64{}
		for _, q := range l.Terms {
			v[q.Sym] = q.Val
		}
		want := f(v)
		if math.IsNaN(want) {
			continue
		}
		near(t, c.ID+": "+l.Formula, l.Result.Val, want, 1e-9)
		done++
	}
	return done
}

// TestWorkings: the numbers shown beside a formula give the result shown, in
// every check, within limits and beyond them.
func TestWorkings(t *testing.T) {
	soft, hard := frame.Linear(6, 0, 2.4), frame.Linear(60, 10, 2.4)
	var all []check.Check
	keep := func(c check.Check, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, c)
	}
	for _, load := range []frame.Load{soft, hard} {
		for _, wales := range [][]float64{nil, {1.1}, {0.8, 1.6}} {
			c, _, err := SideSheet(strip(2.4, load, wales...))
			keep(c, err)
			c, _, err = EndSheet(strip(2.4, load, wales...))
			keep(c, err)
			c, _, err = SheetDeflection(strip(2.4, load, wales...), SagLimitLined)
			keep(c, err)
			r := rib(load, load, wales...)
			c, _, err = RibRing(r)
			keep(c, err)
		}
	}
	for _, q := range []float64{1, 30} {
		for _, purlins := range [][]float64{nil, {1.2}} {
			in := roof(q, 5)
			in.Supports, in.Live, in.Snow, in.Straight = purlins, 2, 1, false
			c, _, err := RoofSheet(in)
			keep(c, err)
			c, _, err = RoofDeflection(in, SagLimit)
			keep(c, err)
		}
	}
	for _, w := range []float64{2, 200} {
		for _, f := range allRails {
			c, _, err := f(Rail{Bar: tube(60, 3), Steel: corten, Span: 1.2, Spans: 4, Load: Pair{w, 1.6 * w}})
			keep(c, err)
		}
		d := deck()
		d.Load = Pair{w, 1.6 * w}
		c, _, err := Diaphragm(d)
		keep(c, err)
		x := crossC(t)
		x.Load = Pair{w, 1.6 * w}
		c, _, err = FloorCrossMember(x)
		keep(c, err)
		c, _, err = CornerPost(Post{Strength: 923, Dead: 20 * w, Live: w, Length: 5.8, Width: 2.3, EccX: 0.3, EccY: 0.1})
		keep(c, err)
	}
	lines := 0
	for _, c := range all {
		sane(t, c)
		lines += recompute(t, c)
	}
	if lines < 3*len(all) {
		t.Errorf("only %d lines of %d checks could be recomputed", lines, len(all))
	}
}

// TestWorkingKinds: demand and capacity of a check are of one kind, and ratios
// are pure.
func TestWorkingKinds(t *testing.T) {
	c, _, err := SideSheet(strip(2.4, frame.Linear(27, 5, 2.4)))
	if err != nil {
		t.Fatal(err)
	}
	if c.Demand.Kind != c.Capacity.Kind || c.Demand.Kind != quantity.LineMoment {
		t.Errorf("demand %v, capacity %v", c.Demand, c.Capacity)
	}
	for _, l := range c.Working {
		if l.Result.Sym == "r" && l.Result.Kind != quantity.Ratio {
			t.Errorf("%s is of kind %d", l.Text, l.Result.Kind)
		}
	}
}
