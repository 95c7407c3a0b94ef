package assess

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// works is the store put right with everything given that its drains are
// checked by, and a stage with the drains blocked.
func works(t testing.TB) *model.Project {
	p := soaked(t)
	d := &p.Defence.Drain
	d.Pipe, d.Washed = "smooth-holes-100", true
	d.UphillAway, d.UphillDepth = 1, 6
	r := &p.Defence.Runoff
	*r = model.Runoff{Area: 2000, Cover: "lawn-heavy-steep", Curve: "pasture-fair", Group: "C", Length: 60, Slope: 0.3, Years: 10, Rain24: 60,
		Bottom: 0.3, SwaleSide: 3, SwaleFall: 0.02, SwaleRoom: 0.3, Lining: "bluegrass"}
	p.Defence.Layers[1].Row = "sheet"
	for i := range p.Site.Soils {
		s := &p.Site.Soils[i]
		switch s.ID {
		case "loam":
			s.D15, s.D50, s.D85 = 0.004, 0.03, 0.12
		case "drift":
			s.D15, s.D50, s.D85 = 0.05, 0.8, 9
		case "clay":
			s.D15, s.D50, s.D85 = 0.001, 0.01, 0.06
		}
	}
	st := p.Stages[len(p.Stages)-2]
	st.ID, st.Name, st.Blocked = "blocked", "Drain blocked", true
	p.Stages = append(p.Stages, st)
	return p
}

// term is the value of a symbol in a working: a result, or a term.
func term(t *testing.T, c *check.Check, sym string) float64 {
	t.Helper()
	for _, l := range c.Working {
		for _, q := range append([]quantity.Q{l.Result}, l.Terms...) {
			if q.Sym == sym {
				return q.Val
			}
		}
	}
	t.Fatalf("%s: no %s in %+v", c.ID, sym, c.Working)
	return 0
}

func must(t *testing.T, r *Result, id, part string) *check.Check {
	t.Helper()
	c := find(r, id, part)
	if c == nil {
		t.Fatalf("no check %s of %s", id, part)
	}
	if c.Missing != "" {
		t.Fatalf("%s of %s: %s", id, part, c.Missing)
	}
	return c
}

// The drain carries what the long and the cross sections bring to it, by the
// lengths of its runs, and its checks are those of package drain.
func TestDrainChecksByTheComputedFlow(t *testing.T) {
	p := works(t)
	r := run(t, p)
	w, err := r.Water.At(p.Stages[10])
	if err != nil {
		t.Fatal(err)
	}
	lb, ls := 2.438+0.45, 6.058+0.225
	side := 0.0
	for i, c := range w.Cross {
		weight := []float64{0.25, 0.5, 0.25}[i]
		for _, q := range c.Sums.Drains {
			side += weight * q
		}
	}
	flow := w.Long.Sums.Drains[0]*lb + side*ls
	c := must(t, r, "drain-pipe", "drain")
	if c.Stage != "high" || math.Abs(c.Demand.Val-flow) > 1e-3*flow {
		t.Errorf("flow %.4g at %q, want %.4g at high", c.Demand.Val, c.Stage, flow)
	}
	row, _ := tables.Default().Pipe("smooth-holes-100")
	in := drain.PipeIn{Pipe: drain.Pipe{Bore: 0.1, N: row.N, Fall: 0.01}, Flow: flow, Fines: true}
	// what keeps the pipe clean is half of what comes in the wet season, as both
	// runs take alike
	wet, err := r.Water.At(p.Stages[9])
	if err != nil || p.Stages[9].Water != model.WaterSeasonal {
		t.Fatal(p.Stages[9], err)
	}
	usual := wet.Long.Sums.Drains[0] * lb
	for i, c := range wet.Cross {
		for _, q := range c.Sums.Drains {
			usual += []float64{0.25, 0.5, 0.25}[i] * q * ls
		}
	}
	if got := term(t, must(t, r, "drain-velocity", "drain"), "Qo"); math.Abs(got-usual/2) > 1e-3*usual {
		t.Errorf("ordinary flow %.4g, want %.4g", got, usual/2)
	}
	clean := func(in drain.PipeIn) (check.Check, error) { return drain.VelocityCheck(in, usual/2) }
	for id, f := range map[string]func(drain.PipeIn) (check.Check, error){"drain-pipe": drain.PipeCheck, "drain-velocity": clean, "drain-fall": drain.FallCheck} {
		want, err := f(in)
		if got := must(t, r, id, "drain"); err != nil || math.Abs(got.Ratio-want.Ratio) > 1e-3*want.Ratio {
			t.Errorf("%s: %.4f, want %.4f (%v)", id, got.Ratio, want.Ratio, err)
		}
	}
	if got, want := must(t, r, "drain-openings", "drain").Ratio, 2/(21.7/row.OpeningWidth); math.Abs(got-want) > 1e-9 {
		t.Errorf("openings %.3f, want %.3f", got, want)
	}
	c = must(t, r, "drain-layout", "drain")
	// 12 in beyond the footing (IRC R405.1, second-hand) of the 0.45 m of stone;
	// the middle behind the box and two back corners
	text := ""
	for _, l := range c.Working {
		text += l.Text + "; "
	}
	if n := term(t, c, "N"); n != 3 || !strings.Contains(text, "Stone beyond") || !strings.Contains(text, "may freeze") {
		t.Errorf("%g clean-outs; %s", n, text)
	}
	if c := find(r, "drain-rock", "drain"); c != nil {
		t.Errorf("the rock is to carry what the pipe does: %+v", c)
	}
	p = p.Clone()
	p.Defence.Drain.Pipe = ""
	must(t, run(t, p), "drain-rock", "drain")
}

