package sketch

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"hillset/engine/model"
	"hillset/geom"
	"hillset/ui/units"
)

// From nothing: a ground line drawn with the pointer, a boundary under it, the
// box put in place, every click one step that can be undone.
func TestDrawFromNothing(t *testing.T) {
	r := newRig(t, LongSection, "")
	empty := r.project()
	r.board.TypedRune('g')
	for _, p := range []geom.Vec{{0, 0}, {8.03, 1.52}, {20.04, 5.96}, {3.98, 0.61}} {
		r.click(p)
	}
	want := []model.Vec{{0, 0}, {4, 0.6}, {8, 1.5}, {20, 6}}
	if got := r.project().Site.Ground; !vecsNear(got, want) {
		t.Fatalf("ground %v, want %v on the grid, in order", got, want)
	}
	if n := r.steps(); n != 4 {
		t.Errorf("%d steps, want one per click", n)
	}
	r.board.Select("site.ground[1]") // counting the steps let go of it
	r.key(fyne.KeyBackspace)         // takes back the point added last
	if got := r.project().Site.Ground; !vecsNear(got, []model.Vec{{0, 0}, {8, 1.5}, {20, 6}}) {
		t.Errorf("after Backspace: %v", got)
	}
	r.move(geom.Vec{8, 1.5}, geom.Vec{10.02, 2.49})
	if got := r.project().Site.Ground[1]; !vecsNear([]model.Vec{got}, []model.Vec{{10, 2.5}}) {
		t.Errorf("dragged point at %v", got)
	}
	r.key(fyne.KeyEscape)
	if r.board.Tool() != Select {
		t.Error("Esc does not end the tool")
	}
	for r.steps() > 0 {
		r.board.TypedShortcut(&fyne.ShortcutUndo{})
	}
	if !reflect.DeepEqual(r.project(), empty) {
		t.Error("undoing everything does not restore the start")
	}
}

func vecsNear(a, b []model.Vec) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Sub(b[i]).Len() > 1e-9 {
			return false
		}
	}
	return true
}

func TestDrawBoundary(t *testing.T) {
	r := newRig(t, LongSection, demo)
	before := len(r.project().Site.Strata)
	if err := r.desk.Edit("soil", "", func(p *model.Project) error {
		p.Site.Soils = append(p.Site.Soils, model.Soil{ID: "deep", Name: "Deep clay", USCS: "CH", Gamma: 18, GammaSat: 19, DigClass: "B"})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	r.board.SetTool(DrawStratum)
	r.board.SetSoil("deep")
	g := r.project().Site.Ground
	x0, x1 := g[0][0]+1, g[len(g)-1][0]-1
	r.click(geom.Vec{x0, 96.5})
	r.click(geom.Vec{x1, 97.5})
	st := r.project().Site.Strata
	if len(st) != before+1 || st[len(st)-1].Soil != "deep" || len(st[len(st)-1].Top) != 2 {
		t.Fatalf("strata after two clicks: %+v", st)
	}
	if top := st[len(st)-1].Top; top[0][0] >= top[1][0] {
		t.Errorf("points out of order: %v", top)
	}
	r.key(fyne.KeyReturn)
	r.board.SetTool(DrawStratum)
	r.board.SetSoil("no such soil")
	r.click(geom.Vec{x0, 97})
	if r.problem == "" || len(r.project().Site.Strata) != before+1 {
		t.Error("a boundary without a soil for it is taken")
	}
}

func TestAddWater(t *testing.T) {
	r := newRig(t, LongSection, demo)
	n := len(r.project().Site.Water.Observed)
	r.board.TypedRune('W')
	r.move(geom.Vec{20.3, 101.3}, geom.Vec{21.33, 101.88})
	w := r.project().Site.Water.Observed
	if len(w) != n+1 {
		t.Fatalf("%d observed levels, want %d", len(w), n+1)
	}
	if got := w[n].Pos.Sub(geom.Vec{21.33, 101.88}).Len(); got > 0.2 {
		t.Errorf("dragged to %v", w[n].Pos)
	}
	r.board.TypedShortcut(&fyne.ShortcutUndo{})
	if len(r.project().Site.Water.Observed) != n {
		t.Error("adding and dragging in one press are not one step")
	}
}

// The box by its area, by its handles, with and without snapping; one drag is
// one step and undo brings everything back.
func TestDragBox(t *testing.T) {
	for _, c := range []struct {
		name   string
		held   fyne.KeyModifier
		grip   func(r *rig) geom.Vec
		by     geom.Vec
		dx, dz float64
		tol    float64
	}{
		{"by its area, on the grid", 0, func(r *rig) geom.Vec { return r.board.view.Box.Center().Add(geom.Vec{1.3, 0.4}) }, geom.Vec{1.03, 0.31}, 1.03, 0.31, 0.2},
		{"no snapping with Alt", fyne.KeyModifierAlt, func(r *rig) geom.Vec { return r.board.view.Box.Center().Add(geom.Vec{1.3, 0.4}) }, geom.Vec{1.037, 0.313}, 1.037, 0.313, 0.03},
		{"level with Shift", fyne.KeyModifierShift, func(r *rig) geom.Vec { return r.handle("box").At }, geom.Vec{1, 0.3}, 1, 0, 0.1},
		{"plumb with Shift", fyne.KeyModifierShift, func(r *rig) geom.Vec { return r.handle("box").At }, geom.Vec{0.3, -0.8}, 0, -0.8, 0.2},
		{"up and down by its floor", 0, func(r *rig) geom.Vec { return r.handle("box.level").At }, geom.Vec{2, 0.7}, 0, 0.7, 0.1},
		{"along by its front", 0, func(r *rig) geom.Vec { return r.handle("box.front").At }, geom.Vec{0.6, 2}, 0.6, 0, 0.1},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, LongSection, demo)
			start := r.project()
			r.held = c.held
			from := c.grip(r)
			r.move(from, from.Add(c.by))
			got := r.project().Box
			if !near(got.Front-start.Box.Front, c.dx, c.tol) || !near(got.Level-start.Box.Level, c.dz, c.tol) {
				t.Errorf("moved by %.3f, %.3f; want %.3f, %.3f", got.Front-start.Box.Front, got.Level-start.Box.Level, c.dx, c.dz)
			}
			if c.dx == 0 && got.Front != start.Box.Front || c.dz == 0 && got.Level != start.Box.Level {
				t.Error("what is held fast has moved")
			}
			if n := r.steps(); n != 1 {
				t.Errorf("one drag is %d steps", n)
			}
			r.board.TypedShortcut(&fyne.ShortcutUndo{})
			if !reflect.DeepEqual(r.project(), start) {
				t.Error("undo does not bring the start back")
			}
			r.board.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierControl | fyne.KeyModifierShift})
			if !reflect.DeepEqual(r.project().Box, got) {
				t.Error("redo does not bring the drag back")
			}
		})
	}
}

