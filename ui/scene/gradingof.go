package scene

import (
	"errors"
	"slices"

	"hillset/engine/drain"
	"hillset/engine/earth/limit"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// GradingsOf gathers for a project what its grading chart shows: the ground
// that the drain lies in, seen in the long section v, the backfill, the drain
// stone, and the band that a filter for the ground must lie in.
func GradingsOf(p *model.Project, v *section.View, t *tables.Set) Gradings {
	g := Gradings{Title: "Grading of ground, fill and stone", Cloth: p.Defence.Drain.Cloth.AOS}
	add := func(id, what string, stone bool) {
		i := slices.IndexFunc(p.Site.Soils, func(s model.Soil) bool { return s.ID == id })
		if i < 0 {
			g.Notes = append(g.Notes, "No soil is chosen for the "+what+".")
			return
		}
		curve, why := curveOfSoil(&p.Site.Soils[i])
		if why != "" {
			g.Notes = append(g.Notes, sentenceOf(what)+", "+p.Site.Soils[i].Name+": "+why)
			return
		}
		g.Lines = append(g.Lines, Grade{Name: what + ": " + p.Site.Soils[i].Name, Curve: curve, Stone: stone})
	}
	ground := groundAtDrain(p, v)
	add(ground, "ground at the drain", false)
	if len(g.Lines) == 1 {
		so, _ := section.SoilByID(p, ground)
		if b, err := drain.FilterBand(g.Lines[0].Curve, so.Dispersive); err == nil {
			g.Band = &b
		} else {
			g.Notes = append(g.Notes, "No band for a filter: "+reasonOf(err)+".")
		}
	}
	stone := "drain stone"
	switch p.Fill.Backfill {
	case p.Fill.RockSoil:
		stone = "backfill and drain stone"
	case ground:
	default:
		add(p.Fill.Backfill, "backfill", false)
	}
	add(p.Fill.RockSoil, stone, true)
	if g.Cloth == 0 {
		g.Notes = append(g.Notes, "The opening of the cloth is not known.")
	}
	if pipe, ok := t.Pipe(p.Defence.Drain.Pipe); ok {
		g.Opening = pipe.OpeningWidth
	} else {
		g.Notes = append(g.Notes, "No pipe is chosen: its openings are not known.")
	}
	return g
}

// reasonOf is an error in words, without the name of the value.
func reasonOf(err error) string {
	var e *limit.Error
	if errors.As(err, &e) && e.Why != "" {
		return e.Why
	}
	return err.Error()
}

// sentenceOf begins with a capital.
func sentenceOf(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// curveOfSoil is the grading of a soil by its sieves, else by the sizes that
// are given; why says what is missing.
func curveOfSoil(s *model.Soil) (g drain.Grading, why string) {
	for _, q := range s.Sieves {
		g = append(g, drain.Sieve{Size: q.Size, Passes: q.Passes})
	}
	if len(s.Sieves) == 0 {
		for _, q := range []drain.Sieve{{Size: s.D15, Passes: 0.15}, {Size: s.D50, Passes: 0.50}, {Size: s.D85, Passes: 0.85}} {
			if q.Size > 0 {
				g = append(g, q)
			}
		}
	}
	if len(g) == 0 {
		return nil, "no grading is given."
	}
	if err := g.Validate(); err != nil {
		return nil, err.Error() + "."
	}
	return g, ""
}

// groundAtDrain is the id of the natural soil that the drain behind the box
// lies in; "" where there is none.
func groundAtDrain(p *model.Project, v *section.View) string {
	if v == nil || !v.HasBox {
		return ""
	}
	d := p.Defence.Drain
	at := v.Box.Max
	at[0] += p.Fill.RockWidth / 2
	at[1] = v.Formation - d.Depth
	for i := range v.Strata {
		if z := &v.Strata[i]; z.Soil != "" && z.Region.Contains(at) {
			return z.Soil
		}
	}
	return ""
}