// A permeability that was not measured brings ten times the water.
func TestUnmeasuredHillBringsTenTimesTheWater(t *testing.T) {
	p := works(t)
	one := must(t, run(t, p), "drain-pipe", "drain").Demand.Val
	for i := range p.Site.Soils {
		if id := p.Site.Soils[i].ID; id == "loam" || id == "drift" {
			p.Site.Soils[i].Set = nil
		}
	}
	if ten := must(t, run(t, p), "drain-pipe", "drain").Demand.Val; math.Abs(ten-10*one) > 1e-6*ten {
		t.Errorf("%.4g, want ten times %.4g", ten, one)
	}
}

// The stone is held against every soil that it touches: by hand, the clay of
// the cap is held worst, 6.2 mm against 5 × 0.06 = 0.30 and 40 × 0.001 = 0.04 mm.
func TestFilterAgainstTheWorstSoil(t *testing.T) {
	p := works(t)
	c := must(t, run(t, p), "filter-classic", "filter")
	if want := 6.2 / 0.04; math.Abs(c.Ratio-want) > 1e-6*want || !strings.Contains(c.Title, "Lean clay") {
		t.Errorf("%s: %.1f, want %.1f", c.Title, c.Ratio, want)
	}
	for i := range p.Site.Soils {
		if s := &p.Site.Soils[i]; s.ID == "drift" {
			s.D15 = 0
		}
	}
	r := run(t, p)
	if c := find(r, "filter-classic", "filter"); c == nil || c.Verdict() != check.Beyond {
		t.Error("a soil without sizes hides one beyond limits")
	}
}

// The outlet leaves a front corner as deep as the drain has fallen until there,
// and comes out where package drain finds daylight.
func TestOutletOnTheDrawnHill(t *testing.T) {
	p := works(t)
	r := run(t, p)
	c := must(t, r, "drain-outlet", "drain")
	start := section.Formation(p) - 0.15 - 0.01*((2.438+0.45)/2+6.058+0.225)
	var finish = r.Views[10].Finish
	x := p.Box.Front - 0.05
	o, err := drain.FindOutlet(drain.OutletIn{Ground: finish.ClipX(finish[0][0], x), Start: [2]float64{x, start}, Fall: 0.01, Frost: 0.9})
	if err != nil {
		t.Fatal(err)
	}
	if o.Daylight {
		if got := term(t, c, "L"); math.Abs(got-o.Run) > 1e-6 {
			t.Errorf("run of %.3f m, want %.3f", got, o.Run)
		}
	}
	if (c.Ratio <= 1) != o.Daylight {
		t.Errorf("ratio %.3f, daylight %v", c.Ratio, o.Daylight)
	}
}

