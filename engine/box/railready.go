package box

import "math"

// ReadyRail is a rail with what does not depend on its load worked out once:
// moment, shear and deflection all grow with it. Goroutines may share it.
type ReadyRail struct {
	unit Pair    // the ratio that decides, under 1 kN/m
	bow  float64 // deflection over what is allowed under 1 kN/m; 0 for a kind without that check
}

// Ready prepares a rail for many loads. Its own is set aside. It refuses what
// Check refuses.
func (kind *RailKind) Ready(in Rail) (*ReadyRail, error) {
	in.Load = Pair{1, 1}
	r, err := in.solve(kind)
	if err != nil {
		return nil, err
	}
	out := &ReadyRail{unit: Pair{math.Max(r.MRatio.ASD, r.VRatio.ASD), math.Max(r.MRatio.LRFD, r.VRatio.LRFD)}}
	if kind.bow != "" {
		_, out.bow, err = kind.Bow(in)
	}
	return out, err
}

// Ratio is RailKind.Ratio, and the ratio of RailKind.Bow, under a load in kN
// per m of the bar.
func (r *ReadyRail) Ratio(load Pair) (ratio, bow float64, err error) {
	if err := load.check("rail load"); err != nil {
		return 0, 0, err
	}
	w := load.size()
	return math.Max(r.unit.ASD*w.ASD, r.unit.LRFD*w.LRFD), r.bow * w.ASD, nil
}
