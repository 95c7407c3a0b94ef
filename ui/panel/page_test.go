package panel

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/ui/units"
)

// One inch and one pound-force per square foot in SI, exact by definition.
const (
	in  = 0.0254
	psf = 4.4482216152605 / (0.3048 * 0.3048) / 1000
)

func TestTypedValuesReachTheProject(t *testing.T) {
	for _, c := range []struct {
		page, label, text string
		sys               units.System
		get               func(p *model.Project) float64
		want              float64
	}{
		{"box", "Level of the castings", "1.93 m", units.Metric, func(p *model.Project) float64 { return p.Box.Level }, 1.93},
		{"box", "Level of the castings", `6'4"`, units.Metric, func(p *model.Project) float64 { return p.Box.Level }, 76 * in},
		{"box", "Level of the castings", "6'4\"", units.US, func(p *model.Project) float64 { return p.Box.Level }, 76 * in},
		{"box", "Level of the castings", "6,5", units.Metric, func(p *model.Project) float64 { return p.Box.Level }, 6.5},
		{"box", "Front at distance", "21", units.US, func(p *model.Project) float64 { return p.Box.Front }, 252 * in},
		{"box", "Side sheet", "0.063 in", units.Metric, func(p *model.Project) float64 { return p.Box.SideT }, 63 * in},
		{"fill", "Level shoulder beside the roof", "0", units.Metric, func(p *model.Project) float64 { return p.Fill.Shoulder }, 0},
		{"box", "Empty weight", "4900 lb", units.Metric, func(p *model.Project) float64 { return p.Box.Tare }, 4900 * 0.45359237},
		{"box", "Yield strength", "50 ksi", units.Metric, func(p *model.Project) float64 { return p.Box.Fy }, 50e6 * 4.4482216152605 / (in * in) / 1e9},
		{"cut", "Batter of the back", "1.5:1", units.Metric, func(p *model.Project) float64 { return p.Cut.Batter }, 1.5},
		{"cut", "Batter of the back", "45°", units.US, func(p *model.Project) float64 { return p.Cut.Batter }, 1},
		{"fill", "Rise of the surface behind", "1 in 50", units.US, func(p *model.Project) float64 { return p.Fill.BackSlope }, 0.02},
		{"fill", "Cover at the front edge", "-4 in", units.Metric, func(p *model.Project) float64 { return p.Fill.FrontTop }, -4 * in},
		{"hill", "Ground snow", "25 psf", units.Metric, func(p *model.Project) float64 { return p.Site.Climate.GroundSnow }, 25 * psf},
		{"hill", "Cross slope", "3", units.US, func(p *model.Project) float64 { return p.Site.CrossSlope }, 0.03},
		{"soil", "Friction angle φ'", "31°", units.US, func(p *model.Project) float64 { return p.Site.Soils[0].Phi }, 31},
		{"water", "Design high water", "100.4", units.Metric, func(p *model.Project) float64 { return *p.Site.Water.DesignHigh }, 100.4},
		{"inside", "Spacing", "2 ft", units.Metric, func(p *model.Project) float64 { return p.Strengthening.Ribs.Spacing }, 24 * in},
		{"stages", "Fill beside the wall", "0.5", units.Metric, func(p *model.Project) float64 { return p.Stages[6].FillTo }, 0.5},
	} {
		t.Run(c.label+" "+c.text, func(t *testing.T) {
			b := newBench(t, drawn)
			b.units(c.sys)
			n := b.number(c.page, c.label)
			typed(n.entry, c.text)
			if got := c.get(b.project()); !near(got, c.want) {
				t.Errorf("stored %v, want %v; the row says %q", got, c.want, n.fault.text)
			}
			if n.fault.text != "" {
				t.Errorf("the row complains: %s", n.fault.text)
			}
			what, ok := b.desk.CanUndo()
			if !ok || what != c.label {
				t.Errorf("undo is about %q", what)
			}
		})
	}
}