// The sump is checked by what is given, and each of its checks says what it
// lacks. Its head is told, not judged: the curve of the pump is not in the
// project.
func TestSump(t *testing.T) {
	p := works(t)
	p.Defence.Drain.Outlet = "sump"
	r := run(t, p)
	for _, id := range []string{"sump", "pump-head", "pump-stops"} {
		if c := find(r, id, "sump"); c == nil || !strings.Contains(c.Missing, "not given") {
			t.Errorf("%s: %+v", id, c)
		}
	}
	if find(r, "drain-outlet", "drain") != nil {
		t.Error("a drain to a sump has an outlet by gravity")
	}
	p.Defence.Drain.SumpBore = 0.6
	p.Defence.Sump = model.Sump{Live: 0.4, Rate: 40, Lift: 3.5, Riser: "pvc-1.5", RiserLen: 25, Fittings: 4, Efficiency: 0.3, Battery: 3000, Panels: 300, SunHours: 2.5, Days: 3, Reaction: 12}
	r = run(t, p)
	flow := must(t, r, "sump", "sump")
	if want := 600 / (4 * math.Pi * 0.09 * 0.4 / (40.0 / 60000)); math.Abs(flow.Ratio-want) > 1e-6*want {
		t.Errorf("starts %.3f, want %.3f", flow.Ratio, want)
	}
	// WT-15 (derived) is the same pump and pipe but for an aged C: 3.74 m within 2 %
	if c := find(r, "pump-head", "sump"); c == nil || c.Missing == "" || math.Abs(term(t, c, "H")-3.74) > 0.02*3.74 {
		t.Errorf("head: %+v", c)
	}
	must(t, r, "pump-supply", "sump")
	c := must(t, r, "pump-stops", "sump")
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	layers, invert := j.store()
	s, err := (drain.RiseIn{Inflow: term(t, flow, "Qd"), Layers: layers}).Seconds(p.Box.Level - invert)
	if err != nil {
		t.Fatal(err)
	}
	if got := term(t, c, "tf"); math.Abs(got-s/3600) > 1e-6*got {
		t.Errorf("%.2f h until the floor, want %.2f", got, s/3600)
	}
}

// The swale carries the rational flow of the design rain: 0.35 · 40 mm/h ·
// 2000 m² = 7.78 l/s.
func TestSwale(t *testing.T) {
	c := must(t, run(t, works(t)), "swale", "swale")
	if q, want := term(t, c, "Q"), 0.35*0.04/3600*2000; math.Abs(q-want) > 1e-9 {
		t.Errorf("flow %.5g, want %.5g", q, want)
	}
	// the deeper of the two is held against the depth, long grass, with 0.10 m over
	// it (common practice, no source)
	if y, long, got := term(t, c, "y"), term(t, c, "yl"), term(t, c, "yf"); !(long > 1.5*y) || math.Abs(got-long-0.1) > 1e-12 {
		t.Errorf("depth %.3f mown, %.3f in long grass, %.3f asked for", y, long, got)
	}
	for _, l := range c.Working {
		if strings.Contains(l.Formula, "tc,") && l.Formula != "t = max(tc, 10 min)" || l.Formula == "t = tc" {
			t.Errorf("the length of the storm: %s", l.Formula)
		}
	}
	p := works(t)
	p.Defence.Runoff.Lining = ""
	if c := find(run(t, p), "swale", "swale"); c == nil || !strings.Contains(c.Missing, "lining") {
		t.Errorf("%+v", c)
	}
}

