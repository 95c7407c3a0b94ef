package panel

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/ui/units"
)

// A grading reads back as it was, in both systems of units, and says what is
// wrong with one that cannot be.
func TestSievesReadBack(t *testing.T) {
	sieves := []model.Sieve{{Size: 0.002, Passes: 0.123}, {Size: 0.075, Passes: 0.35}, {Size: 4.75, Passes: 0.9}, {Size: 25.4, Passes: 1}}
	for _, sys := range []units.System{units.Metric, units.US} {
		got, err := readSieves(sieveText(sieves, sys), sys)
		if err != nil {
			t.Fatal(err)
		}
		keptSieves(got, sieves, sys)
		if !reflect.DeepEqual(got, sieves) {
			t.Errorf("%v: %+v", sys, got)
		}
	}
	got, err := readSieves("2 mm; 90\n0.075\t35 %\n", units.Metric)
	if err != nil || len(got) != 2 || got[0].Size != 0.075 || !near(got[0].Passes, 0.35) || got[1].Size != 2 || !near(got[1].Passes, 0.9) {
		t.Errorf("%+v, %v", got, err)
	}
	for text, says := range map[string]string{
		"0.075 35":            "line 1",
		"0.075; 35\n2; much":  "line 2",
		"0.075; 35\n2; 30":    "less passes",
		"0.075; 35\n0.075; 4": "twice",
	} {
		if _, err := readSieves(text, units.Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// The page of the swale says how long a storm to look up: by Kirpich's formula
// (WT-12: 4780 ft at 0.0095 give 31.9 min, TxDOT 2016 p. 4-40, verified), and never
// less than ten minutes.
func TestStormToLookUp(t *testing.T) {
	p := &model.Project{}
	r := &p.Defence.Runoff
	for _, c := range []struct {
		long, slope float64
		want        string
	}{{4780 * 0.3048, 0.0095, "storm of 31.9 min"}, {40, 0.15, "storm of 10.0 min"}, {0, 0, "ten minutes at least"}, {40, 0, "tell how long that is"}} {
		r.Length, r.Slope = c.long, c.slope
		for _, sys := range []units.System{units.Metric, units.US} {
			if got := stormToLookUp(p, sys); !strings.Contains(got, c.want) {
				t.Errorf("%g m at %g: %q does not say %q", c.long, c.slope, got, c.want)
			}
		}
	}
}

// coarseSoil is the first soil of a project whose permeability is asked for.
func coarseSoil(p *model.Project) int {
	return slices.IndexFunc(p.Site.Soils, func(s model.Soil) bool { return s.USCS == "drain-stone" })
}

// The value of the table for open gravel is not shown, and even the same one
// typed is the user's own.
func TestPermeabilityOfStoneIsAsked(t *testing.T) {
	b := newBench(t, drawn)
	i := coarseSoil(b.project())
	b.edit("ask", func(p *model.Project) error {
		s := &p.Site.Soils[i]
		s.Kx, s.Kz, s.Set = 0.01, 0.002, nil
		return nil
	})
	b.openPage("soil")
	b.pick("Show the values of", b.project().Site.Soils[i].ID)
	n := b.number("soil", "Permeability along")
	if n.entry.Text != "" || !strings.Contains(n.help.text, "asked for") {
		t.Errorf("shows %q, says %q", n.entry.Text, n.help.text)
	}
	typed(n.entry, "0.01")
	if s := b.project().Site.Soils[i]; s.Kx != 0.01 || s.Kz != 0.01 || !slices.Contains(s.Set, "kx") || n.help.text != "yours" {
		t.Errorf("%+v, %q", s, n.help.text)
	}
}

// What a drain, sump or swale needs is there when it is switched on, hidden
// before, and what was typed stays.
func TestDrainsStartWithSense(t *testing.T) {
	b := newBench(t, drawn)
	b.edit("plain", func(p *model.Project) error { p.Defence = model.Defence{}; return nil })
	b.openPage("water")
	for _, label := range []string{"Pipe", "Cloth, opening size", "Live depth", "Swale, depth", "Interceptor, below the ground"} {
		if b.visible(label) {
			t.Errorf("%s is shown without its drain", label)
		}
	}
	b.edit("drain", func(p *model.Project) error { p.Defence.Drain.Present = true; return nil })
	b.pick("Pipe", "corrugated-150")
	b.edit("rate", func(p *model.Project) error { p.Defence.Sump.Rate = 75; return nil })
	b.pick("Outlet", "sump")
	d := b.project().Defence
	if d.Drain.Diameter != 0.15 || d.Drain.SumpBore != sumpBore {
		t.Errorf("drain %+v", d.Drain)
	}
	if d.Sump.Rate != 75 || d.Sump.Efficiency != 0.2 || d.Sump.Reaction != 24 || d.Sump.Live != sumpLive {
		t.Errorf("sump %+v", d.Sump)
	}
	for _, r := range b.rows() {
		if tg, ok := r.(*toggle); ok && (tg.label == "Swale above the box" || tg.label == "Interceptor drain uphill") {
			tg.ticked(true)
		}
	}
	d = b.project().Defence
	if r := d.Runoff; !d.Drain.Swale || r.Bottom != swaleBottom || r.SwaleRoom != swaleRoom || r.Lining != swaleLining {
		t.Errorf("swale %+v", r)
	}
	if !d.Drain.Uphill || d.Drain.UphillAway != interceptorAway || d.Drain.UphillDepth != interceptorDepth {
		t.Errorf("interceptor %+v", d.Drain)
	}
	b.q.drain()
	b.showPage()
	for _, label := range []string{"Pipe", "Cloth, opening size", "Live depth", "Swale, depth", "Interceptor, below the ground"} {
		if !b.visible(label) {
			t.Errorf("%s is hidden", label)
		}
	}
	if hard := model.FirstHard(b.project().Validate()); hard != nil {
		t.Error(hard)
	}
}

// A stage says that its drains are blocked, where that counts.
func TestBlockedDrainsOfAStage(t *testing.T) {
	b := newBench(t, drawn)
	var id string
	for _, st := range b.project().Stages {
		if st.Water == model.WaterHigh {
			id = st.ID
		}
	}
	if err := b.desk.SetStage(id); err != nil {
		t.Fatal(err)
	}
	b.edit("still", func(p *model.Project) error { p.Site.Water.Computed = false; return nil })
	b.openPage("stages")
	const label = "Drains blocked, or the pump dead"
	shown := func() (row *toggle) {
		for _, r := range b.rows() {
			if tg, ok := r.(*toggle); ok && tg.label == label && tg.object().Visible() {
				return tg
			}
		}
		return nil
	}
	if shown() != nil {
		t.Error("shown for still water, which knows no drain")
	}
	b.edit("compute", func(p *model.Project) error { p.Site.Water.Computed = true; return nil })
	b.showPage()
	r := shown()
	if r == nil {
		t.Fatal("not shown")
	}
	r.ticked(true)
	st := b.here(b.project())
	if !st.Blocked || !strings.Contains(actsIn(b.project(), *st), "drains take nothing") {
		t.Errorf("%+v: %s", st, actsIn(b.project(), *st))
	}
}
