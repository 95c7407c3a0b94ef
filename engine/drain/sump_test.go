package drain

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/ground"
	"hillset/engine/tables"
)

const lpm = litre / 60 // L/min

// WT-14 (formula verified, numbers derived).
func TestPumpCycle(t *testing.T) {
	t.Run("WT-14", func(t *testing.T) {
		for inflow, minutes := range map[float64]float64{5: 13.7, 10: 8, 20: 6, 30: 8} {
			near(t, "cycle", must(CycleTime(.06, 40*lpm, inflow*lpm))/60, minutes, .005)
		}
		near(t, "shortest", must(LeastCycle(.06, 40*lpm))/60, 6, 1e-9)
		v := must(LiveVolume(600, 40*lpm))
		near(t, "volume for 10 min", v, .1, 1e-9)
		near(t, "depth in 0.45 m", must(LiveDepth(v, .45)), .629, .005)
		near(t, "diameter turns back", must(BasinDiameter(v, must(LiveDepth(v, .45)))), .45, 1e-12)
	})
	// the printed form t = (V/D)(1/(1 − Q/D) + D/Q)
	v, d, q := .07, 1e-3, 3e-4
	near(t, "printed form", must(CycleTime(v, d, q)), v/d*(1/(1-q/d)+d/q), 1e-12)
	for i := 1; i < 100; i++ {
		if must(CycleTime(v, d, d*float64(i)/100)) < must(LeastCycle(v, d))*(1-1e-12) {
			t.Error("shorter than the shortest")
		}
	}
	_, err := CycleTime(v, d, d)
	refused(t, err, "inflow")
	_, err = LiveVolume(math.NaN(), d)
	refused(t, err, "cycle")
	_, err = LeastCycle(v, 0)
	refused(t, err, "rate")
}

// A run of the basin, second by second, has the cycle of the formula.
func TestCycleByRunning(t *testing.T) {
	const volume, rate, inflow, dt = .1, 40 * lpm, 12 * lpm, .05
	level, on, now := 0.0, false, 0.0
	var starts []float64
	for len(starts) < 4 {
		level += inflow * dt
		if on {
			level -= rate * dt
		}
		if now += dt; !on && level >= volume {
			on = true
			starts = append(starts, now)
		}
		if on && level <= 0 {
			on = false
		}
	}
	near(t, "cycle", starts[3]-starts[2], must(CycleTime(volume, rate, inflow)), .001)
}

func TestSumpCheck(t *testing.T) {
	in := SumpIn{Rate: 40 * lpm, Inflow: 8 * lpm, Diameter: .45, Live: .3}
	c := must(SumpCheck(in))
	wellFormed(t, c)
	near(t, "starts govern", c.Ratio, .629/.3, .002)
	in.Live = c.RemedyQ[0].Val
	near(t, "with the remedy", must(SumpCheck(in)).Ratio, 1, 1e-9)
	in.Live, in.Inflow = 1, 60*lpm
	c = must(SumpCheck(in))
	wellFormed(t, c)
	near(t, "inflow governs", c.Ratio, 1.5, 1e-9)
	_, err := SumpCheck(SumpIn{Rate: -1})
	refused(t, err, "rate")
}

// riser15 is the pipe of WT-15.
var riser15 = Riser{Flow: 40 * lpm, Bore: .0409, Length: 25, C: 150, Roughness: 1.5e-6, Minor: 4, Static: 3.5}