// The membrane is held against the water of the blocked stage, and damp-proofing
// against none.
func TestMembraneUnderTheBlockedHead(t *testing.T) {
	p := works(t)
	r := run(t, p)
	c := must(t, r, "membrane", "membrane")
	w, err := r.Water.At(p.Stages[len(p.Stages)-1])
	if err != nil {
		t.Fatal(err)
	}
	level := math.Max(w.Long.At(section.Back).Level, w.Long.At(section.Front).Level)
	for _, s := range w.Cross {
		level = math.Max(level, math.Max(s.At(section.Left).Level, s.At(section.Right).Level))
	}
	if got, want := term(t, c, "h"), level-p.Box.Level; c.Stage != "blocked" || !(want > 0.3) || math.Abs(got-want) > 1e-9 {
		t.Errorf("head %.3f at %s, want %.3f", got, c.Stage, want)
	}
	if a := strings.Join(c.Assumptions, "; "); !strings.Contains(a, "high water") || strings.Contains(a, "may be larger") {
		t.Errorf("which head: %s", a)
	}
	p.Defence.Layers[1].Row = "damp-proofing"
	if c := find(run(t, p), "membrane", "membrane"); c == nil || c.Verdict() != check.Beyond {
		t.Errorf("damp-proofing under water: %+v", c)
	}
	p.Stages = p.Stages[:len(p.Stages)-1]
	if c := find(run(t, p), "membrane", "membrane"); c == nil || !strings.Contains(c.Missing, "blocked") {
		t.Errorf("without a blocked stage: %+v", c)
	}
}

// What comes into the cut is told, and held against the pump where one is given.
func TestInflowToTheCut(t *testing.T) {
	p := works(t)
	p.Cut.Pump = 0
	r := run(t, p)
	c := find(r, "cut-inflow", "cut")
	if c == nil || c.Stage != "cut" || !strings.Contains(c.Missing, "no pump") || !(term(t, c, "Q") > 0) {
		t.Fatalf("%+v", c)
	}
	for _, pump := range []struct{ dig, sump, counts float64 }{{0, 20, 20}, {3, 20, 3}, {3, 0, 3}} {
		p.Cut.Pump, p.Defence.Sump.Rate = pump.dig, pump.sump
		c = must(t, run(t, p), "cut-inflow", "cut")
		// TM 5-818-5 4-1f (verified): 30 % above the steady flow in the first days
		if want := 1.3 * term(t, c, "Q") / (pump.counts / 60000); math.Abs(c.Ratio-want) > 1e-9 {
			t.Errorf("%+v: ratio %.3f, want %.3f", pump, c.Ratio, want)
		}
	}
	// the corners count on top of both sections, as the ground goes deeper than a
	// well is worked for, and the rain on the cut stands beside it: 40 mm/h on more than its floor
	sections, q := term(t, c, "Qs"), term(t, c, "Q")
	if math.Abs(q-water.Corners*sections) > 1e-12 || !(sections > 0) {
		t.Errorf("%g of %g by the sections", q, sections)
	}
	floor := (2.438 + 2*p.Cut.WorkSide) * (6.058 + p.Cut.WorkBack + p.Cut.Apron)
	if a, rain := term(t, c, "A"), term(t, c, "Qr"); !(a > floor) || math.Abs(rain-0.04/3600*a) > 1e-12 {
		t.Errorf("rain of %g m3/s on %g m2, the floor has %g m2", rain, a, floor)
	}
	for _, a := range c.Assumptions {
		if strings.Contains(a, "upper figure") {
			t.Errorf("the corners: %s", a)
		}
	}
	dry := p.Clone()
	dry.Site.Climate.DesignRain = 0
	if a := strings.Join(must(t, run(t, dry), "cut-inflow", "cut").Assumptions, "; "); !strings.Contains(a, "no design rain") {
		t.Errorf("without a design rain: %s", a)
	}
	result := func(sym string) float64 {
		for _, l := range c.Working {
			if l.Result.Sym == sym {
				return l.Result.Val
			}
		}
		t.Fatalf("no %s in the working", sym)
		return 0
	}
	if lo, hi, first := result("Qlow"), result("Qhigh"), result("Qf"); math.Abs(hi/lo-100) > 1e-9 || math.Abs(first/lo-10) > 1e-9 {
		t.Errorf("from %g to %g round %g, want a range of ten times either way", lo, hi, first)
	}
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = slices.DeleteFunc(p.Site.Soils[i].Set, func(s string) bool { return s == "kx" && p.Site.Soils[i].ID == "drift" })
	}
	if c = must(t, run(t, p), "cut-inflow", "cut"); math.Abs(c.Demand.Val-result("Qhigh")) > 1e-12 {
		t.Errorf("unmeasured: %g counts, want the upper end %g", c.Demand.Val, result("Qhigh"))
	}
}

