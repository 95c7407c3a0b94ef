package panel

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"hillset/engine/model"
)

// benchWindow is a window with a whole result, without the checks of a test.
func benchWindow(b *testing.B) *Window {
	b.Helper()
	q := &queue{}
	w := newWindow(test.NewTempApp(b), places{}, firstSettings(), q.post)
	if err := w.desk.Open(right); err != nil {
		b.Fatal(err)
	}
	for w.desk.Result() == nil || !w.desk.Fresh() {
		q.drain()
	}
	b.Cleanup(func() {
		if err := w.desk.Close(); err != nil {
			b.Error(err)
		}
	})
	return w
}

// What is done beside the drawing at every step of a drag must stay far below
// a frame of 16 ms.
func BenchmarkPageFollowsADrag(b *testing.B) {
	for _, page := range []string{"box", "fill", "soil"} {
		b.Run(page, func(b *testing.B) {
			w := benchWindow(b)
			w.openPage(page)
			x := 0.0
			for b.Loop() {
				x += 0.001
				if err := w.desk.Edit("Move", "drag", func(p *model.Project) error { p.Box.Front = 6.6 + x; return nil }); err != nil {
					b.Fatal(err)
				}
				w.showPage()
			}
		})
	}
}

func BenchmarkHeaderAndChecks(b *testing.B) {
	w := benchWindow(b)
	w.openPage("checks")
	for b.Loop() {
		w.header.show()
		w.showPage()
	}
}