// WT-15 (derived).
func TestPumpHeadAndEnergy(t *testing.T) {
	t.Run("WT-15", func(t *testing.T) {
		h := must(Lift(riser15))
		near(t, "V", h.Velocity, .507, .02)
		near(t, "Hazen-Williams", h.HazenWilliams, .188, .02)
		near(t, "Colebrook", h.Colebrook, .220, .02)
		near(t, "minor", h.Minor, .052, .02)
		near(t, "H", h.Total, 3.74, .02)
		near(t, "H with the larger friction", h.Total, 3.5+.220+.052, .001)
		near(t, "H by Hazen-Williams", 3.5+h.HazenWilliams+h.Minor, 3.74, .002)
		near(t, "hydraulic power", h.Power, 24.5, .02)
		// US form: feet per 100 ft with gpm and inches
		gpm, in := 40*lpm/(3.785411784e-3/60), .0409/.0254
		us := .2083 * math.Pow(100.0/150, 1.852) * math.Pow(gpm, 1.852) / math.Pow(in, 4.8655) / 100 * 25
		near(t, "US form", us, .191, .02)
		near(t, "the two forms", us, h.HazenWilliams, .02)
		s := must(FindSupply(SupplyIn{Head: 3.74, Rate: 40 * lpm, Inflow: 8 * lpm, Efficiency: .30, Days: 3, Depth: .5, Line: .85,
			SunHours: 2.5, Derate: .75, Volts: 12, Battery: 2760}))
		near(t, "power", s.Power, 81.5, .02)
		near(t, "hours a day", s.HoursDay, 4.8, .005)
		near(t, "Wh a day", s.Day, 391, .005)
		near(t, "Wh per m3", s.PerCubic, 34.0, .005)
		near(t, "per m3 by the constant", s.PerCubic, 2.725*3.74/.3, .001)
		near(t, "battery", s.Battery, 2760, .005)
		near(t, "Ah", s.AmpHours, 230, .005)
		near(t, "panels", s.Panels, 246, .005)
		near(t, "autonomy", s.Autonomy, 3, .005)
		p, ok := tables.Default().PumpPipe("pvc-1.5")
		if !ok || p.Bore != riser15.Bore || p.CNew != riser15.C || p.Roughness != riser15.Roughness {
			t.Errorf("table: %+v", p)
		}
	})
}

// Colebrook's equation holds for what Friction gives; smooth and rough ends
// agree with closed forms; it only falls with Re and grows with roughness.
func TestFriction(t *testing.T) {
	for _, rough := range []float64{0, 1e-6, 1e-4, 1e-2, .05} {
		last := math.Inf(1)
		for re := 2300.0; re < 1e8; re *= 1.3 {
			f := Friction(re, rough)
			x := 1 / math.Sqrt(f)
			near(t, "Colebrook", x, -2*math.Log10(rough/3.7+2.51*x/re), 1e-10)
			if f > last {
				t.Fatalf("f grows with Re at %g", re)
			}
			last = f
			if f < Friction(re, rough/2) {
				t.Fatal("f must grow with roughness")
			}
			if re < 4000 && f < 64/re {
				t.Fatalf("between 2300 and 4000 the larger counts: %g", re)
			}
		}
		if rough > 1e-3 {
			near(t, "fully rough", last, math.Pow(-2*math.Log10(rough/3.7), -2), 1e-3)
		}
	}
	near(t, "laminar", Friction(1000, .01), .064, 1e-12)
	near(t, "Blasius", Friction(5e4, 0), .316*math.Pow(5e4, -.25), .02)
}

func TestLiftCheck(t *testing.T) {
	c := must(LiftCheck(riser15, 5))
	wellFormed(t, c)
	if c.Verdict() != check.Within {
		t.Error(c.Ratio)
	}
	c = must(LiftCheck(riser15, 3))
	wellFormed(t, c)
	near(t, "with the remedy", must(LiftCheck(riser15, c.RemedyQ[0].Val)).Ratio, 1, 1e-12)
	fast := riser15
	fast.Bore = .015
	if c := must(LiftCheck(fast, 100)); !strings.Contains(c.Validity, "wider pipe") {
		t.Error(c.Validity)
	}
	for field, bad := range map[string]func(*Riser){
		"flow": func(r *Riser) { r.Flow = 0 }, "bore": func(r *Riser) { r.Bore = math.NaN() }, "c": func(r *Riser) { r.C = 0 },
		"roughness": func(r *Riser) { r.Roughness = .01 }, "static": func(r *Riser) { r.Static = -1 }, "minor": func(r *Riser) { r.Minor = -1 },
		"length": func(r *Riser) { r.Length = math.Inf(1) },
	} {
		r := riser15
		bad(&r)
		_, err := Lift(r)
		refused(t, err, field)
	}
}