func TestWrongInputSaysWhyAndChangesNothing(t *testing.T) {
	for _, c := range []struct{ page, label, text, says string }{
		{"box", "Level of the castings", "high", "1.93 m"},
		{"box", "Level of the castings", "", "empty"},
		{"box", "Level of the castings", "12 kg", "mass"},
		{"fill", "Lift", "50 m", "allowed"},
		{"fill", "Lift", "-1", "allowed"},
		{"box", "Side sheet", "40 mm", "10 mm"},
		{"soil", "Friction angle φ'", "70", "50°"},
		{"cut", "Batter of the back", "2 %%", "1.5:1"},
		{"water", "Design high water", "1e999", "not a number"},
	} {
		t.Run(c.label+" "+c.text, func(t *testing.T) {
			b := newBench(t, drawn)
			n := b.number(c.page, c.label)
			before := b.project()
			typed(n.entry, c.text)
			if b.project() != before {
				t.Fatalf("the project changed to %+v", b.project())
			}
			if !strings.Contains(n.fault.text, c.says) {
				t.Errorf("the row says %q, nothing of %q", n.fault.text, c.says)
			}
			if n.entry.Text != c.text {
				t.Errorf("the field holds %q: what was typed is gone", n.entry.Text)
			}
			b.showPage()
			if n.entry.Text != c.text {
				t.Errorf("after another look the field holds %q", n.entry.Text)
			}
			n.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if n.fault.text != "" || n.entry.dirty() {
				t.Errorf("after Esc: %q, %q", n.fault.text, n.entry.Text)
			}
		})
	}
}

// Every field can be visited without changing anything, whatever its value
// looks like in the reader's units.
func TestVisitingEveryFieldChangesNothing(t *testing.T) {
	for _, file := range []string{drawn, right} {
		b := newBench(t, file)
		before := b.project()
		fields := 0
		for _, sys := range []units.System{units.US, units.Metric} {
			b.units(sys)
			for _, pg := range order {
				b.openPage(pg)
				for _, r := range b.rows() {
					for _, e := range entriesOf(r) {
						fields++
						e.FocusGained()
						e.FocusLost()
					}
				}
			}
		}
		if !reflect.DeepEqual(b.project(), before) {
			t.Errorf("%s: the project changed", file)
		}
		if fields < 150 {
			t.Errorf("%s: only %d fields were visited", file, fields)
		}
	}
}

func entriesOf(r row) []*commitEntry {
	switch r := r.(type) {
	case *number:
		return []*commitEntry{r.entry}
	case *text:
		return []*commitEntry{r.entry}
	case *lineRow:
		return []*commitEntry{r.entry}
	case *sieveRow:
		return []*commitEntry{r.entry}
	case *waterRow:
		return []*commitEntry{r.entry}
	case *priceRow:
		return []*commitEntry{r.entry}
	}
	return nil
}

// What a field shows is what its value is, to the last digit shown: typed
// again it comes to the same within half a unit of the third decimal or a
// thirty-second of an inch.
func TestFieldsShowTheirValues(t *testing.T) {
	for _, sys := range []units.System{units.Metric, units.US} {
		b := newBench(t, right)
		b.units(sys)
		for _, pg := range order {
			b.openPage(pg)
			for _, r := range b.rows() {
				n, ok := r.(*number)
				if !ok || n.entry.Text == "" {
					continue
				}
				shown, err := units.Parse(n.kind, n.entry.Text, sys)
				if err != nil {
					t.Errorf("%s shows %q: %v", n.label, n.entry.Text, err)
					continue
				}
				v, _ := n.get(b.project())
				one, err := units.Parse(n.kind, "1", sys)
				if err != nil {
					t.Fatal(err)
				}
				if tol := math.Max(5.1e-4*math.Min(one, math.Max(math.Abs(v), 1e-12)), in/32*1.001); math.Abs(shown-v) > tol {
					t.Errorf("%s: %v is shown as %q", n.label, v, n.entry.Text)
				}
			}
		}
	}
}

func TestPagesSpeakTheReadersUnits(t *testing.T) {
	b := newBench(t, right)
	for _, c := range []struct {
		sys       units.System
		yes, noes []string
	}{
		{units.Metric, []string{" m", " kPa", " mm"}, []string{" ft", " psf", " pcf", " lb"}},
		{units.US, []string{" ft", " psf", " in"}, []string{" kPa", " kN", " kg"}},
	} {
		b.units(c.sys)
		all := ""
		for _, pg := range order {
			b.openPage(pg)
			for _, r := range b.rows() {
				if n, ok := r.(*number); ok {
					all += n.entry.Text + "\n"
				}
			}
		}
		for _, s := range c.yes {
			if !strings.Contains(all, s) {
				t.Errorf("%v: no field shows %q", c.sys, s)
			}
		}
		for _, s := range c.noes {
			if strings.Contains(all, s+"\n") {
				t.Errorf("%v: a field shows %q", c.sys, s)
			}
		}
	}
}

