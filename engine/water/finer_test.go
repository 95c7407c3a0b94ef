package water

import (
	"math"
	"testing"

	"hillset/engine/section"
	"hillset/engine/seepage"
)

// drips, m2/s, is what counts as nothing that a drain takes: at the front of the box
// put right a hundredth and less of what comes behind it.
const drips = 2e-7

// A finer mesh moves the water at the walls, and what the drains take, by no more
// than is said of it.
func TestFinerMesh(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		level, flow := 0.0, 0.0
		for _, c := range conditions(t, p) {
			at := func(g seepage.Grain) *State {
				c.o.Grain = g
				s, err := Solve(p, c.view, c.left, c.right, c.o)
				if err != nil {
					t.Fatal(err)
				}
				return s
			}
			was, fine := at(Ordinary()), at(seepage.Grain{Near: 0.07, Far: 0.8, Grow: 0.1})
			for _, f := range []section.Face{section.Back, section.Left, section.Right} {
				if f == section.Back != c.view.Long {
					continue
				}
				// water below the box is none at the wall
				a, b := math.Max(was.At(f).Level, c.view.Box.Min[1]), math.Max(fine.At(f).Level, c.view.Box.Min[1])
				level = math.Max(level, math.Abs(a-b))
			}
			for i, q := range was.Sums.Drains {
				if q > drips {
					flow = math.Max(flow, math.Abs(fine.Sums.Drains[i]/q-1))
				}
			}
		}
		t.Logf("%s: the water at a wall moves by %.3f m at most, a drain takes %.1f %% more or less", name, level, 100*flow)
		if level > FinerLevel || flow > FinerFlow {
			t.Errorf("%s: the water at a wall moves by %.3f m, what a drain takes by %.1f %%", name, level, 100*flow)
		}
	}
}
