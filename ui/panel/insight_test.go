package panel

import (
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
)

// Somebody who works by keys alone sees every control of every page when Tab
// has led to it, there and back.
func TestTabbedControlsAreInSight(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	b.edit("lists", func(p *model.Project) error { *p = *crowded(t, b); return nil })
	b.q.drain()
	b.assessed()
	d := fyne.CurrentApp().Driver()
	for _, back := range []bool{false, true} {
		for _, pg := range order {
			b.openPage(pg)
			b.enterPage()
			c, first := b.win.Canvas(), b.win.Canvas().Focused()
			if first == nil {
				t.Fatalf("page %s takes no keys", pg)
			}
			tabs := 0
			for ; tabs < 400; tabs++ {
				o := c.Focused().(fyne.CanvasObject)
				s := b.page.scroller()
				if within(s.Content, o) {
					y := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s).Y + o.Size().Height/2
					if y < 0 || y > s.Size().Height {
						t.Errorf("page %s, %d tabs, back %v: %T has the keys at %v of %v", pg, tabs, back, o, y, s.Size().Height)
					}
				}
				if back {
					c.FocusPrevious()
				} else {
					c.FocusNext()
				}
				if c.Focused() == first {
					break
				}
			}
			if tabs < 10 || tabs == 400 {
				t.Errorf("page %s: %d tabs go round", pg, tabs)
			}
		}
	}
}

// within tells whether an object stands somewhere in a tree.
func within(tree, o fyne.CanvasObject) bool {
	if tree == o {
		return true
	}
	if c, ok := tree.(*fyne.Container); ok {
		for _, part := range c.Objects {
			if within(part, o) {
				return true
			}
		}
	}
	return false
}

// The keys that open a page put the cursor in its first field.
func TestPageKeysEnterThePage(t *testing.T) {
	b := newBench(t, right)
	for _, m := range b.win.MainMenu().Items {
		for _, it := range m.Items {
			for _, pg := range b.pages {
				if it.Label != "Page "+pg.about().name {
					continue
				}
				it.Action()
				b.q.drain()
				f, ok := b.win.Canvas().Focused().(fyne.CanvasObject)
				if b.page != pg || !ok || b.page.about().key != "checks" && !within(b.page.scroller().Content, f) {
					t.Errorf("%s: page %s is shown, %T has the keys", it.Label, b.page.about().key, b.win.Canvas().Focused())
				}
			}
		}
	}
}
