package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/frame"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/timber"
)

// studded is EP-26's box with wet incised 2x6 of DF-L at 16 in outside.
func studded() *model.Project {
	p := ep26()
	p.Strengthening.Stud = model.StudSkin{Species: "DF-L", Size: "2x6", Spacing: 0.4064, Plywood: "48/24", Incised: true, WetInUse: true}
	return p
}

// poured is EP-26's box with a concrete skin.
func poured() *model.Project {
	p := ep26()
	p.Strengthening.Cavity = model.Cavity{Width: 0.2, Fill: model.ConcreteFill, Fc: 20, Lift: 0.6}
	return p
}

// said tells whether one of the assumptions of a check has a text.
func said(c *check.Check, text string) bool {
	return strings.Contains(strings.Join(c.Assumptions, "\n"), text)
}

// closeTo compares to a share of the wanted value.
func closeTo(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, tol)
	}
}

// TestStudsShare: studs that touch a sheet without wales share with it by EI,
// each checked for 1.2 times its share (structure reference, section 5); the
// sheet, whose skin creeps to half its stiffness, for no less than what is left
// to it then. The bars along the edges get all of the pressure.
func TestStudsShare(t *testing.T) {
	bare, with := run(t, ep26()), run(t, studded())
	j := jobOf(t, studded())
	o := j.outer[section.Left]
	sheet := j.age(0).side.ready.EI()
	want := math.Max(1.2*sheet/(sheet+o.stud.EI()), sheet/(sheet+o.stud.EI()/2))
	if want >= 1 || want < 0.2 {
		t.Fatalf("share of the sheet %.3f", want)
	}
	b, s := find(bare, "side-sheet", "left side wall"), find(with, "side-sheet", "left side wall")
	closeTo(t, "ratio of the sheet", s.Worst(), want*b.Worst(), 1e-9)
	closeTo(t, "bow of the sheet", find(with, "sheet-deflection", "left side wall").Worst(), want*find(bare, "sheet-deflection", "left side wall").Worst(), 1e-9)
	if !said(s, "share the pressure") || said(b, "skin") {
		t.Errorf("assumptions with a skin %q, without %q", s.Assumptions, b.Assumptions)
	}
	for _, id := range []string{"bottom-rail", "roof-sheet", "header"} {
		if x, y := find(bare, id, ""), find(with, id, ""); x == nil || y == nil || math.Abs(x.Worst()-y.Worst()) > 1e-9 {
			t.Errorf("%s: bare %+v, with a skin %+v", id, x, y)
		}
	}
	stud := find(with, "stud", "left side wall, stud skin")
	if stud == nil || !said(stud, "share the pressure") || stud.Case == "" {
		t.Fatalf("stud %+v", stud)
	}
	w := worked(t, j, "dry").walls[0]
	takes := math.Min(1, 1.2*o.stud.EI()/(sheet+o.stud.EI()))
	beam, err := frame.Simple(j.side.height(), w.load.Service().Scale(takes*0.4064), 1)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "moment of a stud", stud.Demand.Val, beam.MMax, 1e-6)
	if find(with, "stud-deflection", stud.Part) == nil {
		t.Error("no bow of the studs")
	}
	if c := find(with, plySagID, stud.Part); c == nil || !(c.Ratio > 0) || c.Verdict() == check.NotChecked {
		t.Errorf("no bow of the plywood: %+v", c)
	}
	ply := find(with, plyID, stud.Part)
	peak, _ := w.diagram.Slice(j.side.zTop, j.side.zBottom).MaxTotal()
	if ply == nil || math.Abs(ply.Demand.Val-peak) > 1e-9 {
		t.Errorf("plywood %+v, want under %.3f kPa", ply, peak)
	}
}