func TestAddingAndRemovingIsUndone(t *testing.T) {
	for _, c := range []struct{ page, button, label string }{
		{"cut", "Add bench", "Add bench"},
		{"fill", "Add layer", "Add roof layer"},
		{"fill", "Remove layer", "Remove roof layer"},
		{"inside", "Add wale", "Add wale"},
		{"soil", "Add layer below", "Add layer"},
		{"soil", "Remove the lowest", "Remove layer"},
		{"stages", "Copy", "Add stage"},
		{"stages", "Remove", "Remove stage"},
		{"stages", "Earlier", "Move stage"},
		{"stages", "Add area load", "Add area load"},
		{"stages", "Add machine", "Add machine"},
	} {
		t.Run(c.button, func(t *testing.T) {
			b := newBench(t, right)
			b.openPage(c.page)
			before := b.project().Clone()
			press(t, b, c.button)
			b.q.drain()
			if reflect.DeepEqual(before, b.project()) {
				t.Fatalf("nothing changed; the window says %q", b.Said())
			}
			if hard := model.FirstHard(b.project().Validate()); hard != nil {
				t.Errorf("the project is broken: %v", hard)
			}
			if what, _ := b.desk.CanUndo(); what != c.label {
				t.Errorf("undo is about %q, want %q", what, c.label)
			}
			b.undo()
			b.q.drain()
			if !reflect.DeepEqual(before, b.project()) {
				t.Error("undo did not bring the project back")
			}
		})
	}
}

func press(t *testing.T, b *bench, words string) {
	t.Helper()
	o, ok := b.Control(words).(fyne.Tappable)
	if !ok {
		t.Fatalf("no button %q", words)
	}
	o.Tapped(nil)
}

// A field of a list item that is gone does nothing any more.
func TestFieldsOfAPageThatIsGoneAreDead(t *testing.T) {
	b := newBench(t, right)
	n := b.number("inside", "Wale 2, height")
	n.entry.FocusGained()
	n.entry.SetText("1.11 m")
	b.edit("Remove wales", func(p *model.Project) error { p.Strengthening.Wales = nil; return nil })
	b.q.drain()
	before := b.project()
	n.entry.FocusLost()
	if b.project() != before {
		t.Error("a field that is gone changed the project")
	}
}

func TestSoilValuesAreMarkedAsYours(t *testing.T) {
	b := newBench(t, drawn)
	n := b.number("soil", "Friction angle φ'")
	if n.help.text != "" {
		t.Errorf("a value of the table says %q", n.help.text)
	}
	typed(n.entry, "27")
	if s := b.project().Site.Soils[0]; !reflect.DeepEqual(s.Set, []string{"e", "cohesion", "phi"}) || s.Phi != 27 {
		t.Errorf("soil %+v", s)
	}
	b.q.drain()
	if n.help.text != "yours" {
		t.Errorf("the row says %q", n.help.text)
	}
	press(t, b, "Table values")
	want, _ := b.tables.SoilOf("CL-ML")
	got := b.project().Site.Soils[0]
	want.ID, want.Name = got.ID, got.Name
	if !reflect.DeepEqual(got, want) {
		t.Errorf("table values: %+v, want %+v", got, want)
	}
}

// The stiffness of a table is kept back: what is ordinary is shown, and a value
// counts once it is typed, even that of the table.
func TestStiffnessIsAskedFor(t *testing.T) {
	b := newBench(t, drawn)
	b.openPage("soil")
	press(t, b, "Table values")
	n := b.number("soil", "Stiffness E")
	if n.entry.Text != "" || n.entry.PlaceHolder != "asked for" {
		t.Errorf("shown %q and %q", n.entry.Text, n.entry.PlaceHolder)
	}
	for _, want := range []string{"settlement", "10 MPa of its class", "soft clay 2.0 MPa to 15 MPa (memory)", "stiff clay 15 MPa to 50 MPa"} {
		if !strings.Contains(n.help.text, want) {
			t.Errorf("the row says %q, not %q", n.help.text, want)
		}
	}
	typed(n.entry, "10 MPa")
	if s := b.project().Site.Soils[0]; !near(s.E, 10000) || !slices.Contains(s.Set, "e") {
		t.Errorf("soil %+v", s)
	}
	b.q.drain()
	if n.entry.Text == "" || !strings.HasPrefix(n.help.text, "yours") {
		t.Errorf("shown %q, the row says %q", n.entry.Text, n.help.text)
	}
}

