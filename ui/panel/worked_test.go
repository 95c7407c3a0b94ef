package panel

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2/canvas"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/ui/units"
)

// worked opens a page that is worked out and waits until it is.
func (b *bench) worked(key string) *workedPage {
	b.t.Helper()
	b.openPage(key)
	pg := b.page.(*workedPage)
	b.until("the page "+key, func() bool { return pg.done || pg.err != nil })
	if pg.err != nil {
		b.t.Fatal(pg.err)
	}
	return pg
}

// onPage joins what is written on the page in front.
func (b *bench) onPage() string {
	var all strings.Builder
	texts(b.page.object(), func(t *canvas.Text) { all.WriteString(t.Text + " ") })
	return all.String()
}

func TestLimitsPageAnswersEveryQuestion(t *testing.T) {
	b := newBench(t, right)
	b.openPage("limits")
	if says := b.onPage(); !strings.Contains(says, "Computing…") {
		t.Errorf("before the work: %q", says)
	}
	pg := b.worked("limits")
	says := b.onPage()
	for _, q := range []string{"How deep may this box sit here?", "How high may the fill stand", "How high may the water come?", "How heavy may a vehicle be?", "How near may the vehicle come?", "How many years"} {
		if !strings.Contains(says, q) {
			t.Errorf("the page says nothing of %q", q)
		}
	}
	if pg.got != len(assess.CurveIDs()) {
		t.Errorf("%d answers came one by one, want %d", pg.got, len(assess.CurveIDs()))
	}
	if strings.Contains(says, "Computing") || !strings.Contains(says, "Up to ") || !strings.Contains(says, " m") {
		t.Errorf("after the work: %q", says)
	}
	b.units(units.US)
	if us := b.onPage(); us == says || !strings.Contains(us, " ft") && !strings.Contains(us, "'") {
		t.Errorf("in feet: %q", us)
	}
	if pg.got != len(assess.CurveIDs()) || !pg.done {
		t.Error("another unit had all worked out anew")
	}
}

// A change of the project ends the work, and the answers of the old project
// are no longer shown.
func TestChangeEndsTheWork(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	b.worked("limits")
	old := b.page.(*workedPage).of
	b.edit("more cover", func(p *model.Project) error { p.Fill.FrontTop += 0.2; return nil })
	b.q.drain()
	pg := b.page.(*workedPage)
	if pg.of == old || strings.Contains(b.onPage(), "Up to ") {
		t.Errorf("the old answers are still shown: %q", b.onPage())
	}
	b.worked("limits")
	if pg.of == old || pg.of != b.desk.Result().Project {
		t.Error("the answers are not those of the project")
	}
	b.openPage("box") // not in front: nothing is worked out
	b.edit("less cover", func(p *model.Project) error { p.Fill.FrontTop -= 0.1; return nil })
	b.assessed()
	if pg.of != nil || pg.run.stop != nil {
		t.Error("a page that is not in front works")
	}
}

// One press makes a change that was tried: one step of undo with its words,
// after which the assessment is what the page had said.
func TestAdviceIsTakenAndUndone(t *testing.T) {
	b := newBench(t, drawn)
	b.edit("still", func(p *model.Project) error { p.Site.Water.Computed = false; return nil }) // which is quicker
	b.q.drain()
	b.assessed()
	before := b.project().Clone()
	b.worked("advice")
	found, err := assess.Advise(t.Context(), b.desk.Result(), b.tables, nil)
	if err != nil || len(found) < 2 {
		t.Fatalf("%d changes, %v", len(found), err)
	}
	m := &found[0]
	says := b.onPage()
	if len(m.Steps) == 0 || !strings.Contains(says, "All of these") || !strings.Contains(says, "checks beyond limits") || !strings.Contains(says, "→") {
		t.Errorf("the page says %q", says)
	}
	if strings.ContainsAny(says, "{}") {
		t.Errorf("a value is missing: %q", says)
	}
	press(t, b, "Do it")
	b.q.drain()
	what, _ := b.desk.CanUndo()
	if words := units.Fill(m.Text, m.Q, b.desk.Units()); !strings.HasPrefix(words, strings.TrimSuffix(what, "…")) || what == "" {
		t.Errorf("undo is about %q, the change is %q", what, words)
	}
	want := before.Clone()
	m.Apply(want)
	if !reflect.DeepEqual(b.project(), want) {
		t.Error("the project is not the one that was tried")
	}
	if strings.Contains(b.onPage(), "Do it") {
		t.Error("the advice for the old project can still be taken")
	}
	b.assessed()
	if got := assess.ScoreOf(b.desk.Result()); got.Beyond != m.After.Beyond || !near(got.Worst, m.After.Worst) {
		t.Errorf("%+v; the advice said %+v", got, m.After)
	}
	b.undo()
	b.q.drain()
	if !reflect.DeepEqual(b.project(), before) {
		t.Error("undo did not bring the project back in one step")
	}
}

// There is no advice where nothing is beyond, and none before all is given;
// the page says which.
func TestNoAdviceSaysWhy(t *testing.T) {
	for _, c := range []struct{ file, says string }{{right, "Nothing that was checked is beyond"}, {"", "the strip on top says what is missing"}} {
		b := newBench(t, c.file)
		b.assessed()
		b.worked("advice")
		if says := b.onPage(); !strings.Contains(says, c.says) || strings.Contains(says, "Do it") {
			t.Errorf("%q: the page says %q", c.file, says)
		}
	}
}
