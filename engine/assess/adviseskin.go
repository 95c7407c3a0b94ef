package assess

import (
	"fmt"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// What is tried for a skin of studs: treated timber, wet in the ground (incised,
// as Douglas fir takes no preservative otherwise: structure reference, section
// 5), from the least timber to the most.
var studTries = []struct {
	size    string
	spacing measure // m
}{{"2x4", close16}, {"2x6", close24}, {"2x6", close16}, {"2x8", close24}, {"2x6", close12}, {"2x8", close16}, {"2x8", close12}, {"2x8", close8}}

// Spacings of studs, called by their inches.
var close24, close16, close12, close8 = measure{0.6, 24 * inch}, measure{0.4, 16 * inch}, measure{0.3, 12 * inch}, measure{0.2, 8 * inch}

// skinSpecies is the timber of a skin where the project names none.
const skinSpecies = "DF-L"

// ofWalls is for the walls, the skins outside them and the system that they
// are, but not for the bars inside.
func ofWalls(_ *adviser, s *state, c slot) bool {
	wall := longWall(s.p, c.part) || endWall(s.p, c.part)
	return wall && (ofSheet(c.part) || strings.HasSuffix(c.part, " skin")) || c.part == outsidePart
}

// byStuds stands the least timber outside the walls that does what the most
// does, sheathed with the weakest plywood that holds.
func byStuds(a *adviser, s *state, of []slot) ([]outcome, error) {
	given := s.p.Strengthening.Stud
	if s.p.Strengthening.Cavity.Width > 0 && given.Spacing == 0 {
		return nil, nil // the cavity is there: concrete is its skin
	}
	species := skinSpecies
	if given.Species != "" {
		species = given.Species
	}
	plies := a.t.PlywoodIDs()
	if _, ok := a.t.Lumber(species + " 2x8"); !ok || len(plies) == 0 {
		return nil, nil
	}
	skin := func(i int, ply string) change {
		t := studTries[i]
		apart := a.rule.of(t.spacing)
		stud := model.StudSkin{Species: species, Size: t.size, Spacing: apart, Plywood: ply, Incised: species == skinSpecies, WetInUse: true}
		return change{id: "studs", text: fmt.Sprintf("Stand treated studs of %s %s at {0} outside the two long walls and the blind end, sheathed with plywood %s.", species, t.size, ply),
			q:     []quantity.Q{quantity.Of("", apart, quantity.Length)},
			apply: func(p *model.Project) { p.Strengthening.Stud = stud }}
	}
	strongest := plies[len(plies)-1]
	o, err := a.least(s.p, steps(0, float64(len(studTries)-1), 1), of, func(v float64) change { return skin(int(v), strongest) })
	if err != nil || o.p == nil {
		return nil, err
	}
	at := 0
	for i, t := range studTries {
		if st := o.p.Strengthening.Stud; st.Size == t.size && st.Spacing == a.rule.of(t.spacing) {
			at = i
		}
	}
	held := len(o.tr.failing(func(c slot) bool { return c.id == plyID }))
	for _, ply := range plies[:len(plies)-1] {
		lighter, err := a.on(s.p, skin(at, ply))
		if err != nil {
			return nil, err
		}
		if lighter.tr.why == "" && len(lighter.tr.failing(func(c slot) bool { return c.id == plyID })) <= held {
			o = lighter
			break
		}
	}
	return []outcome{o}, nil
}

// What is tried for a skin of concrete (common practice): strength, pours low
// enough for the bare sheet, bars and their cover.
var (
	skinLift  = measure{0.6, 24 * inch} // m
	skinBar   = measure{12, 12.7}       // mm; a half-inch bar
	skinBars  = measure{0.2, 8 * inch}  // m apart
	skinCover = measure{0.05, 2 * inch} // m, as it may be cast against soil
	thinSkin  = measure{0.15, 6 * inch} // m
	thickSkin = measure{0.40, 16 * inch}
)

const skinFc = 25.0 // MPa

// byConcrete fills a cavity outside the walls with concrete, plain or with
// bars, as thin as does what the thickest does.
func byConcrete(a *adviser, s *state, of []slot) ([]outcome, error) {
	given := s.p.Strengthening.Cavity
	if s.p.Strengthening.Stud.Spacing > 0 && given.Width == 0 {
		return nil, nil // studs stand there
	}
	lift, bar, apart, cover := a.rule.of(skinLift), a.rule.of(skinBar), a.rule.of(skinBars), a.rule.of(skinCover)
	widths := a.rule.from(thinSkin, thickSkin, smallStep)
	if given.Fill == model.ConcreteFill && given.Width > widths[0] {
		widths = append([]float64{given.Width}, a.rule.above(given.Width, a.rule.of(thickSkin), smallStep)...)
	}
	var out []outcome
	for _, barred := range []bool{false, true} {
		o, err := a.least(s.p, widths, of, func(v float64) change {
			c := model.Cavity{Width: v, Fill: model.ConcreteFill, Fc: skinFc, Lift: lift, Propped: given.Propped}
			text := "Pour a skin of plain concrete {0} thick outside the two long walls and the blind end, in lifts of {1}."
			q := []quantity.Q{quantity.Of("", v, quantity.Length), quantity.Of("", lift, quantity.Length)}
			id := "concrete"
			if barred {
				c.Bar, c.BarSpacing, c.BarCover = bar, apart, cover
				id, text = "concrete-bars", "Pour a skin of concrete {0} thick outside the two long walls and the blind end, in lifts of {1}, with upright bars of {2} at {3} near the room side."
				q = append(q, quantity.Of("", bar/1000, quantity.Thickness), quantity.Of("", apart, quantity.Length))
			}
			return change{id: id, text: text, q: q, apply: func(p *model.Project) { p.Strengthening.Cavity = c }}
		})
		if err != nil {
			return nil, err
		}
		if o.p != nil {
			out = append(out, o)
		}
	}
	return best(a.lightest(out)), nil
}
