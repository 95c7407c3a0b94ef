package panel

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

func TestHeaderSaysTheGoverningCheck(t *testing.T) {
	for _, file := range []string{drawn, right} {
		b := newBench(t, file)
		b.assessed()
		g := b.desk.Result().Governing()
		if g == nil {
			t.Fatalf("%s: nothing is checked", file)
		}
		said := b.Verdict()
		for _, want := range []string{g.Part, lowerFirst(g.Title), b.stageName(g.Stage)} {
			if !strings.Contains(said, want) || !strings.HasPrefix(said, sentence(g.Verdict().String())) {
				t.Errorf("%s: the header says %q, nothing of %q", file, said, want)
			}
			if first := b.header.answers[0].text.text; !strings.Contains(strings.ToLower(first), strings.ToLower(want)) {
				t.Errorf("%s: what gives way first is %q, nothing of %q", file, first, want)
			}
		}
		if b.header.sign.verdict != g.Verdict() {
			t.Errorf("%s: the sign is that of %v", file, b.header.sign.verdict)
		}
		for i, a := range b.header.answers {
			if a.text.text == "" || a.text.text == computing {
				t.Errorf("%s: answer %d is %q", file, i, a.text.text)
			}
		}
	}
}

// claim is what no program can know. The factor of safety is only a number's
// name.
var claim = regexp.MustCompile(`(?i).*\b(safe|safely|unsafe|ok|okay)\b.*`)

// No word of the window says that anything is safe.
func TestTheWindowNeverSaysSafe(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	for _, pg := range order {
		b.openPage(pg)
		if at := claim.FindString(b.written()); at != "" {
			t.Errorf("page %s says %q", pg, at)
		}
	}
	if at := claim.FindString(b.report() + strings.Join(cautions, "\n")); at != "" {
		t.Errorf("the report says %q", at)
	}
}

// A new project leads from the ground to a verdict, one step after the other,
// each with the page where it is done.
func TestNextStepsLeadToAVerdict(t *testing.T) {
	b := newBench(t, "")
	soil, _ := b.tables.SoilOf("GM")
	high := 98.0
	done := map[string]bool{}
	does := map[string]func(p *model.Project) error{
		"hill": func(p *model.Project) error { p.Site.Ground = []model.Vec{{0, 98}, {8, 99}, {30, 104}}; return nil },
		"soil": func(p *model.Project) error { p.Site.Soils = []model.Soil{soil}; return addStratum(p) },
		"water": func(p *model.Project) error {
			p.Site.Water.DesignHigh, p.Site.Water.Seasonal = &high, &high
			return nil
		},
		"box": func(p *model.Project) error {
			p.Box.Level, p.Box.Front, p.Bedding.RockSoil = 98.5, 6, soil.ID
			return nil
		},
		"fill": func(p *model.Project) error {
			f := &p.Fill
			f.Backfill, f.RockSoil, f.CapSoil, f.TopsoilSoil, f.Plant = soil.ID, soil.ID, soil.ID, soil.ID, "plate"
			return nil
		},
	}
	b.assessed()
	if b.Verdict() != "Next: draw the ground line with the tool above (G), or type its points on page 1." {
		t.Errorf("the header begins with %q", b.Verdict())
	}
	for strings.HasPrefix(b.Verdict(), "Next: ") || strings.Contains(b.header.count.text, "Next: ") {
		page := b.header.next.page
		if does[page] == nil || done[page] {
			t.Fatalf("the header says %q, %q with page %q", b.Verdict(), b.header.count.text, page)
		}
		done[page] = true
		b.edit("step", does[page])
		b.q.drain()
		b.assessed()
	}
	if len(done) != len(does) || b.desk.Result().Governing() == nil {
		t.Errorf("steps %v, verdict %q", done, b.Verdict())
	}
}

// Every problem of a new project has a page where it is solved.
func TestEveryProblemHasAPage(t *testing.T) {
	b := newBench(t, "")
	broken := model.New()
	broken.Site.Strata = []model.Stratum{{ID: "a"}, {ID: "b"}}
	broken.Site.Surcharges = []model.Surcharge{{ID: "x", Kind: model.Vehicle}, {ID: "y", Kind: model.AreaLoad}}
	broken.Strengthening.Ribs.Spacing = 1
	broken.Strengthening.Wales = []model.Wale{{Height: 1}}
	broken.Bedding.Toe.Depth = 1
	ps := broken.Validate()
	if len(ps) < 15 {
		t.Fatalf("only %d problems", len(ps))
	}
	for _, p := range ps {
		if s := b.nextStep(p); s.page == "" || s.words == "" {
			t.Errorf("%v: %+v", p, s)
		}
	}
}

