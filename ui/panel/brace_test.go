package panel

import "testing"

func TestPostsLendTheirBar(t *testing.T) {
	b := newBench(t, drawn)
	b.openPage("brace")
	choose := func(label, bar string) {
		t.Helper()
		for _, r := range b.rows() {
			if c, ok := r.(*choice); ok && c.label == label {
				for i, id := range c.ids {
					if id == bar {
						c.sel.SetSelectedIndex(i)
					}
				}
			}
		}
		b.q.drain()
	}
	choose("Posts", "shs100x5")
	if r := b.project().Strengthening.Ribs; r.Post != "shs100x5" || r.RoofBeam != "shs100x5" || r.FloorTie != "shs100x5" {
		t.Errorf("ribs %+v", r)
	}
	choose("Floor tie", "shs80x5")
	choose("Posts", "shs75x5")
	if r := b.project().Strengthening.Ribs; r.Post != "shs75x5" || r.RoofBeam != "shs100x5" || r.FloorTie != "shs80x5" {
		t.Errorf("what was chosen is gone: %+v", r)
	}
}
