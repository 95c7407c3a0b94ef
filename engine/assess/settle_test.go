package assess

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// stood is the field of EP-26 with a stiffness given: 25 MPa and 0.3 as in
// EP-24, bed rock of 80 MPa.
func stood() *model.Project {
	p := ep26()
	s := &p.Site.Soils[0]
	s.E, s.Nu, s.Set = 25000, 0.3, []string{"e"}
	bed := *s
	bed.ID, bed.Name, bed.USCS, bed.E = "bed", "bed rock", "GW", 80000
	p.Site.Soils = append(p.Site.Soils, bed)
	p.Bedding.RockSoil = "bed"
	return p
}

// lineOf is the result of a step of a working.
func lineOf(t *testing.T, c *check.Check, text string) float64 {
	t.Helper()
	for _, l := range c.Working {
		if strings.HasPrefix(l.Text, text) {
			return l.Result.Val
		}
	}
	t.Fatalf("%s has no step %q", c.ID, text)
	return 0
}

// TestSettlementByHand works the box of EP-26 by hand from the loads that the
// check of bearing gives its pads: the bed as EP-24 has it, the ground as a
// half-space with the average factor of the reference (a square 0.946; derived),
// and each neighbour as a point load, Q(1-ν²)/(πEr) (Boussinesq, memory).
func TestSettlementByHand(t *testing.T) {
	p := stood()
	b := &p.Bedding
	b.PadLength, b.PadWidth, b.PadThickness, b.RockThickness = 0.9, 0.9, 0.2, 0.3
	r := run(t, p)
	bearing := find(r, padBearing, "rock bed")
	const (
		e, nu, bed   = 25000, 0.3, 107700 // bed: M of EP-24, kPa
		side, wide   = 0.9, 1.2           // spread 2:1 through 0.3 m
		castL, castW = 0.178, 0.162       // of a corner casting
	)
	names := []string{"front right", "front left", "back right", "back left"}
	// the working names the loads in the order of names
	var q [4]float64
	i := 0
	for _, l := range bearing.Working {
		if l.Text == "Pressure below it" {
			q[i] = l.Result.Val
			i++
		}
	}
	if i != 4 || q[0] <= q[2] {
		t.Fatalf("pressures %v: the hill presses the front down more", q)
	}
	spanX, spanY := 6.058-castL, 2.438-castW
	far := map[int]float64{1: spanY, 2: spanX, 3: math.Hypot(spanX, spanY)} // by how the numbers of two pads differ
	var want [4]float64
	for i := range want {
		mid := side + 0.15
		want[i] = q[i] * side * side / (mid * mid) * 0.3 / bed
		below := q[i] * side * side / (wide * wide)
		want[i] += below * wide * 0.946 * (1 - nu*nu) / e
		for k := range q {
			if k != i {
				want[i] += q[k] * side * side * (1 - nu*nu) / (math.Pi * e * far[i^k])
			}
		}
	}
	s := find(r, "settlement", "pads")
	if s == nil || s.Verdict() != check.Within {
		t.Fatalf("settlement: %+v", s)
	}
	for i, name := range names {
		text := "In the same way, the pad " + name
		if i == 0 {
			text = "Together, the pad " + name
		}
		if got := lineOf(t, s, text); math.Abs(got/want[i]-1) > 0.01 {
			t.Errorf("%s goes down %.3f mm, by hand %.3f", name, 1000*got, 1000*want[i])
		}
	}
	tilt := find(r, "tilt", "box")
	if by := (want[0] - want[2]) / spanX; math.Abs(tilt.Demand.Val/by-1) > 0.03 {
		t.Errorf("tilt %g, by hand %g", tilt.Demand.Val, by)
	}
	if math.Abs(s.Capacity.Val-0.025) > 1e-12 || math.Abs(tilt.Capacity.Val-1./250) > 1e-12 {
		t.Errorf("limits %g and %g", s.Capacity.Val, tilt.Capacity.Val)
	}
	if tw := find(r, "twist", "box"); tw.Demand.Val > 1e-9 {
		t.Errorf("even ground twists the box by %g", tw.Demand.Val)
	}
	if find(r, settleGap.id, settleGap.part).Verdict() == check.NotChecked {
		t.Error("it is listed as not checked as well")
	}
}

