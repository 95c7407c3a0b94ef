package earth

import "math"

// crackIn looks for the bottom of the tension crack in a part from level a to
// b whose vertical stress runs from sa to sb. The crack starts at the surface
// and ends where the soil comes under compression for the first time.
func (w *walk) crackIn(f face, a, b, sa, sb float64) {
	if w.sound {
		return
	}
	raw := func(sv float64) float64 { return f.k*sv - f.drop }
	switch {
	case f.drop == 0 || raw(sa) >= 0:
		w.sound = true
	case raw(sb) <= 0:
		w.crack = b
	default:
		w.crack = a - (a-b)*(f.drop/f.k-sa)/(sb-sa)
		w.sound = true
	}
}

// fillCrack puts water that stands up to the surface into the tension crack:
// at each level of it the larger of that and the still water.
func (w *walk) fillCrack() {
	s := w.c.Surface()
	if math.IsInf(w.crack, 1) || w.crack >= w.top {
		return
	}
	end := math.Max(w.crack, w.bottom)
	d := w.rows
	out := make(Diagram, 0, len(d)+3)
	out = append(out, d.Slice(w.top, s)...)
	for _, r := range d.Slice(math.Min(s, w.top), end) {
		r.U = math.Max(r.U, GammaW*(s-r.Level))
		r.Total = r.Soil + r.U
		out = append(out, r)
	}
	w.rows = append(out, d.Slice(end, w.bottom)...)
}
