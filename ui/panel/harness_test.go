package panel

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"hillset/engine/model"
	"hillset/ui/units"
)

// queue is the goroutine of the user interface in a test: what is posted from
// anywhere runs when the test drains it.
type queue struct {
	mu sync.Mutex
	fs []func()
}

func (q *queue) post(f func()) {
	q.mu.Lock()
	q.fs = append(q.fs, f)
	q.mu.Unlock()
}

// drain runs what was posted, and what that posts.
func (q *queue) drain() {
	for {
		q.mu.Lock()
		fs := q.fs
		q.fs = nil
		q.mu.Unlock()
		if len(fs) == 0 {
			return
		}
		for _, f := range fs {
			f()
		}
	}
}

// bench is a window under test.
type bench struct {
	*Window
	t *testing.T
	q *queue
}

// demos are the projects that the tests work on.
const (
	drawn = "../../testdata/potato-store-as-drawn.hillset"
	right = "../../testdata/potato-store-put-right.hillset"
)

func newBench(t *testing.T, file string) *bench {
	t.Helper()
	a := test.NewTempApp(t)
	q := &queue{}
	dir := t.TempDir()
	b := &bench{newWindow(a, places{config: dir, autosave: filepath.Join(dir, "unsaved")}, firstSettings(), q.post), t, q}
	b.win.Resize(fyne.NewSize(1280, 776))
	if file != "" && !b.open(file) {
		t.Fatalf("%s: %s", file, b.Said())
	}
	t.Cleanup(func() {
		if err := b.desk.Discard(); err != nil {
			t.Error(err)
		}
		if err := b.desk.Close(); err != nil {
			t.Error(err)
		}
	})
	q.drain()
	return b
}

// until drains the queue until something is so.
func (b *bench) until(what string, so func() bool) {
	b.t.Helper()
	for start := time.Now(); time.Since(start) < 60*time.Second; time.Sleep(5 * time.Millisecond) {
		b.q.drain()
		if so() {
			return
		}
	}
	b.t.Fatalf("never: %s; the window says %q and %q", what, b.Verdict(), b.Said())
}

// assessed waits for the whole result.
func (b *bench) assessed() {
	b.t.Helper()
	b.until("the result with its answers", func() bool {
		return b.desk.Fresh() && (b.desk.Result().Depth.Question != "" || len(b.desk.Result().Checks) == 0)
	})
}

// rows are those of the page in front.
func (b *bench) rows() []row {
	if pg, ok := b.page.(*page); ok {
		return pg.rows
	}
	return nil
}

func (b *bench) number(page, label string) *number {
	b.t.Helper()
	if !b.openPage(page) {
		b.t.Fatalf("no page %s", page)
	}
	for _, r := range b.rows() {
		if n, ok := r.(*number); ok && n.label == label {
			return n
		}
	}
	b.t.Fatalf("page %s has no number %q", page, label)
	return nil
}

// typed puts a text in a field as keys would, and leaves it.
func typed(e *commitEntry, text string) {
	e.FocusGained()
	e.SetText(text)
	e.FocusLost()
}

// texts lists what is written in a tree of objects, with its place.
func texts(o fyne.CanvasObject, seen func(t *canvas.Text)) {
	if !o.Visible() {
		return
	}
	switch o := o.(type) {
	case *canvas.Text:
		seen(o)
	case *fyne.Container:
		for _, c := range o.Objects {
			texts(c, seen)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			texts(c, seen)
		}
	}
}

// written joins all that is written in the window.
func (b *bench) written() string {
	var all strings.Builder
	texts(b.win.Content(), func(t *canvas.Text) { all.WriteString(t.Text + "\n") })
	return all.String()
}

func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) // rounding of a conversion of units
}

func (b *bench) units(sys units.System) {
	b.desk.SetUnits(sys)
	b.q.drain()
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func (b *bench) project() *model.Project { return b.desk.Project() }
