package sheet

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// The sheets of the structure say all they have to on every size: nothing out
// of the frame, no text over another, every answer with its words, the take-off
// item by item, every sheet with its number.
func TestStructureOnEverySize(t *testing.T) {
	for _, name := range demos {
		d := loadDemo(t, name)
		s, err := StructureOf(context.Background(), d.r, tables.Default(), units.Metric)
		must(t, err)
		if s.Portrait == nil || len(s.Portrait.Members) == 0 || len(s.Curves) != len(assess.CurveIDs()) {
			t.Fatalf("%s: structure %+v", name, s)
		}
		for _, o := range ownOptions() {
			o.Structure = s
			t.Run(name+" "+o.name(), func(t *testing.T) {
				all := checkedText(t, d, o)
				checkStructureTexts(t, d, s, all, o.Units)
			})
		}
	}
}

// checkedText draws a hand-out and gives all its texts in one line, after it has
// found nothing out of the frame, no text over another, and every sheet with its
// number.
func checkedText(t *testing.T, d demo, o Options) string {
	t.Helper()
	doc, err := plan(d.p, d.r, d.long, d.cross, o)
	must(t, err)
	rec := &Recorder{}
	must(t, doc.draw(rec))
	checkInside(t, rec, doc.size.frame(o.Landscape))
	var all strings.Builder
	for i, pg := range rec.Pages {
		checkApart(t, i, pg.Texts)
		for _, x := range pg.Texts {
			all.WriteString(x.Text + " ")
		}
	}
	if doc.sheets != len(rec.Pages) || !strings.Contains(all.String(), fmt.Sprintf("Sheet %d of %d", len(rec.Pages), doc.sheets)) {
		t.Errorf("%d sheets drawn, %d counted", len(rec.Pages), doc.sheets)
	}
	return all.String()
}

// checkStructureTexts looks for what the sheets of the structure have to say.
func checkStructureTexts(t *testing.T, d demo, s *Structure, all string, sys units.System) {
	t.Helper()
	want := []string{"The box folded flat", "What the steel does", "Take-off", "How far each thing may go", "not priced", "demand over strength", "moment of"}
	for _, c := range s.Curves {
		want = append(want, c.Question)
	}
	for i := range d.r.Kit.Items {
		want = append(want, strings.Fields(upperFirst(d.r.Kit.Items[i].Text))[0])
	}
	want = append(want, units.Format(d.r.Kit.Mass, quantity.Mass, sys), "Load case")
	for _, w := range want {
		if !strings.Contains(all, w) {
			t.Errorf("the sheets do not say %q", w)
		}
	}
}

// Without them the sheets are those from before.
func TestNoStructureWithoutAsking(t *testing.T) {
	d := loadDemo(t, demos[1])
	doc, err := plan(d.p, d.r, d.long, d.cross, ownOptions()[0])
	must(t, err)
	rec := &Recorder{}
	must(t, doc.draw(rec))
	for _, pg := range rec.Pages {
		for _, x := range pg.Texts {
			if strings.Contains(x.Text, "folded flat") {
				t.Error("the structure is drawn unasked")
			}
		}
	}
}

func TestCurveWords(t *testing.T) {
	r := &assess.Result{}
	nan := math.NaN()
	m := func(a assess.CurveAnswer) assess.CurveAnswer { a.Part, a.Governs = "roof", "roof-sheet"; return a }
	for _, c := range []struct {
		id   string
		kind quantity.Kind
		a    assess.CurveAnswer
		want string
	}{
		{"cover", quantity.Length, m(assess.CurveAnswer{Value: 0.6, Alone: nan}), "Up to 0.60 m. Beyond, what gives way: roof (roof-sheet)."},
		{"cover", quantity.Length, m(assess.CurveAnswer{Value: 4, AtLeast: true, Alone: nan}), "At least 4.00 m, the most that was tried."},
		{"distance", quantity.Length, m(assess.CurveAnswer{Value: 1.25, Alone: nan}), "Not nearer than 1.25 m. Nearer, what gives way: roof (roof-sheet)."},
		{"distance", quantity.Length, m(assess.CurveAnswer{Value: 0, AtLeast: true, Alone: nan}), "As near as 0.00 m, the nearest that was tried."},
		{"water", quantity.Length, m(assess.CurveAnswer{Value: nan, None: true, Alone: nan}), "None of the values tried does. What stops it: roof (roof-sheet)."},
		{"years", quantity.Years, m(assess.CurveAnswer{Value: nan, None: true, Alone: 20, Why: "it is beyond limits whatever this value is"}), "No value does: roof (roof-sheet) is beyond its limits whatever this is. The rest would allow 20.0 years."},
		{"water", quantity.Length, assess.CurveAnswer{Value: nan, Alone: nan, Why: "no stage has high water"}, "Not solved: no stage has high water."},
	} {
		got, second := CurveWords(&assess.Curve{ID: c.id, Kind: c.kind, Answer: c.a, PartsOnly: c.a}, r, units.Metric)
		if got != c.want || second != "" {
			t.Errorf("%s: %q, %q, want %q", c.id, got, second, c.want)
		}
	}
}

// A chart beside its words has the reasons for its gaps each once, whatever
// numbers they are of.
func TestChartOf(t *testing.T) {
	c := &assess.Curve{Question: "How deep?", Points: []assess.CurvePoint{{V: 0, Ratio: 0.5}, {V: 1, Ratio: math.NaN(), Why: "it never meets the ground"}, {V: 2, Ratio: math.NaN(), Why: "slender: 16.3"}, {V: 3, Ratio: math.NaN(), Why: "slender: 18.5"}}}
	bare, gaps := ChartOf(c)
	if gaps != "Not worked out for some values: it never meets the ground; slender: 16.3." || bare.Question != "" || bare.Points[1].Why != "" || c.Points[1].Why == "" {
		t.Errorf("gaps %q, chart %+v, curve %+v", gaps, bare, c)
	}
}

func TestTakeoffWords(t *testing.T) {
	nan := math.NaN()
	to := &assess.Takeoff{Items: []assess.Item{{Text: "posts", Quantity: 250, Unit: "kg", Price: nan}}, Mass: 0.25, Price: nan, Unpriced: []string{"steel kg"}}
	if got := AddsWords(to, units.Metric); got != "Adds 250 kg; not priced: steel." {
		t.Errorf("%q", got)
	}
	to.Price, to.Unpriced = 412.5, nil
	if got := AddsWords(to, units.Metric); got != "Adds 250 kg; price 412.50." {
		t.Errorf("%q", got)
	}
	if got := AddsWords(&assess.Takeoff{}, units.Metric); got != "Adds nothing that is bought." {
		t.Errorf("%q", got)
	}
	for _, c := range []struct {
		it   assess.Item
		want string
	}{{assess.Item{Quantity: 250, Unit: "kg"}, "250 kg"}, {assess.Item{Quantity: 1.35, Unit: "m3"}, "1.35 m³"}, {assess.Item{Quantity: 3, Unit: "piece"}, "3"}, {assess.Item{Quantity: 7, Unit: "t"}, "7000 kg"}} {
		if got := ItemWords(&c.it, units.Metric); got != c.want {
			t.Errorf("%+v: %q, want %q", c.it, got, c.want)
		}
	}
	for _, c := range []struct {
		r    float64
		want string
	}{{0.9999, "1.00"}, {1.0001, "1.01"}, {43.1, "43.10"}, {math.Inf(1), "no capacity"}} {
		if got := FormatRatio(c.r); got != c.want {
			t.Errorf("%v: %q, want %q", c.r, got, c.want)
		}
	}
}