// TestSettlementAsks refuses what no modulus tells, and says which soil.
func TestSettlementAsks(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *model.Project, s, bed *model.Soil)
		want   []string
	}{
		{"stiffness of the ground", func(_ *model.Project, s, _ *model.Soil) { s.Set = nil }, []string{"stiffness", "“soil”", "asked for"}},
		{"stiffness of the bed", func(_ *model.Project, _, bed *model.Soil) { bed.Set = nil }, []string{"stiffness", "“bed rock”"}},
		{"none", func(_ *model.Project, s, _ *model.Soil) { s.E = 0 }, []string{"stiffness", "“soil”"}},
		{"organic", func(_ *model.Project, s, _ *model.Soil) { s.USCS = "PT" }, []string{"organic", "dig it out"}},
		{"clay of any strength", func(_ *model.Project, s, _ *model.Soil) { s.USCS = "CH" }, []string{"undrained strength", "“soil”"}},
		{"soft clay", func(_ *model.Project, s, _ *model.Soil) { s.USCS, s.Cu = "CL", 30 }, []string{"soft", "dig it out"}},
		{"soft silt", func(_ *model.Project, s, _ *model.Soil) { s.USCS, s.Cu = "ML", 30 }, []string{"soft"}},
		{"cannot be squeezed", func(_ *model.Project, s, _ *model.Soil) { s.Nu = 0.5 }, []string{"0.49"}},
		{"on fill at the side", func(p *model.Project, _, _ *model.Soil) {
			p.Site.CrossSlope = 0.2
			p.Site.Ground = []model.Vec{{0, 99.6}, {18, 99.6}, {26.2, 99.7}, {27, 103.191}, {60, 103.191}}
		}, []string{"left", "fill"}},
	} {
		p := stood()
		c.change(p, &p.Site.Soils[0], &p.Site.Soils[1])
		r := run(t, p)
		got := find(r, settleGap.id, settleGap.part)
		if got == nil || got.Verdict() != check.NotChecked {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(got.Missing, w) {
				t.Errorf("%s: %q does not say %q", c.name, got.Missing, w)
			}
		}
		if find(r, "tilt", "") != nil || find(r, "twist", "") != nil {
			t.Errorf("%s: tilt or twist is worked out", c.name)
		}
	}
	p := stood() // firm clay, and silt of which nothing more is known
	p.Site.Soils[0].USCS, p.Site.Soils[0].Cu = "CL", 60
	if c := find(run(t, p), "settlement", "pads"); c.Verdict() != check.Within {
		t.Errorf("firm clay: %s", c.Missing)
	}
	p.Site.Soils[0].USCS, p.Site.Soils[0].Cu = "ML", 0
	if c := find(run(t, p), "settlement", "pads"); c.Verdict() != check.Within || !strings.Contains(strings.Join(c.Assumptions, " "), "counts as firm") {
		t.Errorf("silt: %v", c.Assumptions)
	}
}

// TestSettlementFollows: stiffer ground, rock, a lighter roof and less of a hill
// settle less; the softer end tilts the box.
func TestSettlementFollows(t *testing.T) {
	of := func(change func(p *model.Project)) map[string]float64 {
		p := stood()
		change(p)
		out := map[string]float64{}
		for _, s := range []slot{settleSlot, tiltSlot, twistSlot} {
			c := find(run(t, p), s.id, s.part)
			if c == nil || c.Verdict() == check.NotChecked {
				t.Fatalf("%s is not checked: %+v, %+v", s.id, c, find(run(t, p), settleGap.id, settleGap.part))
			}
			out[s.id] = c.Demand.Val
		}
		return out
	}
	base := of(func(*model.Project) {})
	for name, change := range map[string]func(p *model.Project){
		"stiffer ground": func(p *model.Project) { p.Site.Soils[0].E *= 2 },
		"stiffer bed":    func(p *model.Project) { p.Site.Soils[1].E *= 2 },
		"rock":           func(p *model.Project) { p.Site.Rock = []model.Vec{{0, 98.5}, {60, 98.5}} },
		"less cover":     func(p *model.Project) { p.Fill.FrontTop, p.Fill.BackTop = 0.3, 0.3 },
		"wider pads":     func(p *model.Project) { p.Bedding.PadLength, p.Bedding.PadWidth = 1.1, 1.1 },
		"slab":           func(p *model.Project) { p.Bedding.Kind = model.SlabBedding },
	} {
		if got := of(change); got["settlement"] >= base["settlement"] {
			t.Errorf("%s: %g, not less than %g", name, got["settlement"], base["settlement"])
		}
	}
	for kind, want := range map[string]string{model.SlabBedding: "each a quarter", model.RockBedding: "bare castings"} {
		p := stood()
		p.Bedding.Kind = kind
		if words := strings.Join(find(run(t, p), "settlement", "pads").Assumptions, " "); !strings.Contains(words, want) {
			t.Errorf("%s does not say %q: %s", kind, want, words)
		}
	}
	if got := of(func(p *model.Project) { p.Bedding.Kind = model.RockBedding }); got["settlement"] <= base["settlement"] {
		t.Errorf("bare castings: %g, not more than %g", got["settlement"], base["settlement"])
	}
	soft := of(func(p *model.Project) { // stiff ground that begins below the back
		p.Site.Soils = append(p.Site.Soils, p.Site.Soils[0])
		s := &p.Site.Soils[2]
		s.ID, s.E = "stiff", 100000
		p.Site.Strata = append(p.Site.Strata, model.Stratum{ID: "two", Soil: "stiff", Top: []model.Vec{{0, 95}, {20, 95}, {26, 99.5}, {60, 99.5}}})
	})
	if soft["tilt"] <= base["tilt"] {
		t.Errorf("the front on softer ground: tilt %g, not more than %g", soft["tilt"], base["tilt"])
	}
	turned := of(func(p *model.Project) { p.Box.Orientation, p.Box.Ballast = model.Broadside, 20000 })
	if turned["settlement"] <= 0 {
		t.Error("broadside nothing settles")
	}
	p := stood() // the stiff ground below the pads falls to the left
	p.Site.Soils = append(p.Site.Soils, p.Site.Soils[0])
	p.Site.Soils[2].ID, p.Site.Soils[2].E = "stiff", 100000
	p.Site.CrossSlope = 0.1
	p.Site.Strata = append(p.Site.Strata, model.Stratum{ID: "two", Soil: "stiff", Top: []model.Vec{{0, 99.3}, {60, 99.3}}})
	c := find(run(t, p), tiltSlot.id, tiltSlot.part)
	left, right := lineOf(t, c, "Together, the pad front left"), lineOf(t, c, "In the same way, the pad front right")
	if across := lineOf(t, c, "Tilt across"); left <= right || across < (left-right)/2.438 {
		t.Errorf("left %g, right %g down, tilt across %g", left, right, across)
	}
}

// TestSettlementRemedies are done, and hold.
func TestSettlementRemedies(t *testing.T) {
	p := stood()
	p.Site.Soils[0].E = 6000
	now := find(run(t, p), "settlement", "pads").Demand.Val
	p.Bedding.MaxSettle = 1000 * now * 0.9
	c := find(run(t, p), "settlement", "pads")
	if c.Verdict() != check.Beyond || !strings.Contains(c.Source, "yours") || len(c.RemedyQ) != 2 {
		t.Fatalf("%v, %q, %v", c.Verdict(), c.Remedy, c.RemedyQ)
	}
	wide := p.Clone()
	wide.Bedding.PadLength, wide.Bedding.PadWidth = c.RemedyQ[0].Val, c.RemedyQ[0].Val
	deep := p.Clone()
	deep.Bedding.RockThickness = c.RemedyQ[1].Val
	for name, p := range map[string]*model.Project{"wide": wide, "deep": deep} {
		if got := find(run(t, p), "settlement", "pads"); got.Verdict() != check.Within {
			t.Errorf("%s: %q leaves a ratio of %.3f", name, c.Remedy, got.Ratio)
		}
	}
	p.Bedding.MaxSettle = 2
	p.Site.Soils[0].E = 500
	if c := find(run(t, p), "settlement", "pads"); c.Verdict() != check.Beyond || len(c.RemedyQ) != 0 || !strings.Contains(c.Remedy, "dig the soft soil out") {
		t.Errorf("beyond help: %q", c.Remedy)
	}
}

// TestAdviceOnSettlement: wider pads and a thicker bed are tried, and hold.
func TestAdviceOnSettlement(t *testing.T) {
	p := demo(t, "put-right")
	p.Bedding.MaxSettle = 2.2
	ms, err := Advise(context.Background(), run(t, p), tables.Default(), nil)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, m := range ms {
		if !slices.Contains(m.For, "settlement") || len(m.Steps) > 0 {
			continue
		}
		found[m.ID] = true
		if m.ID != "pads" && m.ID != "bed" {
			continue
		}
		after := p.Clone()
		m.Apply(after)
		if c := find(run(t, after), "settlement", "pads"); c.Verdict() != check.Within {
			t.Errorf("%s: a ratio of %.3f is left", m.ID, c.Ratio)
		}
	}
	if !found["bed"] || !found["pads"] {
		t.Errorf("advised: %v", found)
	}
}

// TestSettlementOfTheDemos: it runs in both; the stage in which the box as drawn
// tips is named.
func TestSettlementOfTheDemos(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		r := run(t, demo(t, name))
		for _, s := range []slot{settleSlot, tiltSlot, twistSlot} {
			if c := find(r, s.id, s.part); c == nil || c.Verdict() != check.Within || len(c.Working) < 5 {
				t.Errorf("%s, %s: %+v", name, s.id, c)
			}
		}
		words := strings.Join(find(r, "settlement", "pads").Assumptions, " ")
		if left := strings.Contains(words, "Left out"); left != (name == "as-drawn") {
			t.Errorf("%s: %s", name, words)
		}
	}
}