// TestStudsApart: wherever studs and sheet do not touch, or either is to carry
// alone, the studs take all of the pressure and the sheet is relieved of
// nothing.
func TestStudsApart(t *testing.T) {
	base := find(run(t, studded()), "stud", "").Ratio
	for name, c := range map[string]struct {
		change func(*model.Project)
		why    string
	}{
		"gravel": {func(p *model.Project) { p.Strengthening.Cavity = model.Cavity{Width: 0.15, Fill: model.GravelFill} }, "cavity"},
		"dent":   {func(p *model.Project) { p.Box.SideDent, p.Box.EndDent = 15, 15 }, "dented"},
		"either": {func(p *model.Project) { p.Strengthening.EitherAlone = true }, "alone"},
		"opening": {func(p *model.Project) {
			p.Box.Openings = []model.Opening{{ID: "w", Wall: "left", From: 2, Width: 0.6, Sill: 1, Height: 0.6}}
		}, "opening"},
		"wales":     {func(p *model.Project) { ribbed(p); p.Strengthening.BackWales = p.Strengthening.Wales }, "wales"},
		"two skins": {func(p *model.Project) { p.Strengthening.Cavity = poured().Strengthening.Cavity }, "two skins"},
	} {
		p := studded()
		c.change(p)
		plain := ep26()
		c.change(plain)
		plain.Strengthening.Cavity = model.Cavity{}
		r := run(t, p)
		stud, sheet := find(r, "stud", "left side wall, stud skin"), find(r, "side-sheet", "left side wall")
		if stud == nil || sheet == nil {
			t.Fatalf("%s: stud %+v, sheet %+v, %v", name, stud, sheet, r.Blocks)
		}
		if stud.Ratio <= base*1.05 || !said(stud, c.why) || !said(sheet, c.why) {
			t.Errorf("%s: stud %.3f, sharing %.3f; %q", name, stud.Ratio, base, stud.Assumptions)
		}
		if bare := find(run(t, plain), "side-sheet", "left side wall"); math.Abs(bare.Worst()-sheet.Worst()) > 1e-9 {
			t.Errorf("%s: sheet %.4f, bare %.4f", name, sheet.Worst(), bare.Worst())
		}
	}
}

// TestStudsLeanOnTheRails: studs that pass the wales inside by press on the top
// rail with what a beam from rail to rail would (statics, derived), more than the
// sheet that rests on wales.
func TestStudsLeanOnTheRails(t *testing.T) {
	p, q := ep26(), studded()
	ribbed(p)
	ribbed(q)
	a, b := worked(t, jobOf(t, p), "dry").walls[0], worked(t, jobOf(t, q), "dry").walls[0]
	j := jobOf(t, q)
	beam, err := frame.Simple(j.side.height(), b.load.Service(), 1)
	if err != nil {
		t.Fatal(err)
	}
	rail := direct(b.diagram, j.roofLevel(), j.side.zTop)
	closeTo(t, "on the top rail", b.top.ASD, rail.ASD+beam.Rb, 1e-9)
	closeTo(t, "the same, factored", b.top.LRFD, 1.6*b.top.ASD, 1e-9)
	if b.top.ASD <= a.top.ASD || b.bottom.ASD <= a.bottom.ASD {
		t.Errorf("with studs %.3f and %.3f kN/m, without %.3f and %.3f", b.top.ASD, b.bottom.ASD, a.top.ASD, a.bottom.ASD)
	}
}

// ribbed puts ribs and a wale inside.
func ribbed(p *model.Project) {
	p.Strengthening.Ribs = model.Ribs{Spacing: 1.2, Post: "shs100x5", RoofBeam: "shs100x5", FloorTie: "shs80x5"}
	p.Strengthening.Wales = []model.Wale{{Height: 1.2, Section: "shs60x4"}}
}

// TestRibsKeepAll: a skin outside takes nothing off the ribs: what it carries it
// brings to the rails that stand on them.
func TestRibsKeepAll(t *testing.T) {
	p, q := ep26(), studded()
	ribbed(p)
	ribbed(q)
	p.Strengthening.Wales, q.Strengthening.Wales = nil, nil
	if a, b := find(run(t, p), "rib", "ribs"), find(run(t, q), "rib", "ribs"); a == nil || math.Abs(a.Worst()-b.Worst()) > 1e-9 {
		t.Errorf("ribs without a skin %+v, with one %+v", a, b)
	}
}

