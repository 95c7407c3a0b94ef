package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/check"
	"hillset/ui/scene"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

func TestChecksAreListedWithTheirWorking(t *testing.T) {
	b := newBench(t, drawn)
	b.assessed()
	b.openPage("checks")
	pg := b.page.(*checksPage)
	r := b.desk.Result()
	if pg.list.Length() != len(r.Checks) || len(r.Checks) < 10 {
		t.Fatalf("%d lines for %d checks", pg.list.Length(), len(r.Checks))
	}
	for i := range r.Checks {
		c := &r.Checks[i]
		pg.list.Select(i)
		b.q.drain()
		text := pg.drawn
		want := []string{sentence(c.Part), lowerFirst(c.Title)}
		if c.Verdict() == check.NotChecked {
			want = append(want, "Not checked", units.Fill(c.Missing, c.MissingQ, units.Metric))
		} else {
			want = append(want, sentence(c.Verdict().String()), c.Source, c.Method)
			for _, l := range c.Working {
				want = append(want, strings.Join(units.LineSteps(l, units.Metric), "\n"))
			}
			for _, a := range c.Assumptions {
				want = append(want, full(units.Say(a, units.Metric)))
			}
			if b.desk.StageID() != c.Stage {
				t.Errorf("%s: stage %s is shown, want %s", c.ID, b.desk.StageID(), c.Stage)
			}
			if c.HasStation && !near(b.desk.Station(), c.Station) {
				t.Errorf("%s: station %v, want %v", c.ID, b.desk.Station(), c.Station)
			}
		}
		for _, s := range want {
			if !strings.Contains(text, s) {
				t.Errorf("%s: the working says nothing of %q:\n%s", c.ID, s, text)
			}
		}
		if b.marked != c.Part {
			t.Errorf("%s: %q is marked", c.ID, b.marked)
		}
	}
	pg.list.Select(0)
	pg.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if pg.at() != 1 {
		t.Errorf("the down key leads to check %d", pg.at())
	}
}

func TestUndoKeyTakesBackTypingFirst(t *testing.T) {
	b := newBench(t, drawn)
	n := b.number("box", "Front at distance")
	typed(n.entry, "9 m")
	b.q.drain()
	b.win.Canvas().Focus(n.entry)
	n.entry.SetText("9 m")
	n.entry.CursorColumn = 3
	n.entry.TypedRune('5')
	if !n.entry.dirty() {
		t.Fatal("nothing was typed")
	}
	b.undoKey()
	if b.project().Box.Front != 9 || n.entry.dirty() {
		t.Errorf("front %v, field %q", b.project().Box.Front, n.entry.Text)
	}
	b.undoKey()
	b.q.drain()
	if b.project().Box.Front != 8.4 || n.entry.Text != "8.4 m" {
		t.Errorf("after another: front %v, field %q", b.project().Box.Front, n.entry.Text)
	}
	b.redoKey()
	b.q.drain()
	if b.project().Box.Front != 9 {
		t.Errorf("after redo: front %v", b.project().Box.Front)
	}
	if !strings.Contains(b.Said(), "front at distance") {
		t.Errorf("the status line says %q", b.Said())
	}
}

func TestToolsAreCarriedOver(t *testing.T) {
	b := newBench(t, drawn)
	for _, c := range []struct{ take, long, cross sketch.Tool }{
		{sketch.PanTool, sketch.PanTool, sketch.PanTool},
		{sketch.DrawGround, sketch.DrawGround, sketch.Select},
		{sketch.PlaceBox, sketch.PlaceBox, sketch.PlaceBox},
		{sketch.Select, sketch.Select, sketch.Select},
	} {
		b.takeTool(c.take)
		if b.long.Tool() != c.long || b.cross.Tool() != c.cross {
			t.Errorf("%v: long %v, cross %v", c.take, b.long.Tool(), b.cross.Tool())
		}
		for tool, ch := range b.tools.tools {
			if ch.on != (tool == c.take) {
				t.Errorf("%v: button %v is %v", c.take, tool, ch.on)
			}
		}
	}
}

func TestStageBar(t *testing.T) {
	b := newBench(t, drawn)
	b.assessed()
	b.lookAt(1)
	b.q.drain()
	if b.desk.StageID() != "cut" || b.stages.sel.Selected != "2  Cut open" {
		t.Errorf("stage %q, shown %q", b.desk.StageID(), b.stages.sel.Selected)
	}
	b.stepStage(1)
	b.stepStage(-2)
	b.q.drain()
	if b.desk.StageID() != "natural" || !b.stages.back.off || b.stages.forth.off {
		t.Errorf("stage %q, before %v, after %v", b.desk.StageID(), b.stages.back.off, b.stages.forth.off)
	}
	b.stepStage(-1)
	if b.desk.StageID() != "natural" {
		t.Error("there is a stage before the first")
	}
	typed(b.stages.entry, "10 ft")
	b.q.drain()
	if !near(b.desk.Station(), 3.048) || b.stages.entry.Text != "3.05 m" {
		t.Errorf("station %v, shown %q", b.desk.Station(), b.stages.entry.Text)
	}
	typed(b.stages.entry, "far")
	if !near(b.desk.Station(), 3.048) || !strings.HasPrefix(b.Said(), "! ") {
		t.Errorf("station %v, said %q", b.desk.Station(), b.Said())
	}
}

func TestLayersAndLooks(t *testing.T) {
	b := newBench(t, drawn)
	if len(b.tools.layers) != len(offered) {
		t.Fatalf("%d toggles", len(b.tools.layers))
	}
	b.tools.layers[2].SetChecked(false)
	if b.layers[offered[2].of] || !b.layers[scene.Ground] || !b.layers[offered[0].of] {
		t.Errorf("layers %v", b.layers)
	}
	for _, l := range waterLines {
		c := b.tools.water[l.of]
		if c == nil || c.Checked || b.layers[l.of] {
			t.Fatalf("%s is on at first, or has no toggle", l.name)
		}
		c.SetChecked(true)
		if !b.layers[l.of] {
			t.Errorf("%s is not switched on", l.name)
		}
	}
	b.setLook(scene.Dark)
	b.setLetters(5)
	if got := readSettings(b.places.config); got.Look != scene.Dark || got.Letters != 2 {
		t.Errorf("kept %+v", got)
	}
	if !b.look.dark() || !b.tools.looks[scene.Dark].on {
		t.Error("the look is not dark")
	}
}