// The interceptor is checked by its own flow, and takes some of that of the
// drain: water at the drain never rises for it.
func TestInterceptorTakesFromTheDrain(t *testing.T) {
	p := works(t)
	with := run(t, p)
	c := must(t, with, "interceptor-pipe", "curtain drain")
	if !(c.Demand.Val > 0) || !strings.Contains(strings.Join(c.Assumptions, " "), "nothing to compare") {
		t.Errorf("%+v", c)
	}
	p.Defence.Drain.Uphill = false
	without := run(t, p)
	if a, b := must(t, with, "drain-pipe", "drain").Demand.Val, must(t, without, "drain-pipe", "drain").Demand.Val; a > b*(1+1e-3) {
		t.Errorf("with the interceptor the drain takes %.4g, without %.4g", a, b)
	}
}

// Water never rises anywhere at the box when a drain is added.
func TestDrainsNeverRaiseTheWater(t *testing.T) {
	p := works(t)
	level := func(drained, uphill bool) float64 {
		q := p.Clone()
		q.Defence.Drain.Present, q.Defence.Drain.Uphill = drained, uphill
		r := run(t, q)
		w, err := r.Water.At(q.Stages[10])
		if err != nil {
			t.Fatal(err)
		}
		return w.Highest()
	}
	none, uphill, round, both := level(false, false), level(false, true), level(true, false), level(true, true)
	const tol = 0.01 // m: meshes differ
	if uphill > none+tol || round > none+tol || both > uphill+tol || both > round+tol {
		t.Errorf("no drain %.3f, uphill %.3f, round the box %.3f, both %.3f", none, uphill, round, both)
	}
}

