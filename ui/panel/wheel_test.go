package panel

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// The wheel moves a page also where the pointer stands over its fields.
func TestWheelOverFieldsMovesThePage(t *testing.T) {
	b := newBench(t, right)
	c, d := b.win.Canvas(), fyne.CurrentApp().Driver()
	for _, field := range []struct{ page, label string }{{"box", "Front at distance"}, {"fill", "Cover at the front edge"}, {"sheet", "Owner"}} {
		b.openPage(field.page)
		o := b.Control(field.label)
		s := b.page.scroller()
		at := d.AbsolutePositionForObject(o).AddXY(o.Size().Width/2, o.Size().Height/2)
		before := s.Offset.Y
		test.Scroll(c, at, 0, -40)
		if s.Offset.Y != before+40 {
			t.Errorf("%s: the page stands at %v, was at %v", field.label, s.Offset.Y, before)
		}
		// in a field that has the keys the wheel belongs to the field
		f := o.(*commitEntry)
		f.FocusGained()
		if f.guard.Visible() {
			t.Errorf("%s: the guard lies over the field while it is typed in", field.label)
		}
		f.FocusLost()
		if !f.guard.Visible() {
			t.Errorf("%s: the guard is gone", field.label)
		}
	}
}