func TestReportNamesEveryCheck(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	text := b.report()
	for i := range b.desk.Result().Checks {
		if c := &b.desk.Result().Checks[i]; !strings.Contains(strings.ToLower(text), strings.ToLower(c.Title)) {
			t.Errorf("nothing of %q", c.Title)
		}
	}
	for _, s := range []string{"NOT FOR CONSTRUCTION", "INVENTED", "How deep", "How high", "Not checked", "Taken for granted"} {
		if !strings.Contains(text, s) {
			t.Errorf("nothing of %q", s)
		}
	}
}

func TestAnswersInWords(t *testing.T) {
	b := newBench(t, drawn)
	r := &assess.Result{Checks: []check.Check{{ID: "roof", Title: "Roof sheet in bending", Part: "roof", Ratio: 2, RatioLRFD: math.NaN()}}}
	cover := func(v float64) assess.Answer {
		return assess.Answer{Question: "?", Kind: "cover", Value: v, Solved: true, Governs: "roof"}
	}
	none, most := cover(-2.4), cover(4)
	none.None, most.AtLeast = true, true
	water := assess.Answer{Question: "?", Kind: "water", Value: 0.95, Solved: true, Governs: "roof"}
	why := assess.Answer{Question: "?", Kind: "cover", Value: math.NaN(), Why: "no stage has high water"}
	for _, c := range []struct {
		a        assess.Answer
		sys      units.System
		want     string
		mustNot_ string
	}{
		{cover(0.12), units.Metric, "Cover up to 0.12 m; beyond: roof sheet in bending", ""},
		{cover(0.1524), units.US, `Cover up to 6"; beyond: roof`, " m;"},
		{cover(-0.4), units.Metric, "No cover. Fill beside it must stay 0.40 m below the roof", "−"},
		{none, units.Metric, "Not at all as drawn. What stops it: roof", "2.4"},
		{most, units.Metric, "Cover up to 4.00 m, the most that is tried", ""},
		{water, units.Metric, "0.95 m above the underside, level 101.05 m; beyond: roof", ""},
		{why, units.Metric, "Not solved: no stage has high water", "NaN"},
		{assess.Answer{Kind: "cover", Value: math.NaN()}, units.Metric, "computing…", ""},
	} {
		b.units(c.sys)
		got := b.answerWords(&c.a, r)
		if !strings.HasPrefix(got, c.want) || c.mustNot_ != "" && strings.Contains(got, c.mustNot_) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := b.answerWords(&water, &assess.Result{}); got != "Not known yet" {
		t.Errorf("without a check: %q", got)
	}
}

func TestTimesLimit(t *testing.T) {
	for r, want := range map[float64]string{
		0.834: "0.83 of its limit", 1: "1.00 of its limit", 1.0001: "1.01 times its limit", 5.66: "5.7 times its limit", 11.36: "11 times its limit",
		43.11: "43 times its limit", 250.2: "250 times its limit", math.Inf(1): "nothing is left of its resistance",
	} {
		if got := timesLimit(r); got != want {
			t.Errorf("%v: %q, want %q", r, got, want)
		}
	}
}

func TestExplainNamesTheFieldInTheReadersUnits(t *testing.T) {
	b := newBench(t, drawn)
	b.units(units.US)
	p := model.Problem{Field: "box.level", Text: "is out of range", Ranged: true, Kind: quantity.Length, Num: 3.048, Min: 0, Max: 1.524}
	if got := b.explain(fmt.Errorf("x: %w", p)); !strings.HasPrefix(got, "Level of the box: 10'-0\"") || !strings.Contains(got, `5'-0"`) {
		t.Errorf("%q", got)
	}
}

// Each cell of the strip leads to the page where its words come from, by the
// pointer and by the keys.
func TestHeaderLeadsOn(t *testing.T) {
	b := newBench(t, drawn)
	b.assessed()
	g := b.desk.Result().Governing()
	lead := b.header.lead
	for _, c := range []struct {
		cell *cell
		page string
	}{{lead, "checks"}, {b.header.answers[0].box, "checks"}, {b.header.answers[1].box, "fill"}, {b.header.answers[2].box, "water"}} {
		for _, press := range []func(){func() { c.cell.Tapped(nil) }, func() { c.cell.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }} {
			b.openPage("hill")
			press()
			b.q.drain()
			if key := b.page.about().key; key != c.page {
				t.Fatalf("it leads to page %s, want %s", key, c.page)
			}
			if pg, ok := b.page.(*checksPage); ok && (pg.chosen != checkKey(g) || b.desk.StageID() != g.Stage || b.marked != g.Part) {
				t.Errorf("check %q, stage %s, part %q are shown, want %s of the %s in %s", pg.chosen, b.desk.StageID(), b.marked, g.ID, g.Part, g.Stage)
			}
		}
	}
	empty := newBench(t, "")
	empty.assessed()
	empty.openPage("sheet")
	empty.header.lead.Tapped(nil)
	if key := empty.page.about().key; key != "hill" {
		t.Errorf("without a ground line the strip leads to page %s", key)
	}
}

// The button beside the next step brings its field into sight, with the keys
// in it.
func TestNextStepShowsItsField(t *testing.T) {
	b := newBench(t, "")
	for path, label := range rowOf {
		b.edit("rows", func(p *model.Project) error {
			p.Site.Strata = nil
			s := &p.Strengthening // all that has fields of its own
			s.Stud.Spacing = 0.4
			s.Cavity = model.Cavity{Width: 0.2, Fill: model.ConcreteFill, Bar: 12}
			s.RoofSlab = model.RoofSlab{Thickness: 0.15, CrossBeam: ribBar}
			p.Bedding.Kind, p.Bedding.SlabBar = model.PadBedding, 12
			if strings.HasPrefix(path, "bedding.slab") {
				p.Bedding.Kind = model.SlabBedding
			}
			return nil
		})
		b.q.drain()
		b.openPage("hill")
		b.header.next = b.nextStep(model.Problem{Field: path})
		b.header.next.tool = sketch.Select
		b.header.goThere()
		pg := b.page.(*page)
		o := b.Control(label)
		if o == nil {
			t.Errorf("%s: page %s has no %q", path, pg.key, label)
			continue
		}
		if f, ok := o.(fyne.Focusable); !ok || b.win.Canvas().Focused() != f {
			t.Errorf("%s: %q has not the keys", path, label)
		}
		y := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y - fyne.CurrentApp().Driver().AbsolutePositionForObject(pg.scroll).Y
		if y < 0 || y+o.Size().Height > pg.scroll.Size().Height {
			t.Errorf("%s: %q stands at %v of %v", path, label, y, pg.scroll.Size().Height)
		}
	}
}

// Compacting with no plant at all is a way of building: nothing asks for one.
func TestNoPlantIsNoNextStep(t *testing.T) {
	b := newBench(t, right)
	b.edit("no plant", func(p *model.Project) error { p.Fill.Plant = ""; return nil })
	b.q.drain()
	b.assessed()
	if s, blocked := b.firstThing(b.desk.Result().Blocks); blocked {
		t.Errorf("next is %q", s.words)
	}
	if strings.Contains(b.Verdict()+b.header.count.text, "Next") {
		t.Errorf("the strip says %q, %q", b.Verdict(), b.header.count.text)
	}
	ids, names := b.plants(b.project())
	if ids[0] != "" || names[0] != "none" {
		t.Errorf("the list of plants begins with %q, %q", ids[0], names[0])
	}
}

// What is within limits so far is no verdict while something is missing.
func TestUnfinishedIsNoVerdict(t *testing.T) {
	b := newBench(t, right)
	b.edit("no water level", func(p *model.Project) error {
		p.Site.Water.Computed, p.Site.Water.DesignHigh, *p.Site.Water.Seasonal = false, nil, 100.2
		return nil
	})
	b.q.drain()
	b.assessed()
	if g := b.desk.Result().Governing(); g == nil || g.Verdict() != check.Within {
		t.Fatalf("governing %+v", g)
	}
	if !strings.HasPrefix(b.Verdict(), "So far within limits: ") || b.header.answers[0].text.text != waitsForNext {
		t.Errorf("the strip says %q, %q", b.Verdict(), b.header.answers[0].text.text)
	}
	b.openPage("sheet")
	b.header.goThere()
	if b.page.about().key != "water" || b.win.Canvas().Focused() != fyne.Focusable(b.Control("Design high water").(*commitEntry)) {
		t.Errorf("the next step leads to page %s", b.page.about().key)
	}
}
