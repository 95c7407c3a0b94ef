package sketch

import (
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/ui/units"
)

// A value typed for the selected handle, in the reader's units or any other.
func TestTypeValue(t *testing.T) {
	for _, c := range []struct {
		id, text string
		get      func(p *model.Project) float64
		want     float64
	}{
		{"fill.back_top", "0.45", func(p *model.Project) float64 { return p.Fill.BackTop }, 0.45},
		{"fill.back_top", `1'6"`, func(p *model.Project) float64 { return p.Fill.BackTop }, 0.4572},
		{"cut.batter", "1:1", func(p *model.Project) float64 { return p.Cut.Batter }, 1},
		{"box.front", "9.25 m", func(p *model.Project) float64 { return p.Box.Front }, 9.25},
	} {
		t.Run(c.id+" "+c.text, func(t *testing.T) {
			r := newRig(t, LongSection, demo)
			r.board.Select(c.id)
			r.key(fyne.KeyReturn)
			if !r.board.Typing() {
				t.Fatal("Enter opens nothing")
			}
			e := r.board.entry.fields[0]
			e.SetText(c.text)
			e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			if got := c.get(r.project()); !near(got, c.want, 1e-9) || r.board.Typing() {
				t.Errorf("stored %g, want %g (problem %q)", got, c.want, r.problem)
			}
		})
	}
}

func TestTypeValueOfAPoint(t *testing.T) {
	r := newRig(t, LongSection, demo)
	g := r.project().Site.Ground
	r.board.Select("site.ground[1]")
	r.board.TypedRune('7') // a digit begins typing
	p := r.board.entry
	if len(p.fields) != 2 || p.fields[0].Text != "7" {
		t.Fatalf("fields %d, first %q", len(p.fields), p.fields[0].Text)
	}
	p.fields[0].SetText("rubbish")
	p.submit()
	if !r.board.Typing() || !p.fault.Visible() || r.problem == "" {
		t.Error("rubbish is taken or nothing is said")
	}
	x := (g[0][0] + g[2][0]) / 2
	p.fields[0].SetText(units.Entry(x, 1, units.Metric))
	p.fields[1].SetText("99.5")
	p.submit()
	if got := r.project().Site.Ground[1]; !near(got[0], x, 1e-6) || !near(got[1], 99.5, 1e-9) {
		t.Errorf("typed point at %v", got)
	}
	r.board.Select("site.ground[1]")
	r.key(fyne.KeyReturn)
	r.board.entry.fields[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if r.board.Typing() {
		t.Error("Esc does not close the field")
	}
}

// Two quick clicks on a handle open the field for typing.
func TestDoubleClick(t *testing.T) {
	r := newRig(t, LongSection, demo)
	at := r.handle("box.front").At
	r.click(at)
	r.click(at)
	if !r.board.Typing() {
		t.Error("a double click opens nothing")
	}
}

// Two boards on one desk show the same project, whoever changed it; another
// file brings its own window.
func TestBoardsFollowTheDesk(t *testing.T) {
	r := newRig(t, LongSection, demo)
	other := NewBoard(r.desk, CrossSection, Options{})
	defer other.Close()
	if err := r.desk.Edit("elsewhere", "", func(p *model.Project) error { p.Box.Level += 0.5; return nil }); err != nil {
		t.Fatal(err)
	}
	for _, b := range []*Board{r.board, other} {
		if b.project != r.project() || !near(b.view.Box.Min[1], r.project().Box.Level, 1e-9) {
			t.Error("a board does not follow an edit made elsewhere")
		}
	}
	r.board.Pan(5000, 0)
	if err := r.desk.Open("../../testdata/potato-store-put-right.hillset"); err != nil {
		t.Fatal(err)
	}
	box := r.board.cam.position(r.board.view.Box.Center())
	if !r.board.within(box) {
		t.Errorf("after opening another file the box is at %v", box)
	}
}