func TestSupplyCheck(t *testing.T) {
	in := SupplyIn{Head: 3.74, Rate: 40 * lpm, Inflow: 8 * lpm, Efficiency: .3, Days: 3, Depth: .5, Line: .85, SunHours: 2.5, Derate: .75, Battery: 1200, Panels: 400}
	c := must(SupplyCheck(in))
	wellFormed(t, c)
	near(t, "battery governs", c.Ratio, 2.3, .005)
	in.Battery = c.RemedyQ[0].Val
	near(t, "with the remedy", must(SupplyCheck(in)).Ratio, 1, 1e-9)
	in.Panels = 100
	c = must(SupplyCheck(in))
	wellFormed(t, c)
	near(t, "panels govern", c.Ratio, 2.46, .005)
	in.Battery = 0
	c = must(SupplyCheck(in))
	if !math.IsInf(c.Ratio, 1) || c.Verdict() != check.Beyond {
		t.Error("no battery")
	}
	in.Inflow = 50 * lpm
	_, err := SupplyCheck(in)
	refused(t, err, "inflow")
	in.Inflow, in.Efficiency = 8*lpm, 0
	_, err = FindSupply(in)
	refused(t, err, "efficiency")
	in.Efficiency, in.Inflow = .3, 0
	if s := must(FindSupply(in)); s.Day != 0 || !math.IsInf(s.Autonomy, 1) {
		t.Error("without inflow the battery lasts")
	}
}

// pad16 is the rock pad of WT-16.
var pad16 = RiseIn{Inflow: 8 * lpm, Layers: []Store{{.30, 7.258 * 3.638, .38}}}

// WT-16 (derived).
func TestPumpStops(t *testing.T) {
	t.Run("WT-16", func(t *testing.T) {
		near(t, "area", pad16.Layers[0].Area, 26.40, .001)
		near(t, "rise, mm/h", must(pad16.Speed())*3.6e6, 47.8, .01)
		near(t, "full, h", must(pad16.Seconds(.30))/3600, 6.27, .01)
		tight := RiseIn{Inflow: 8 * lpm, Layers: []Store{{.30, 26.40, .26}}}
		near(t, "rise, mm/h, n 0.26", must(tight.Speed())*3.6e6, 69.9, .01)
		near(t, "full, h, n 0.26", must(tight.Seconds(.30))/3600, 4.29, .01)
		falls := pad16
		falls.Head = 1.5
		near(t, "0.30 m against H0, h", must(falls.Seconds(.30))/3600, 7.0, .01)
		near(t, "tau, h", .38*26.40*1.5/(8*lpm)/3600, 31.4, .01)
		const area, weight = 6.058 * 2.438, 2.3 * 9.81
		near(t, "h crit", must(FloatLevel(weight, area, .6, 18, 2.591, 1)), 1.257, .01)
		near(t, "h crit at 1.2", must(FloatLevel(weight, area, .6, 18, 2.591, 1.2)), 1.047, .01)
		near(t, "without cover", must(FloatLevel(weight, area, 0, 0, 2.591, 1)), .156, .01)
		// the check of flotation finds the same level
		s, err := ground.FlotationIn{Length: 6.058, Width: 2.438, Height: 2.591, Tare: weight, Cover: .6, Gamma: 18, GammaSat: 20}.WaterFor(1.2)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "by the check of flotation", s.Value, must(FloatLevel(weight, area, .6, 18, 2.591, 1.2)), 1e-6)
	})
}

