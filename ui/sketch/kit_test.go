package sketch

import (
	"context"
	"math"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/desk"
)

// rig is a board on a desk in a window of the test driver, with the clock and
// the modifier keys in the hands of the test.
type rig struct {
	t       *testing.T
	desk    *desk.Desk
	board   *Board
	window  fyne.Window
	held    fyne.KeyModifier
	pending []func()    // what the board wants done later
	posted  chan func() // what the desk wants done on the goroutine of the test
	status  string
	problem string
	tools   []Tool
}

const (
	demo   = "potato-store-as-drawn.hillset"
	mended = "potato-store-put-right.hillset"
)

// newRig opens a project of testdata; an empty name starts from nothing.
func newRig(t *testing.T, kind Kind, file string) *rig {
	return newRigOn(t, kind, file, desk.Options{})
}

// newRated is newRig with the engine behind it: see result.
func newRated(t *testing.T, kind Kind, file string) *rig {
	return newRigOn(t, kind, file, desk.Options{Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
		return assess.Run(ctx, p, tables.Default())
	}})
}

func newRigOn(t *testing.T, kind Kind, file string, o desk.Options) *rig {
	t.Helper()
	test.NewTempApp(t)
	r := &rig{t: t, posted: make(chan func(), 4096)}
	o.Post = func(f func()) { f() }
	if o.Assess != nil { // its answers come from another goroutine
		o.Post = func(f func()) { r.posted <- f }
	}
	r.desk = desk.New(o)
	if file != "" {
		if err := r.desk.Open(filepath.Join("..", "..", "testdata", file)); err != nil {
			t.Fatal(err)
		}
	}
	r.board = NewBoard(r.desk, kind, Options{
		OnStatus:      func(s string) { r.status = s },
		OnProblem:     func(s string) { r.problem = s },
		OnToolChanged: func(tool Tool) { r.tools = append(r.tools, tool) },
	})
	r.board.modifiers = func() fyne.KeyModifier { return r.held }
	r.board.after = func(_ time.Duration, f func()) { r.pending = append(r.pending, f) }
	r.window = test.NewTempWindow(t, r.board)
	r.window.SetPadded(false)
	r.window.Resize(fyne.NewSize(1000, 640))
	r.window.Canvas().Focus(r.board)
	t.Cleanup(func() {
		r.board.Close()
		if err := r.desk.Close(); err != nil {
			t.Error(err)
		}
	})
	return r
}

func (r *rig) project() *model.Project { return r.desk.Project() }

// wait runs what the board wanted done later.
func (r *rig) wait() {
	todo := r.pending
	r.pending = nil
	for _, f := range todo {
		f()
	}
}

// result waits for the assessment of the project as it is now.
func (r *rig) result() {
	r.t.Helper()
	for len(r.posted) > 0 {
		(<-r.posted)()
	}
	late := time.After(time.Minute)
	for !r.desk.Fresh() && r.desk.Err() == nil {
		select {
		case f := <-r.posted:
			f()
		case <-late:
			r.t.Fatal("no result within a minute")
		}
	}
}

func mouse(at fyne.Position, b desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: b}
}

func (r *rig) down(at fyne.Position) { r.board.MouseDown(mouse(at, desktop.MouseButtonPrimary)) }

// up ends a press as the toolkit does: MouseUp first, then DragEnd when the
// pointer was dragged.
func (r *rig) up(at fyne.Position, dragged bool) {
	r.board.MouseUp(mouse(at, desktop.MouseButtonPrimary))
	if dragged {
		r.board.DragEnd()
	}
}

func (r *rig) drag(at fyne.Position) {
	r.board.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
}

// move drags from a to b, both points of the section, in a few steps.
func (r *rig) move(a, b geom.Vec) {
	p, q := r.board.cam.position(a), r.board.cam.position(b)
	r.down(p)
	for i := 1; i <= 5; i++ {
		k := float32(i) / 5
		r.drag(fyne.NewPos(p.X+(q.X-p.X)*k, p.Y+(q.Y-p.Y)*k))
	}
	r.up(q, true)
}

func (r *rig) click(p geom.Vec) {
	at := r.board.cam.position(p)
	r.down(at)
	r.up(at, false)
}

func (r *rig) key(names ...fyne.KeyName) {
	for _, n := range names {
		e := &fyne.KeyEvent{Name: n}
		r.board.KeyDown(e)
		r.board.TypedKey(e)
		r.board.KeyUp(e)
	}
}

func (r *rig) handle(id string) Handle {
	r.t.Helper()
	h := r.board.handle(id)
	if h == nil {
		r.t.Fatalf("no handle %q", id)
	}
	return *h
}

// steps counts what can be undone, and leaves the project as it was.
func (r *rig) steps() int {
	n := 0
	for {
		if _, ok := r.desk.CanUndo(); !ok {
			break
		}
		r.desk.Undo()
		n++
	}
	for i := 0; i < n; i++ {
		r.desk.Redo()
	}
	return n
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }
