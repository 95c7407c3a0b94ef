package assess

import (
	"math"
	"slices"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
)

// The drain of the store put right keeps the water below the box; blocked, it
// stands against the blind end, and every pressure there is that of the
// computed level.
func TestDrainHoldsTheWaterBelowTheBox(t *testing.T) {
	p := computedDemo(t, "put-right")
	st := p.Stages[slices.IndexFunc(p.Stages, func(st model.Stage) bool { return st.Blocked })]
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	wet := map[string]float64{}
	for _, l := range r.Loads {
		for _, row := range l.Diagram {
			wet[l.Stage] = math.Max(wet[l.Stage], row.U)
		}
	}
	if wet["high"] > 0 {
		t.Errorf("with the drain at work water presses with %.2f kPa", wet["high"])
	}
	w, err := r.Water.At(st)
	if err != nil {
		t.Fatal(err)
	}
	c := w.CrossAt(p.Box.Front + 6.058)
	level := math.Max(c.At(section.Left).Level, c.At(section.Right).Level)
	if want := 9.81 * (level - p.Box.Level); !(want > 1) || math.Abs(wet["blocked"]-want) > 0.02*want {
		t.Errorf("blocked, water presses with %.2f kPa, want %.2f by the level %.2f", wet["blocked"], want, level)
	}
	if f := find(r, "flotation", "box"); f == nil || f.Stage != "blocked" {
		t.Errorf("flotation = %+v, want it at the blocked drain", f)
	}
}

// A gravel whose permeability nobody gave keeps its stages from being checked,
// by name.
func TestPermeabilityOfGravelIsAskedFor(t *testing.T) {
	p := computedDemo(t, "put-right")
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = nil
	}
	r := run(t, p)
	for _, b := range r.Blocks {
		if b.Field == "site.soils[3].kx" {
			return
		}
	}
	t.Errorf("blocks = %v, want one that asks for the permeability of the drain stone", r.Blocks)
}

// BenchmarkRunComputed is a step of a drag that moves the water: everything is
// computed anew.
func BenchmarkRunComputed(b *testing.B) {
	p := computedDemo(b, "put-right")
	for b.Loop() {
		p.Box.Front += 1e-4
		run(b, p)
	}
}