// stepped fills the layers in small steps of time.
func stepped(in RiseIn, seconds float64) float64 {
	z, dt := 0.0, seconds/200000
	for range 200000 {
		q := in.Inflow
		if in.Head > 0 {
			q *= math.Max(0, 1-z/in.Head)
		}
		for _, l := range in.Layers {
			if z < l.Top {
				z += q * dt / (l.Area * l.Drainable)
				break
			}
		}
	}
	return z
}

// Level and Seconds turn each other back, agree with small steps of time, and
// what has flowed in is what the layers hold.
func TestRise(t *testing.T) {
	in := RiseIn{Inflow: 8 * lpm, Head: 1.4, Layers: []Store{{.3, 26.4, .38}, {1.2, 9, .3}, {2, 9, .1}}}
	for _, hours := range []float64{2, 8, 15, 30} {
		z, full, err := in.Level(hours * 3600)
		if err != nil || full {
			t.Fatal(z, full, err)
		}
		near(t, "stepped", z, stepped(in, hours*3600), 1e-4)
		near(t, "turned back", must(in.Seconds(z)), hours*3600, 1e-9)
	}
	in.Head = 0
	z, _, _ := in.Level(9 * 3600)
	held := .3*26.4*.38 + (z-.3)*9*.3
	near(t, "mass", held, 8*lpm*9*3600, 1e-9)
	if z, full, _ := in.Level(1e8); z != 2 || !full {
		t.Error("full")
	}
	in.Head = 1.4
	if s := must(in.Seconds(1.4)); !math.IsInf(s, 1) {
		t.Error("the water never reaches its own head")
	}
	in.Inflow = 0
	if s := must(in.Seconds(.1)); !math.IsInf(s, 1) {
		t.Error("nothing flows")
	}
	if z, full, err := in.Level(1e6); z > 1e-9 || full || err != nil {
		t.Error("nothing rises")
	}
	r := rand.New(rand.NewPCG(4, 4))
	for range 200 {
		in := RiseIn{Inflow: 1e-4 * (.1 + r.Float64()), Head: 3 * r.Float64(), Layers: []Store{{.2 + r.Float64(), 20, .2 + .2*r.Float64()}, {3, 10, .3}}}
		last := -1.0
		for i := range 30 {
			s := must(in.Seconds(.1 * float64(i)))
			if s <= last && !math.IsInf(s, 1) {
				t.Fatalf("time falls: %+v", in)
			}
			last = s
			more := in
			more.Inflow *= 1.1
			if m := must(more.Seconds(.1 * float64(i))); m > s {
				t.Fatal("more inflow takes longer")
			}
		}
	}
}

func TestStopCheck(t *testing.T) {
	in := StopIn{RiseIn: RiseIn{Inflow: 8 * lpm, Layers: []Store{{.30, 26.4, .38}, {1.5, 10, .3}}}, Floor: .3, Float: 1.047, HasFloat: true, Reaction: 24}
	c := must(StopCheck(in))
	wellFormed(t, c)
	near(t, "ratio", c.Ratio, 24/6.27, .01)
	near(t, "hours to floor", c.RemedyQ[0].Val, 6.27, .01)
	in.Reaction = c.RemedyQ[0].Val
	near(t, "just in time", must(StopCheck(in)).Ratio, 1, 1e-9)
	in.Head = .25
	c = must(StopCheck(in))
	wellFormed(t, c)
	if c.Ratio != 0 || c.Verdict() != check.Within {
		t.Error("the water does not reach the floor")
	}
	in.Floor = 2
	_, err := StopCheck(in)
	refused(t, err, "floor.level")
	in.Floor, in.Float = .3, 2
	_, err = StopCheck(in)
	refused(t, err, "float.level")
	in.Reaction = 0
	_, err = StopCheck(in)
	refused(t, err, "reaction")
	in.Layers = []Store{{.3, 10, .3}, {.3, 10, .3}}
	_, err = StopCheck(in)
	refused(t, err, "layers[1].top")
	if _, err := (RiseIn{Inflow: 1e-4}).Seconds(0); err == nil {
		t.Error("no layers")
	}
	_, err = FloatLevel(1000, 15, 0, 0, 2.6, 1)
	refused(t, err, "level")
	_, err = FloatLevel(-1, 15, 0, 0, 2.6, 1)
	refused(t, err, "weight")
}

