package assess

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// byCover lowers the finished surface over the box, as little as does what no
// cover at all would.
func byCover(a *adviser, s *state, of []slot) ([]outcome, error) {
	now := coverOf(s.p)
	if now <= 0 || len(s.p.Fill.Line) >= 2 {
		return nil, nil
	}
	falls := []float64{now} // to a round cover that is left, the least fall first
	for _, left := range a.rule.above(0, now-a.rule.of(smallStep)/2, smallStep) {
		falls = append(falls, undusted(now-left))
	}
	slices.Reverse(falls)
	o, err := a.least(s.p, falls, of, func(v float64) change {
		to := coverTo(s.p, math.Max(0, now-v)).Fill
		return change{id: "cover", text: "Lower the finished surface over the box by {0}, to a least cover of {1}.",
			q: []quantity.Q{quantity.Of("", v, quantity.Length), quantity.Of("", math.Max(0, now-v), quantity.Length)},
			apply: func(p *model.Project) {
				p.Fill.FrontTop, p.Fill.BackTop = to.FrontTop, to.BackTop
				if to.Roof == nil {
					p.Fill.Roof = nil
				}
			}}
	})
	return []outcome{o}, err
}

// byLightFill lays block foam under the topsoil in place of soil; the finished
// surface stays.
func byLightFill(a *adviser, s *state, of []slot) ([]outcome, error) {
	f := s.p.Fill
	soil := coverOf(s.p) - buildUp(s.p)
	room := soil - f.TopsoilThickness
	if room < a.rule.of(smallStep) || len(f.Line) >= 2 || slices.ContainsFunc(f.Roof, func(l model.RoofLayer) bool { return l.Kind == "lightfill" }) {
		return nil, nil
	}
	row, ok := a.foamFor(20*soil + s.p.Site.Climate.GroundSnow)
	if !ok {
		return nil, nil
	}
	o, err := a.least(s.p, a.rule.above(0, room, smallStep), of, func(v float64) change {
		layer := model.RoofLayer{Kind: "lightfill", Name: row.Name + " block foam", Thickness: v, Gamma: math.Max(0.1, math.Round(row.Density*gravity*1000)/1000), Grade: row.ID}
		return change{id: "light-fill", text: fmt.Sprintf("Lay {0} of %s block foam on the roof in place of soil; the finished surface stays.", row.Name),
			q:     []quantity.Q{quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) { p.Fill.Roof = append(p.Fill.Roof, layer) }}
	})
	return []outcome{o}, err
}

// byBackfill fills round the box with a clean soil that presses less: one of
// the project, or else the drain stone of the table.
func byBackfill(a *adviser, s *state, _ []slot) ([]outcome, error) {
	now := s.p.Fill.Backfill
	var old model.Soil
	for _, so := range s.p.Site.Soils {
		if so.ID == now {
			old = so
		}
	}
	var fits []model.Soil
	for _, so := range s.p.Site.Soils {
		if so.ID != now && clean(so.USCS) && so.Phi > old.Phi {
			fits = append(fits, so)
		}
	}
	added := len(fits) == 0
	if added && !clean(old.USCS) {
		if so, ok := a.t.SoilOf("drain-stone"); ok {
			so.ID = freeSoilID(s.p, "drain-stone")
			fits = append(fits, so)
		}
	}
	return abreast(len(fits), func(i int) (outcome, error) {
		so := fits[i]
		c := change{id: "backfill-" + so.ID, text: "In place of " + old.Name + " fill round the box with: " + so.Name + "."}
		c.apply = func(p *model.Project) {
			if added {
				p.Site.Soils = append(p.Site.Soils, so)
			}
			p.Fill.Backfill = so.ID
		}
		return a.on(s.p, c)
	})
}

// clean tells soils that drain freely and are not of clay or silt.
func clean(uscs string) bool {
	switch uscs {
	case "GW", "GP", "SW", "SP", "drain-stone", "pea-gravel", "crushed-base":
		return true
	}
	return false
}

// freeSoilID is an id that no soil of a project has yet.
func freeSoilID(p *model.Project, id string) string {
	for n := 2; slices.ContainsFunc(p.Site.Soils, func(so model.Soil) bool { return so.ID == id }); n++ {
		id = fmt.Sprintf("drain-stone-%d", n)
	}
	return id
}