// Trials come to no check of the water works, and the score of a result counts
// none, so that advice and result agree.
func TestWaterWorksAreNotScored(t *testing.T) {
	p := works(t)
	r := run(t, p)
	tr, err := try(t.Context(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	if got, want := tr.score(), ScoreOf(r); !sameScore(got, want) {
		t.Errorf("trial %+v, result %+v", got, want)
	}
}

// Water that is not computed leaves the checks that need none of it, and says
// which could not be made and why.
func TestDrainsOfGivenWater(t *testing.T) {
	p := works(t)
	p.Site.Water.Computed = false
	computed := run(t, works(t))
	r := run(t, p)
	for _, c := range []slot{{"drain-fall", "drain"}, {"drain-layout", "drain"}, {"drain-openings", "drain"}, {"drain-outlet", "drain"}, {"filter-classic", "filter"}, {"swale", "swale"}} {
		got, want := must(t, r, c.id, c.part), must(t, computed, c.id, c.part)
		if math.Abs(got.Ratio-want.Ratio) > 1e-9 || got.Stage == "" {
			t.Errorf("%s: %.4f at %q, with computed water %.4f", c.id, got.Ratio, got.Stage, want.Ratio)
		}
	}
	// still water at the level given stands against the membrane, drains or not
	if c := must(t, r, "membrane", "membrane"); math.Abs(term(t, c, "h")-(101.6-p.Box.Level)) > 1e-9 || !strings.Contains(strings.Join(c.Assumptions, " "), "level given") {
		t.Errorf("%+v", c)
	}
	for _, c := range []slot{{"drain-pipe", "drain"}, {"drain-velocity", "drain"}, {"interceptor-pipe", "curtain drain"}, {"cut-inflow", "cut"}} {
		if got := find(r, c.id, c.part); got == nil || got.Verdict() != check.NotChecked || !strings.Contains(got.Missing, "not computed") {
			t.Errorf("%s: %+v", c.id, got)
		}
	}
	p.Defence.Drain.Outlet = "sump"
	p.Defence.Sump = model.Sump{Live: 0.4, Rate: 40, Lift: 3.5, Riser: "pvc-1.5", RiserLen: 25, Fittings: 4, Efficiency: 0.3, Battery: 3000, Panels: 300, SunHours: 2.5, Days: 3, Reaction: 12}
	r = run(t, p)
	for _, id := range []string{"sump", "pump-supply", "pump-stops"} {
		if got := find(r, id, "sump"); got == nil || !strings.Contains(got.Missing, "not computed") {
			t.Errorf("%s: %+v", id, got)
		}
	}
	if c := find(r, "pump-head", "sump"); c == nil || math.Abs(term(t, c, "H")-3.74) > 0.02*3.74 { // WT-15 (derived)
		t.Errorf("head: %+v", c)
	}
	p.Defence.Drain.Pipe = ""
	if c := find(run(t, p), "drain-rock", "drain"); c == nil || !strings.Contains(c.Missing, "not computed") {
		t.Errorf("rock: %+v", c)
	}
}

// A cloth is not held against the default row for the soils that its source
// leaves out, and a dispersive soil not by ratios that are not for it.
func TestClothOnSpecialSoil(t *testing.T) {
	sieves := []model.Sieve{{Size: 0.002, Passes: 0.05}, {Size: 0.02, Passes: 0.3}, {Size: 0.1, Passes: 0.6}, {Size: 1, Passes: 0.9}, {Size: 4, Passes: 1}}
	gap := []model.Sieve{{Size: 0.002, Passes: 0.05}, {Size: 0.1, Passes: 0.5}, {Size: 1, Passes: 0.52}, {Size: 4, Passes: 1}}
	for _, c := range []struct {
		name   string
		change func(*model.Soil)
		want   string
	}{
		{"ordinary", func(*model.Soil) {}, ""},
		{"silt", func(s *model.Soil) { s.USCS = "ML" }, "silt without cohesion"},
		{"silt with cohesion", func(s *model.Soil) { s.USCS, s.Cohesion = "ML", 2 }, ""},
		{"laminated", func(s *model.Soil) { s.Laminated = true }, "laminated"},
		{"dispersive", func(s *model.Soil) { s.Dispersive = true }, "dispersive"},
		{"gap", func(s *model.Soil) { s.Sieves = gap }, "gap in its grading"},
	} {
		so := model.Soil{ID: "s", Name: "Soil", USCS: "SM", Kx: 1e-6, Sieves: sieves}
		c.change(&so)
		p := &model.Project{}
		p.Defence.Drain.Cloth = model.Cloth{AOS: 0.2, Permittivity: 1, K: 1e-3}
		d := &drainage{job: &job{p: p, t: tables.Default()}, worst: newWorst()}
		d.cloth(so)
		got := d.worst.checks()[0]
		if (got.Verdict() == check.NotChecked) != (c.want != "") || !strings.Contains(got.Missing, c.want) {
			t.Errorf("%s: %s, %q", c.name, got.Verdict(), got.Missing)
		}
		d.classic(so, model.Soil{D15: 1, D50: 4, D85: 9})
		got = d.worst.checks()[1]
		if (got.Verdict() == check.NotChecked) != so.Dispersive {
			t.Errorf("%s by classic ratios: %s, %q", c.name, got.Verdict(), got.Missing)
		}
	}
}

// Drains without water in any stage are told as not checked.
func TestDrainsWithoutWaterAreTold(t *testing.T) {
	p := works(t)
	for i := range p.Stages {
		p.Stages[i].Water = ""
	}
	if c := find(run(t, p), "drain-pipe", "drain"); c == nil || !strings.Contains(c.Missing, "no stage has water") {
		t.Errorf("%+v", c)
	}
}
