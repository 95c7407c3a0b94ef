package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// onSlab is the store put right on a slab.
func onSlab(t testing.TB, thick float64) *model.Project {
	t.Helper()
	p := demo(t, "put-right").Clone()
	p.Bedding.Kind, p.Bedding.PadThickness, p.Bedding.PadFc = model.SlabBedding, thick, 25
	return p
}

// TestSlabUnderCastings: the part of a slab that carries the most loaded casting is as
// large as the weaker of rock bed and ground asks for, by hand from the load of that
// casting; bars make it stronger, and what is left open is told.
func TestSlabUnderCastings(t *testing.T) {
	p := onSlab(t, 0.25)
	r := run(t, p)
	c := find(r, padSlot.id, padSlot.part)
	if c == nil || c.Verdict() == check.NotChecked || c.Title != slabTitle {
		t.Fatalf("%+v", c)
	}
	cast := find(r, castSlot.id, "")
	rock, _ := section.SoilByID(p, p.Bedding.RockSoil)
	sr := worked(t, jobOf(t, p), c.Stage)
	below, _ := jobOf(t, p).weakestBelow(sr.view)
	allow := math.Min(rock.Bearing, below.Bearing)
	area := math.NaN()
	load := math.NaN()
	for _, l := range c.Working {
		if l.Result.Sym == "A" {
			area = l.Result.Val
			load = l.Terms[0].Val
		}
	}
	if c.Stage == cast.Stage {
		closeTo(t, "load of the casting", load, cast.Demand.Val, 1e-9)
	}
	closeTo(t, "part of the slab", area, load/(allow-24*0.25), 1e-9)
	if left := find(r, "slab-between", padSlot.part); left == nil || left.Verdict() != check.NotChecked {
		t.Errorf("what is left open: %+v", left)
	}
	barred := onSlab(t, 0.25)
	barred.Bedding.SlabBar, barred.Bedding.SlabBarSpacing, barred.Bedding.SlabBarCover = 12, 0.15, 0.075
	if b := find(run(t, barred), padSlot.id, ""); b == nil || !(b.RatioLRFD < 0.8*c.RatioLRFD) {
		t.Errorf("with bars %+v, plain %.3f", b, c.RatioLRFD)
	}
	soft := onSlab(t, 0.25)
	for i := range soft.Site.Soils {
		soft.Site.Soils[i].Bearing = 0
	}
	if b := find(run(t, soft), padSlot.id, ""); b == nil || !strings.Contains(b.Missing, "no bearing value") {
		t.Errorf("on ground without a bearing value: %+v", b)
	}
	unknown := onSlab(t, 0.25)
	unknown.Bedding.PadFc = 0
	if b := find(run(t, unknown), padSlot.id, ""); b == nil || !strings.Contains(b.Missing, "strength of the concrete") {
		t.Errorf("concrete of unknown strength: %+v", b)
	}
	half := onSlab(t, 0.25)
	half.Bedding.SlabBar = 12
	if len(half.Validate()) == 0 {
		t.Error("bars without spacing are taken")
	}
}