// mostSetback is how far from the walls a plant is tried, m.
const mostSetback = 1.5

// byPlant keeps the compaction plant further from the walls.
func byPlant(a *adviser, s *state, of []slot) ([]outcome, error) {
	if s.p.Fill.Plant == "" {
		return nil, nil
	}
	o, err := a.least(s.p, a.rule.above(s.p.Fill.PlantSetback, mostSetback, smallStep), of, func(v float64) change {
		return change{id: "plant", text: "Keep the compaction plant {0} from the walls.", q: []quantity.Q{quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) { p.Fill.PlantSetback = v }}
	})
	return []outcome{o}, err
}

// byLead raises the fill on both sides more evenly.
func byLead(a *adviser, s *state, of []slot) ([]outcome, error) {
	now := s.p.Fill.MaxAhead
	if now < 0.15 || !slices.ContainsFunc(s.p.Stages, func(st model.Stage) bool { return st.OneSide }) {
		return nil, nil
	}
	leads := a.rule.above(0.1-a.rule.of(smallStep)/2, now-a.rule.of(smallStep)/2, smallStep)
	slices.Reverse(leads)
	o, err := a.least(s.p, steps(0, float64(len(leads)-1), 1), of, func(v float64) change {
		lead := leads[int(v)]
		return change{id: "lead", text: "Raise the fill on both sides together, neither more than {0} ahead.", q: []quantity.Q{quantity.Of("", lead, quantity.Length)},
			apply: func(p *model.Project) { p.Fill.MaxAhead = lead }}
	})
	return []outcome{o}, err
}

// foamFor is the lightest block foam of the table whose resistance at 1 %
// strain bears a lasting pressure, kPa; false where none does.
func (a *adviser) foamFor(q float64) (tables.Geofoam, bool) {
	var out tables.Geofoam
	found := false
	for _, id := range a.t.GeofoamIDs() {
		row, _ := a.t.Geofoam(id)
		if row.S1 >= q && (!found || row.Density < out.Density) {
			out, found = row, true
		}
	}
	return out, found
}

// lifeStep is the step by which the life of a membrane is tried, years.
const lifeStep = 5.0

// byMembrane keeps the ground off the steel for as many years as it takes.
func byMembrane(a *adviser, s *state, of []slot) ([]outcome, error) {
	return a.byLayer(s, of, func(*model.DefenceLayer) bool { return true },
		model.DefenceLayer{Kind: "membrane", Name: "Membrane, renewed or kept whole", Thickness: 0.0015},
		"Wrap the steel in a membrane that keeps the ground off it for {0}.")
}

// byCoating does the same with a coating, which keeps the crawl space off the cross
// members as well.
func byCoating(a *adviser, s *state, of []slot) ([]outcome, error) {
	return a.byLayer(s, of, func(l *model.DefenceLayer) bool { return l.Kind == coatingKind },
		model.DefenceLayer{Kind: coatingKind, Name: "Coating, renewed or kept whole", Thickness: 0.0005},
		"Coat the steel, the cross members below the floor on all sides too, so that it does not rust for {0}.")
}

// byLayer adds a layer that lasts as many years as it takes, longer than those there
// that count.
func (a *adviser) byLayer(s *state, of []slot, counts func(*model.DefenceLayer) bool, layer model.DefenceLayer, text string) ([]outcome, error) {
	years := 0.0
	for _, st := range s.p.Stages {
		years = math.Max(years, st.Years)
	}
	now := 0.0
	for i := range s.p.Defence.Layers {
		if l := &s.p.Defence.Layers[i]; counts(l) {
			now = math.Max(now, l.Life)
		}
	}
	if years <= now {
		return nil, nil // no stage rusts, or what is there lasts as long
	}
	lives := steps(now+lifeStep, years, lifeStep)
	if len(lives) == 0 || lives[len(lives)-1] < years {
		lives = append(lives, years)
	}
	o, err := a.least(s.p, lives, of, func(v float64) change {
		layer := layer
		layer.Life = v
		return change{id: layer.Kind, text: text, q: []quantity.Q{quantity.Of("", v, quantity.Years)},
			apply: func(p *model.Project) { p.Defence.Layers = append(p.Defence.Layers, layer) }}
	})
	return []outcome{o}, err
}