// A limit that is not typed names the one of the table, in the reader's units.
func TestLimitsOfSettlement(t *testing.T) {
	b := newBench(t, drawn)
	for label, want := range map[string][2]string{"Settlement allowed": {"25", "memory"}, "Tilt allowed": {"0.40 %", "common practice"}, "Twist allowed": {"10", "common practice"}} {
		n := b.number("box", label)
		if !strings.Contains(n.help.text, want[0]) || !strings.Contains(n.help.text, want[1]) {
			t.Errorf("%s: %q", label, n.help.text)
		}
	}
	typed(b.number("box", "Tilt allowed").entry, "1 in 200")
	typed(b.number("box", "Twist allowed").entry, "6 mm")
	if bed := b.project().Bedding; !near(bed.MaxTilt, 0.005) || !near(bed.MaxTwist, 6) {
		t.Errorf("%+v", bed)
	}
}

func TestSoilInUseIsNotRemoved(t *testing.T) {
	b := newBench(t, drawn)
	b.openPage("soil")
	before := b.project()
	press(t, b, "Remove soil")
	if b.project() != before || !strings.Contains(b.Said(), "in use") || !strings.Contains(b.Said(), "layer 1") {
		t.Errorf("changed %v, said %q", b.project() != before, b.Said())
	}
}

func TestEmptyFieldsMeanNotGiven(t *testing.T) {
	b := newBench(t, drawn)
	typed(b.number("water", "Seasonal water").entry, "")
	if b.project().Site.Water.Seasonal != nil {
		t.Error("the seasonal water is still there")
	}
	n := b.number("box", "Side sheet")
	typed(n.entry, "1.5 mm")
	if got := b.project().Box.SideT; !near(got, 1.5) {
		t.Errorf("side sheet %v mm", got)
	}
	b.q.drain()
	typed(n.entry, " ")
	if got := b.project().Box.SideT; got != 0 || n.entry.Text != "" || n.entry.PlaceHolder != "as new" {
		t.Errorf("side sheet %v, shown %q and %q", got, n.entry.Text, n.entry.PlaceHolder)
	}
}

func TestSoilsFromTheTableGetNamesOfTheirOwn(t *testing.T) {
	b := newBench(t, "")
	for _, c := range []struct{ page, label, class, id string }{
		{"fill", "Backfill soil", "GW", "gw"}, {"fill", "Rock", "drain-stone", "drain-stone"}, {"fill", "Cap soil", "GW", "gw-2"}, {"box", "Bed rock", "crushed-base", "crushed-base"},
	} {
		b.openPage(c.page)
		for _, r := range b.rows() {
			ch, ok := r.(*choice)
			if !ok || ch.label != c.label {
				continue
			}
			for i, id := range ch.ids {
				if id == fresh+c.class {
					ch.sel.SetSelectedIndex(i)
				}
			}
		}
		b.q.drain()
		if i := soilAt(b.project(), c.id); i < 0 || b.project().Site.Soils[i].USCS != c.class {
			t.Errorf("%s: soils %+v", c.label, b.project().Site.Soils)
		}
	}
	p := b.project()
	if f := p.Fill; f.Backfill != "gw" || f.RockSoil != "drain-stone" || f.CapSoil != "gw-2" || p.Bedding.RockSoil != "crushed-base" {
		t.Errorf("fill %+v, bedding %+v", f, p.Bedding)
	}
}

// What the buttons add names rows that the tables have.
func TestWhatIsAddedIsInTheTables(t *testing.T) {
	b := newBench(t, "")
	for _, c := range []struct{ page, button string }{{"inside", "Add wale"}, {"stages", "Add machine"}} {
		b.openPage(c.page)
		press(t, b, c.button)
		b.q.drain()
	}
	p := b.project()
	if _, ok := b.tables.Bar(p.Strengthening.Wales[0].Section); !ok {
		t.Errorf("no bar %q", p.Strengthening.Wales[0].Section)
	}
	if _, ok := b.tables.Vehicle(p.Site.Surcharges[0].Vehicle); !ok {
		t.Errorf("no vehicle %q", p.Site.Surcharges[0].Vehicle)
	}
	for _, pg := range order {
		b.openPage(pg)
		for _, r := range b.rows() {
			if c, ok := r.(*choice); ok {
				ids, names := c.options(p)
				for _, id := range ids {
					if class, isNew := strings.CutPrefix(id, fresh); isNew {
						if _, ok := b.tables.Soil(class); !ok {
							t.Errorf("%s offers the soil %q that the table has not", c.label, class)
						}
					}
				}
				if len(ids) != len(names) || len(ids) == 0 && !strings.HasPrefix(c.label, "Show") {
					t.Errorf("%s offers %v as %v", c.label, ids, names)
				}
				seen := map[string]bool{}
				for _, n := range names {
					if n == "" || seen[n] {
						t.Errorf("%s offers %q twice or without a name", c.label, n)
					}
					seen[n] = true
				}
			}
		}
	}
}