// TestConcreteSkin: the skin carries all of the pressure over the height of the
// box; plain, with bars and cast against soil it has the strengths of package
// concrete (ST-18 there); the sheet keeps its small share.
func TestConcreteSkin(t *testing.T) {
	p := poured()
	r := run(t, p)
	c := find(r, "concrete-skin", "left side wall, concrete skin")
	if c == nil || c.Verdict() == check.NotChecked {
		t.Fatalf("%+v", c)
	}
	j := jobOf(t, p)
	w := worked(t, j, "dry").walls[0]
	beam, err := frame.Simple(j.box.H, pressures(w.diagram, j.p.Box.Level, j.roofLevel()).Service(), 1)
	if err != nil {
		t.Fatal(err)
	}
	phiMn := 0.6 * 5 * math.Sqrt(20000/6.894757) * 6.894757 * 0.2 * 0.2 / 6
	closeTo(t, "ratio by hand", c.RatioLRFD, 1.6*beam.MMax/phiMn, 1e-6)
	if !said(c, "strip footing of its own") || !said(c, "A form stands on the outside") || !math.IsNaN(c.Ratio) {
		t.Errorf("%+v", c)
	}
	if w.top.ASD < beam.Rb*(1-1e-9) {
		t.Errorf("the top of the wall gets %.3f kN/m, the skin leans on it with %.3f", w.top.ASD, beam.Rb)
	}
	bare, with := find(run(t, ep26()), "side-sheet", "left side wall"), find(r, "side-sheet", "left side wall")
	if k := with.Worst() / bare.Worst(); !(k > 0 && k < 0.1) || !said(with, "share the pressure") {
		t.Errorf("the sheet keeps %.3f of its ratio: %q", k, with.Assumptions)
	}
	soil := poured()
	soil.Cut.WorkSide = 0.2
	cast := find(run(t, soil), "concrete-skin", "left side wall, concrete skin")
	if cast == nil || !said(cast, "cast against soil") || cast.RatioLRFD < 1.3*c.RatioLRFD {
		t.Errorf("cast against soil %+v", cast)
	}
	if b := find(r, concreteSagID, c.Part); b == nil {
		t.Error("no bow of the skin")
	} else {
		closeTo(t, "bow of the skin", b.Demand.Val, math.Abs(w.skin.wall.Sag(3)), 1e-9)
	}
	bars := poured()
	bars.Strengthening.Cavity.Bar, bars.Strengthening.Cavity.BarSpacing, bars.Strengthening.Cavity.BarCover = 12, 0.2, 0.04
	if b := find(run(t, bars), "concrete-skin", "left side wall, concrete skin"); b == nil || b.RatioLRFD > 0.8*c.RatioLRFD {
		t.Errorf("with bars %+v, plain %.3f", b, c.RatioLRFD)
	}
	thin := poured()
	thin.Strengthening.Cavity.Width = 0.1
	if b := find(run(t, thin), "concrete-skin", ""); b == nil || b.Verdict() != check.NotChecked || !strings.Contains(b.Missing, "plain wall") {
		t.Errorf("a plain skin of 100 mm: %+v", b)
	}
	if k := find(run(t, thin), "side-sheet", "left side wall").Worst() / bare.Worst(); math.Abs(k-1) > 1e-9 {
		t.Errorf("a skin that cannot be checked leaves the sheet %.3f of its ratio", k)
	}
	foot := find(r, skinFootID, "left side wall, concrete skin")
	if foot == nil || foot.Verdict() == check.NotChecked {
		t.Fatalf("footing of the skin %+v", foot)
	}
	closeTo(t, "pressure below the skin", foot.Demand.Val, concrete.Gamma*j.box.H, 1e-9)
	if rest := find(r, "skin-foot", ""); rest == nil || rest.Verdict() != check.NotChecked {
		t.Errorf("what is left open of it %+v", rest)
	}
	soft := poured()
	for i := range soft.Site.Soils {
		soft.Site.Soils[i].Bearing = 0
	}
	if c := find(run(t, soft), skinFootID, ""); c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "no bearing value") {
		t.Errorf("on ground without a bearing value: %+v", c)
	}
}

// TestSharingWithABrokenSkin: a sheet that a skin beyond limits relieves says so.
func TestSharingWithABrokenSkin(t *testing.T) {
	for _, width := range []float64{0.2, 0.6} {
		p := poured()
		p.Strengthening.Cavity.Width, p.Cut.WorkSide, p.Cut.WorkBack = width, 1.2, 1.2
		r := run(t, p)
		skin, sheet := find(r, "concrete-skin", "left side wall, concrete skin"), find(r, "side-sheet", "left side wall")
		if said(sheet, "do not count on") != (skin.Worst() > 1) || (skin.Worst() > 1) != (width < 0.5) {
			t.Errorf("skin of %g m, ratio %.3f: %q", width, skin.Worst(), sheet.Assumptions)
		}
	}
}

