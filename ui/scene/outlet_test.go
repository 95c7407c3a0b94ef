package scene

import (
	"math"
	"testing"
)

// The outlet runs from the front of the box at the fall of the drain to the
// ground.
func TestOutletIsDrawn(t *testing.T) {
	d := demos(t)["potato-store-put-right"]
	v, s := defended(t, "high-long", nil)
	ps := paths(s, "outlet")
	if len(ps) == 0 {
		t.Fatal("it is not drawn")
	}
	line := d.r.Outlet
	start, end := line[0], line[len(line)-1]
	if fall := (start[1] - end[1]) / (start[0] - end[0]); math.Abs(fall-d.r.Project.Defence.Drain.Fall) > 1e-6 {
		t.Errorf("it falls by %.4f", fall)
	}
	if z, ok := v.Finish.At(end[0]); !ok || math.Abs(z-end[1]) > 1e-3 {
		t.Errorf("it ends at %.3f where the ground is at %.3f", end[1], z)
	}
	if start[0] > v.Box.Min[0] || start[1] > v.Formation {
		t.Errorf("it begins at %v", start)
	}
}