// Numbers and the reason of a snap stand beside the pointer during a drag.
func TestDragTellsNumbers(t *testing.T) {
	for _, sys := range []units.System{units.Metric, units.US} {
		r := newRig(t, LongSection, demo)
		r.desk.SetUnits(sys)
		h := r.handle("fill.back_top")
		at := r.board.cam.position(h.At)
		r.down(at)
		r.drag(at.AddXY(0, -30))
		text := ""
		for _, l := range r.board.overlay.note.texts {
			if l.Visible() {
				text += l.Text + "\n"
			}
		}
		want := units.Format(r.project().Fill.BackTop, 1, sys)
		if !strings.Contains(text, want) || !strings.Contains(text, "Snap: ") {
			t.Errorf("beside the pointer: %q, want the value %q and the reason", text, want)
		}
		r.up(at, true)
	}
}

// Esc in a drag restores what was there and leaves no step behind.
func TestEscapeRestores(t *testing.T) {
	r := newRig(t, LongSection, demo)
	r.board.Select("fill.front_top")
	r.key(fyne.KeyUp)
	steps, start := r.steps(), r.project()
	at := r.board.cam.position(r.handle("box").At)
	r.down(at)
	r.drag(at.AddXY(30, 10))
	if reflect.DeepEqual(r.project(), start) {
		t.Fatal("the drag did nothing")
	}
	r.key(fyne.KeyEscape)
	r.drag(at.AddXY(60, 10)) // the button is still down
	r.up(at.AddXY(60, 10), true)
	if !reflect.DeepEqual(r.project(), start) {
		t.Error("Esc does not restore")
	}
	if n := r.steps(); n != steps {
		t.Errorf("%d steps after Esc, want %d", n, steps)
	}
}

// A drag that goes where nothing can be says why and stops there; coming back
// it goes on.
func TestDragOutOfRange(t *testing.T) {
	r := newRig(t, LongSection, demo)
	g := r.project().Site.Ground
	from := g[1]
	p := r.board.cam.position(from)
	past := r.board.cam.position(geom.Vec{g[2][0] + 2, g[2][1]})
	r.down(p)
	r.drag(past)
	if r.problem == "" || !reflect.DeepEqual(r.project().Site.Ground[1], from) {
		t.Errorf("problem %q, point at %v", r.problem, r.project().Site.Ground[1])
	}
	r.drag(p.AddXY(5, 5))
	if r.problem != "" || r.project().Site.Ground[1] == from {
		t.Errorf("coming back: problem %q, point at %v", r.problem, r.project().Site.Ground[1])
	}
	r.up(p.AddXY(5, 5), true)
}