// TestPour: the pour is checked on the bare sheet before any fill comes, with
// the reference's numbers (structure reference, section 5: a lift of 1.2 m on a
// new S1 is beyond limits, 0.6 m within); propped, it is said not to be checked.
func TestPour(t *testing.T) {
	p := poured()
	p.Box.SteelKnown = true
	for _, c := range []struct {
		lift float64
		want check.Verdict
	}{{0.6, check.Within}, {1.4, check.Beyond}} {
		p.Strengthening.Cavity.Lift = c.lift
		j := jobOf(t, p)
		made := find(run(t, p), "pour", "long walls")
		if made == nil || made.Verdict() != c.want || made.Stage != "dry" {
			t.Fatalf("lift %g: %+v", c.lift, made)
		}
		l := j.side.height()
		m := box.Fresh * c.lift * c.lift * c.lift / 6 * ((l-c.lift)/l + 2.0/3*c.lift/l*math.Sqrt(c.lift/(3*l)))
		closeTo(t, "M", made.Demand.Val, m, 1e-6)
		if end := find(run(t, p), "pour", "back wall"); end == nil || end.Worst() >= made.Worst() {
			t.Errorf("lift %g: back wall %+v", c.lift, end)
		}
	}
	p.Strengthening.Cavity.Propped = true
	made := find(run(t, p), "pour", "")
	if made == nil || made.Verdict() != check.NotChecked || !strings.Contains(quantity.SI(made.Missing), "33.6 kPa") {
		t.Errorf("propped: %+v", made)
	}
}

// TestGravelCavity: gravel in a cavity changes no ratio and is said to have no
// strength.
func TestGravelCavity(t *testing.T) {
	p := ep26()
	p.Strengthening.Cavity = model.Cavity{Width: 0.3, Fill: model.GravelFill}
	a, b := run(t, ep26()), run(t, p)
	for _, c := range a.Checks {
		if d := find(b, c.ID, c.Part); d == nil || d.Verdict() != c.Verdict() || c.Verdict() != check.NotChecked && d.Worst() != c.Worst() {
			t.Errorf("%s %s: %+v", c.ID, c.Part, d)
		}
	}
	if !strings.Contains(strings.Join(b.Assumed, "\n"), "no strength") {
		t.Errorf("assumed %q", b.Assumed)
	}
}

// TestMissingLumber: a species that is not in the table is said by name, and
// relieves nothing.
func TestMissingLumber(t *testing.T) {
	p := studded()
	p.Strengthening.Stud.Species, p.Strengthening.Stud.Plywood = "balsa", "none"
	r := run(t, p)
	for _, id := range []string{"stud", "stud-deflection", plyID} {
		if c := find(r, id, ""); c == nil || c.Verdict() != check.NotChecked || c.Missing == "" {
			t.Errorf("%s: %+v", id, c)
		}
	}
	if c := find(r, "stud", ""); !strings.Contains(c.Missing, "balsa 2x6") {
		t.Errorf("%q", c.Missing)
	}
	if a, b := find(r, "side-sheet", "left side wall").Worst(), find(run(t, ep26()), "side-sheet", "left side wall").Worst(); a != b {
		t.Errorf("sheet %.4f, bare %.4f", a, b)
	}
}

// TestStudReference: a stud of the assessment is the one of ST-17 (structure
// reference, derived): 823 psi allowed in bending.
func TestStudReference(t *testing.T) {
	row, _ := tables.Default().Lumber("DF-L 2x6")
	d, err := timber.Adjust(row, timber.Use{CD: timber.CDLasting, Wet: true, Incised: true, Repetitive: true})
	if err != nil {
		t.Fatal(err)
	}
	c := find(run(t, studded()), "stud", "")
	s := 0.0381 * 0.1397 * 0.1397 / 6
	closeTo(t, "capacity of the stud", c.Capacity.Val, s*d.ASD.Fb, 1e-6)
	closeTo(t, "allowable stress, psi", c.Capacity.Val/s/6.894757, 823, 5e-3)
}