// WT-17 (derived; Sichardt verified, Dupuit memory).
func TestCutInflow(t *testing.T) {
	in := CutIn{H: 3, Low: .5, K: 1e-5, Length: 12, Reach: SichardtReach}
	t.Run("WT-17", func(t *testing.T) {
		f := must(CutInflow(in))
		near(t, "L", f.Reach, 23.7, .005)
		near(t, "q'", f.PerMetre, 1.845e-6, .005)
		near(t, "q', L/min per m", f.PerMetre/lpm, .1107, .005)
		near(t, "12 m", f.Steady/lpm, 1.33, .005)
		near(t, "first days", f.First/lpm, 1.73, .005)
		near(t, "identity", f.PerMetre, math.Sqrt(1e-5)*3.5/6000, 1e-9)
		short := in
		short.Reach = TrenchReach
		near(t, "reach 2000", must(CutInflow(short)).PerMetre/lpm, .166, .005)
	})
	f := must(CutInflow(in))
	// √10 each way for the long face, as the reach grows with √K
	near(t, "high", f.High, f.First*math.Sqrt(10), 1e-9)
	near(t, "low", f.Low, f.First/math.Sqrt(10), 1e-9)
	c := must(CutCheck(in, false, 4*lpm))
	wellFormed(t, c)
	near(t, "ratio", c.Ratio, f.High/lpm/4, 1e-9)
	c = must(CutCheck(in, true, 4*lpm))
	wellFormed(t, c)
	near(t, "ratio, measured", c.Ratio, f.First/lpm/4, 1e-9)
	near(t, "with the remedy", must(CutCheck(in, false, must(CutCheck(in, false, lpm)).RemedyQ[0].Val)).Ratio, 1, 1e-9)
	for field, bad := range map[string]func(*CutIn){
		"permeability": func(c *CutIn) { c.K = 0 }, "h_far": func(c *CutIn) { c.H = -1 }, "h_cut": func(c *CutIn) { c.Low = 2.8 },
		"length": func(c *CutIn) { c.Length = math.NaN() }, "reach": func(c *CutIn) { c.Reach = 1 },
	} {
		b := in
		bad(&b)
		_, err := CutInflow(b)
		refused(t, err, field)
	}
	_, err := CutCheck(in, true, 0)
	refused(t, err, "pump")
}

// A pit as wide as it is long: a well of the same area; more soil to draw
// from, more flow; a very large one tends to the long face.
func TestPitInflow(t *testing.T) {
	in := CutIn{H: 3, Low: .5, K: 1e-5, Reach: SichardtReach}
	f := must(PitInflow(in, 7, 4))
	re := math.Sqrt(28 / math.Pi)
	near(t, "by the formula", f.Steady, math.Pi*1e-5*(9-.25)/math.Log((f.Reach+re)/re), 1e-9)
	if f.Low >= f.First || f.First >= f.High || must(PitInflow(in, 9, 4)).Steady <= f.Steady {
		t.Errorf("range %+v", f)
	}
	big := in
	big.K = 1e-9 // reach of 0.24 m round a pit of 100 m
	r := 100 / math.Sqrt(math.Pi)
	near(t, "large pit", must(PitInflow(big, 100, 100)).Steady, must(CutInflow(CutIn{3, .5, 1e-9, 2 * math.Pi * r, SichardtReach})).Steady, .005)
	_, err := PitInflow(in, 0, 1)
	refused(t, err, "a")
}