func TestKeys(t *testing.T) {
	r := newRig(t, LongSection, demo)
	n := len(r.board.Handles())
	first := r.board.Handles()[0].ID
	r.key(fyne.KeyTab)
	if r.board.Selected() != first || !strings.Contains(r.status, r.board.Handles()[0].Label) {
		t.Errorf("Tab selects %q, status %q", r.board.Selected(), r.status)
	}
	for i := 0; i < n; i++ {
		r.key(fyne.KeyTab)
	}
	if r.board.Selected() != first {
		t.Error("Tab does not come round")
	}
	r.held = fyne.KeyModifierShift
	r.key(fyne.KeyTab)
	r.held = 0
	if r.board.Selected() != r.board.Handles()[n-1].ID {
		t.Errorf("Shift+Tab selects %q", r.board.Selected())
	}
	r.key(fyne.KeyHome)
	if r.board.Selected() != first {
		t.Error("Home is not the first")
	}
	r.key(fyne.KeyEnd)
	if r.board.Selected() != r.board.Handles()[n-1].ID {
		t.Error("End is not the last")
	}
	r.key(fyne.KeyEscape)
	for _, tool := range Tools() {
		r.board.TypedRune(tool.Key())
		if r.board.Tool() != tool || !strings.HasPrefix(r.status, tool.String()) {
			t.Errorf("key %c gives %v, status %q", tool.Key(), r.board.Tool(), r.status)
		}
	}
	if len(r.tools) < len(Tools())-1 {
		t.Error("OnToolChanged was not told")
	}
}

// Arrow keys: 10 mm or half an inch, ten times with Shift; a held key is one
// step of undo.
func TestNudge(t *testing.T) {
	for _, c := range []struct {
		sys  units.System
		held fyne.KeyModifier
		want float64
	}{{units.Metric, 0, 0.01}, {units.Metric, fyne.KeyModifierShift, 0.1}, {units.US, 0, 0.0127}, {units.US, fyne.KeyModifierShift, 0.127}} {
		r := newRig(t, LongSection, demo)
		r.desk.SetUnits(c.sys)
		r.held = c.held
		start := r.project().Box.Level
		r.board.Select("box.level")
		up := &fyne.KeyEvent{Name: fyne.KeyUp}
		r.board.KeyDown(up)
		for i := 0; i < 3; i++ {
			r.board.TypedKey(up) // the key repeats
		}
		r.board.KeyUp(up)
		if got := r.project().Box.Level - start; !near(got, 3*c.want, 1e-9) {
			t.Errorf("%v %v: moved %g, want %g", c.sys, c.held, got, 3*c.want)
		}
		r.key(fyne.KeyLeft) // not its axis
		r.board.TypedShortcut(&fyne.ShortcutUndo{})
		if got := r.project().Box.Level; got != start {
			t.Errorf("one undo leaves %g", got-start)
		}
	}
}

func TestDelete(t *testing.T) {
	r := newRig(t, LongSection, demo)
	n := len(r.project().Site.Ground)
	r.board.Select("site.ground[1]")
	r.key(fyne.KeyDelete)
	if len(r.project().Site.Ground) != n-1 {
		t.Error("Delete does not remove the ground point")
	}
	r.board.Select("box")
	before := r.project()
	r.key(fyne.KeyDelete)
	if r.project() != before || r.problem == "" {
		t.Error("the box can be deleted, or nothing is said")
	}
}

func TestPlaceBox(t *testing.T) {
	r := newRig(t, LongSection, demo)
	r.board.SetTool(PlaceBox)
	to := geom.Vec{10.5, 101.2}
	r.held = fyne.KeyModifierAlt
	r.click(to.Add(geom.Vec{-3, 0.9})) // outside of the box: its front foot comes here
	got := r.project().Box
	if !near(got.Front, to[0]-3, 0.05) || !near(got.Level, to[1]+0.9, 0.05) {
		t.Errorf("box at %.2f, %.2f", got.Front, got.Level)
	}
}

// The cross section has the handles of its own, and leaves drawing the site to
// the long section.
func TestCrossSection(t *testing.T) {
	r := newRig(t, CrossSection, demo)
	if err := r.desk.SetStation(r.project().Box.Front + 4); err != nil {
		t.Fatal(err)
	}
	h := r.handle("fill.shoulder")
	start := r.project().Fill.Shoulder
	r.move(h.At, h.At.Add(geom.Vec{0.3, 0.5}))
	if got := r.project().Fill.Shoulder - start; !near(got, 0.3, 0.06) {
		t.Errorf("shoulder moved by %.3f", got)
	}
	r.board.SetTool(DrawGround)
	if r.board.Tool() != Select || r.problem == "" {
		t.Error("the site can be drawn in the cross section, or nothing is said")
	}
}
