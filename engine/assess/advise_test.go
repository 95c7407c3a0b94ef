package assess

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// advice is that for a project.
func advice(t testing.TB, p *model.Project) []Remedy {
	t.Helper()
	ms, err := Advise(context.Background(), run(t, p), tables.Default(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return ms
}

// adviceForDemo is that for the store as first drawn, worked out once.
var adviceForDemo = sync.OnceValues(func() ([]Remedy, error) {
	doc, _, err := model.ReadFile("../../testdata/potato-store-as-drawn.hillset")
	if err != nil {
		return nil, err
	}
	give(doc.Project, "as-drawn")
	r, err := Run(context.Background(), doc.Project, tables.Default())
	if err != nil {
		return nil, err
	}
	return Advise(context.Background(), r, tables.Default(), nil)
})

func demoAdvice(t testing.TB) []Remedy {
	t.Helper()
	ms, err := adviceForDemo()
	if err != nil || len(ms) == 0 {
		t.Fatal(err, len(ms))
	}
	return ms
}

// sameScore compares scores; the engine writes a check out by another road than
// it rates it.
func sameScore(a, b Score) bool {
	near := func(x, y float64) bool { return x == y || math.Abs(x-y) <= 1e-9*math.Max(1, math.Abs(x)) }
	return a.Beyond == b.Beyond && a.Missing == b.Missing && (a.Blocked == "") == (b.Blocked == "") && near(a.Worst, b.Worst) && near(a.Excess, b.Excess)
}

// after runs a project anew with a change.
func after(t testing.TB, p *model.Project, apply func(*model.Project)) (*model.Project, *Result) {
	t.Helper()
	q := p.Clone()
	apply(q)
	return q, run(t, q)
}

// TestAdviceIsWhatAFreshRunSays: what a remedy promises is what a run of the
// project says once it is applied, and the project as drawn is left alone.
func TestAdviceIsWhatAFreshRunSays(t *testing.T) {
	p := demo(t, "as-drawn")
	file, _ := json.Marshal(p)
	before := ScoreOf(run(t, p))
	for _, m := range demoAdvice(t) {
		q, r := after(t, p, m.Apply)
		if got := ScoreOf(r); !sameScore(got, m.After) || !sameScore(before, m.Before) {
			t.Errorf("%s: promised %+v, got %+v", m.ID, m.After, got)
		}
		want := takeoff(t, q).less(takeoff(t, p))
		if len(want.Items) != len(m.Adds.Items) || math.Abs(want.Mass-m.Adds.Mass) > 1e-9 {
			t.Errorf("%s: adds %+v, take-offs differ by %+v", m.ID, m.Adds, want)
		}
		again, _ := after(t, p, m.Apply)
		if !reflect.DeepEqual(q, again) {
			t.Errorf("%s: applied twice it makes two projects", m.ID)
		}
	}
	if now, _ := json.Marshal(p); string(now) != string(file) {
		t.Error("the project as drawn was changed")
	}
}

// TestAdviceTellsTheTruth: every remedy helps a check that is beyond limits or
// not made, what it breaks is named, its words name values that are there, and
// nothing that only nature decides is changed.
func TestAdviceTellsTheTruth(t *testing.T) {
	p := demo(t, "as-drawn")
	base := run(t, p)
	for _, m := range demoAdvice(t) {
		q, r := after(t, p, m.Apply)
		for _, id := range m.For {
			if !falls(base, r, id) {
				t.Errorf("%s says that it helps %s, which fell nowhere", m.ID, id)
			}
		}
		for _, c := range r.Checks {
			old := find(base, c.ID, c.Part)
			if c.Worst() > 1 && (old == nil || old.Worst() <= 1) && !slices.Contains(m.Fails, c.ID) {
				t.Errorf("%s breaks %s of %s and does not say so", m.ID, c.ID, c.Part)
			}
		}
		for i := range m.Q {
			if !strings.Contains(m.Text, "{"+string(rune('0'+i%10))) && i < 10 {
				t.Errorf("%s: value %d is not in %q", m.ID, i, m.Text)
			}
		}
		s, w := q.Site, p.Site
		s.Soils = w.Soils
		if !reflect.DeepEqual(s, w) {
			t.Errorf("%s changes the site", m.ID)
		}
		if !slices.EqualFunc(q.Site.Soils[:len(p.Site.Soils)], p.Site.Soils, func(a, b model.Soil) bool { return reflect.DeepEqual(a, b) }) {
			t.Errorf("%s changes a soil", m.ID)
		}
		if !reflect.DeepEqual(q.Stages, p.Stages) || q.Box.SideT != p.Box.SideT || q.Box.SteelKnown != p.Box.SteelKnown {
			t.Errorf("%s changes the stages or the steel of the box", m.ID)
		}
	}
}

// falls tells whether a check that was beyond limits or not made has come down
// at some part.
func falls(before, after *Result, id string) bool {
	for i := range before.Checks {
		c := &before.Checks[i]
		if c.ID != id || c.Stage == "" || c.Worst() <= 1 {
			continue
		}
		now := find(after, id, c.Part)
		if now == nil || now.Worst() <= 1 || now.Worst() < c.Worst() {
			return true
		}
	}
	return false
}

// TestAdviceMendsTheDemo: the first remedy for the store as first drawn brings
// every check within limits, although its design water stays 1.2 m above the
// floor; its steps, one after the other, do what each says; and asking again
// finds nothing left to mend.
func TestAdviceMendsTheDemo(t *testing.T) {
	p := demo(t, "as-drawn")
	top := demoAdvice(t)[0]
	if len(top.Steps) < 2 || len(top.Steps) > mostSteps || !strings.HasPrefix(top.Text, "All of: 1. ") {
		t.Fatalf("%d steps: %s", len(top.Steps), top.Text)
	}
	q := p.Clone()
	for i, s := range top.Steps {
		s.Apply(q)
		if got := ScoreOf(run(t, q)); !sameScore(got, s.After) {
			t.Errorf("step %d, %s: promised %+v, got %+v", i+1, s.Text, s.After, got)
		}
	}
	for _, c := range run(t, q).Checks {
		if ofClimate(c.ID) || ofDrainage(slot{c.ID, c.Part}) { // no trial comes to frost, air and the water works
			continue
		}
		if c.Worst() > 1 || c.Stage != "" && c.Missing != "" {
			t.Errorf("left: %s of %s, %.3f %s", c.ID, c.Part, c.Worst(), c.Missing)
		}
	}
	all, _ := after(t, p, top.Apply)
	if !reflect.DeepEqual(all, q) {
		t.Error("all at once is not the same as one after the other")
	}
	if more := advice(t, q); len(more) != 0 {
		t.Errorf("nothing is beyond limits, and %d remedies are offered", len(more))
	}
}

// TestAdviceStepByStep: from half way on, by the best single change each time,
// every check of the parts of the box comes within limits as well.
func TestAdviceStepByStep(t *testing.T) {
	defer func(all []idea) { ideas = all }(ideas)
	ideas = slices.DeleteFunc(slices.Clone(ideas), func(i idea) bool { return i.aside }) // as it asks many times
	p := demo(t, "as-drawn").Clone()
	for _, s := range demoAdvice(t)[0].Steps[:6] {
		s.Apply(p)
	}
	a := newAdviser(context.Background(), tables.Default(), boxOf(t, p))
	for range mostSteps {
		s := state{p: p}
		var err error
		if s.tr, err = a.try(p); err != nil {
			t.Fatal(err)
		}
		ms, err := a.remedies(&s)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(ms, func(m Remedy) bool { return gain(m.Before, m.After) > 1e-3 })
		if i < 0 {
			break
		}
		t.Logf("%d open, excess %.2f: %s", s.tr.score().open(), s.tr.score().Excess, ms[i].ID)
		q := p.Clone()
		ms[i].Apply(q)
		p = q
	}
	for _, c := range run(t, p).Checks {
		r := rated{slot{c.ID, c.Part}, c.Worst()}
		if r.ofPart() && !ofClimate(c.ID) && c.Worst() > 1 {
			t.Errorf("left: %s of %s, %.3f", c.ID, c.Part, c.Worst())
		}
	}
}

func boxOf(t testing.TB, p *model.Project) tables.Box {
	t.Helper()
	b, ok := tables.Default().Box(p.Box.Type)
	if !ok {
		t.Fatal(p.Box.Type)
	}
	return b
}

// TestAdviceIsTheLeast: the sizes that are offered are the smallest that do: a
// step less of ballast or of a bar fails again.
func TestAdviceIsTheLeast(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Box.Ballast = 0
	m := byID(t, advice(t, p), "ballast")
	kg := m.Q[0].Val * 1000
	q := p.Clone()
	for _, c := range []struct {
		kg   float64
		want bool
	}{{kg, true}, {kg - ballastStep.metric, false}} {
		q.Box.Ballast = c.kg
		tr, err := try(context.Background(), q, tables.Default())
		if err != nil || (len(tr.failing(idsOfBody)) == 0) != c.want {
			t.Errorf("%.0f kg: %v, %v", c.kg, tr.failing(idsOfBody), err)
		}
	}

	p = demo(t, "put-right").Clone()
	r := &p.Strengthening.Ribs
	r.Post, r.RoofBeam, r.FloorTie = "shs60x4", "shs60x4", "shs60x4"
	q = p.Clone()
	byIDPrefix(t, advice(t, p), "frame").Apply(q)
	if tr, _ := try(context.Background(), q, tables.Default()); len(tr.failing(func(c slot) bool { return c.part == "ribs" })) > 0 {
		t.Errorf("the ribs offered fail: %+v", q.Strengthening.Ribs)
	}
	bars := hollowBars(tables.Default())
	i := slices.IndexFunc(bars, func(b tables.Bar) bool { return b.ID == q.Strengthening.Ribs.Post })
	if i < 1 {
		t.Fatalf("bar %q", q.Strengthening.Ribs.Post)
	}
	weaker := bars[i-1].ID
	q.Strengthening.Ribs.Post, q.Strengthening.Ribs.RoofBeam, q.Strengthening.Ribs.FloorTie = weaker, weaker, weaker
	if tr, _ := try(context.Background(), q, tables.Default()); len(tr.failing(func(c slot) bool { return c.part == "ribs" })) == 0 {
		t.Errorf("%s would do as well", weaker)
	}
}

func idsOfBody(c slot) bool { return ofBody(c) && c.id != padBearing }

func byID(t testing.TB, ms []Remedy, id string) Remedy { return byIDPrefix(t, ms, id) }

func byIDPrefix(t testing.TB, ms []Remedy, id string) Remedy {
	t.Helper()
	for _, m := range ms {
		if strings.HasPrefix(m.ID, id) {
			return m
		}
	}
	t.Fatalf("no remedy %s", id)
	return Remedy{}
}

// TestAdviceTriesEveryWay: for a bare box under earth there are ways inside,
// outside and above, each with what it takes, and none of them is offered where
// it stands already.
func TestAdviceTriesEveryWay(t *testing.T) {
	ms := demoAdvice(t)
	for id, key := range map[string]string{"frame": "steel kg", "pinned": "steel kg", "back": "steel kg", "studs": "timber m3", "concrete": "concrete m3",
		"roof-beams": "plywood m2", "roof-slab": "rebar kg", "light-fill": "geofoam m3", "ballast": "ballast t", "ladders": "ladder",
		"batter": "", "cover": "", "backfill-stone": "", "proven": "", "lead": "", "plant": "", "place": ""} {
		m := byIDPrefix(t, ms, id)
		if has := func(it Item) bool { return it.Key == key && it.Quantity > 0 }; key != "" && !slices.ContainsFunc(m.Adds.Items, has) {
			t.Errorf("%s adds %+v, no %s", id, m.Adds.Items, key)
		}
	}
	p := demo(t, "as-drawn").Clone()
	byIDPrefix(t, ms, "roof-beams").Apply(p)
	byIDPrefix(t, ms, "frame").Apply(p)
	a := newAdviser(context.Background(), tables.Default(), boxOf(t, p))
	for name, make := range map[string]func(*adviser, *state, []slot) ([]outcome, error){"roof": byOwnRoof, "pinned": byPinned} {
		if out, err := make(a, &state{p: p}, nil); len(out) > 0 || err != nil {
			t.Errorf("%s: one stands there, and it is offered: %v, %v", name, out, err)
		}
	}
}

// TestAdviceOnBroadside: along the contour the hill presses one long wall, and
// the wales of the long walls are those of the back.
func TestAdviceOnBroadside(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	p.Box.Orientation = model.Broadside
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	m := byIDPrefix(t, advice(t, p), "frame")
	_, after := after(t, p, m.Apply)
	if c := find(after, "side-sheet", "back wall"); c == nil || c.Worst() > 1 {
		t.Errorf("%+v", c)
	}
}

// TestAdviceIsRanked: what leaves nothing open comes first, and prices turn the
// order where all is priced.
func TestAdviceIsRanked(t *testing.T) {
	before := Score{Beyond: 3, Excess: 3}
	m := func(id string, beyond int, excess, mass, price float64) Remedy {
		return Remedy{ID: id, Before: before, After: Score{Beyond: beyond, Excess: excess}, Adds: Takeoff{Mass: mass, Price: price}}
	}
	order := func(ms ...Remedy) string {
		rank(ms)
		var ids []string
		for _, m := range ms {
			ids = append(ids, m.ID)
		}
		return strings.Join(ids, " ")
	}
	nan := math.NaN()
	if got := order(m("heavy", 2, 2, 10, nan), m("light", 2, 2, 0.1, nan), m("all", 0, 0, 50, nan), m("worse", 4, 5, 0, nan)); got != "all light heavy worse" {
		t.Error(got)
	}
	if got := order(m("heavy", 2, 2, 10, 100), m("light", 2, 2, 0.1, 5000)); got != "heavy light" {
		t.Error(got)
	}
	ms := demoAdvice(t)
	for i := 2; i < len(ms); i++ {
		if ms[i].After.open() == 0 && ms[i-1].After.open() > 0 {
			t.Errorf("%s stands behind %s", ms[i].ID, ms[i-1].ID)
		}
	}
}

// TestAdviceIsTheSameEveryTime: on one processor as on all.
func TestAdviceIsTheSameEveryTime(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Strengthening.Ribs.Post = "shs60x4"
	want := advice(t, p)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	got := advice(t, p)
	if len(got) != len(want) || len(got) == 0 {
		t.Fatalf("%d and %d", len(got), len(want))
	}
	for i := range got {
		if got[i].Text != want[i].Text || !slices.Equal(got[i].Q, want[i].Q) || got[i].After != want[i].After {
			t.Errorf("%d: %s %v, %s %v", i, got[i].Text, got[i].Q, want[i].Text, want[i].Q)
		}
	}
}

// TestNoAdvice: none for what is within limits, none for what cannot be
// computed, and an end when it is given up.
func TestNoAdvice(t *testing.T) {
	if ms := advice(t, demo(t, "put-right")); len(ms) != 0 {
		t.Errorf("%+v", ms)
	}
	p := demo(t, "as-drawn").Clone()
	p.Site.Ground = nil
	if ms := advice(t, p); ms != nil {
		t.Errorf("%+v", ms)
	}
	done, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Advise(done, run(t, demo(t, "as-drawn")), tables.Default(), nil); !errors.Is(err, context.Canceled) {
		t.Errorf("given up: %v", err)
	}
}

// TestTextsOfChanges: texts that follow each other number their values on.
func TestTextsOfChanges(t *testing.T) {
	q := func(v float64) quantity.Q { return quantity.Of("", v, quantity.Length) }
	none := func(*model.Project) {}
	c := both(change{id: "x", text: "Do {0} and {1}.", q: []quantity.Q{q(1), q(2)}, apply: none},
		change{id: "y", text: "Then {1}, not {0}.", q: []quantity.Q{q(3), q(4)}, apply: none})
	if c.text != "Do {0} and {1}. Then {3}, not {2}." || len(c.q) != 4 || c.q[3].Val != 4 {
		t.Errorf("%q %v", c.text, c.q)
	}
	if got := steps(0.1, 0.5, 0.1); !slices.Equal(got, []float64{0.1, 0.2, 0.3, 0.4, 0.5}) {
		t.Errorf("%v", got)
	}
	if got := steps(0.45, 0.3, 0.05); len(got) != 0 {
		t.Errorf("%v", got)
	}
	bars := hollowBars(tables.Default())
	for i := 1; i < len(bars); i++ {
		if bars[i].ID == bars[i-1].ID {
			t.Errorf("%s twice", bars[i].ID)
		}
	}
	if len(bars) < 5 {
		t.Errorf("%d bars to choose from", len(bars))
	}
}

// TestScoreIsThatOfRun: the quick trial counts what the written checks say.
func TestScoreIsThatOfRun(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		tr, err := try(context.Background(), p, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		if got, want := tr.score(), ScoreOf(run(t, p)); !sameScore(got, want) || got.Governs != want.Governs {
			t.Errorf("%s: %+v, %+v", name, got, want)
		}
	}
}

// BenchmarkAdvise is what a click on advice waits for; within some 3 s.
func BenchmarkAdvise(b *testing.B) {
	r := run(b, demo(b, "as-drawn"))
	for b.Loop() {
		if _, err := Advise(context.Background(), r, tables.Default(), nil); err != nil {
			b.Fatal(err)
		}
	}
}
