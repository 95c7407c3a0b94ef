package sheet

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/climate"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// ClimateTitle heads what is said of frost, warmth and air.
const ClimateTitle = "Climate and air"

// climateWords gathers what is said of frost, warmth and air.
type climateWords struct {
	r   *assess.Result
	c   *assess.Climate
	p   *model.Project
	t   *tables.Set
	sys units.System
}

// ClimateWords says what was worked out of frost, ground, walls, warmth and air,
// and what to take care of; nil where nothing was worked.
func ClimateWords(r *assess.Result, t *tables.Set, sys units.System) []WaterPart {
	if r == nil || r.Climate == nil {
		return nil
	}
	w := &climateWords{r: r, c: r.Climate, p: r.Project, t: t, sys: sys}
	return []WaterPart{
		{"Frost", w.frost()},
		{"Ground over the year", w.ground()},
		{"Coldest faces inside", w.faces()},
		{"Warmth without heating", w.warmth()},
		{"Air to breathe", w.air()},
		{"Take care", Cautions(sys)},
	}
}

// ClimateGiven tells whether a project says anything of the winter, or of the
// room, beside a depth of frost.
func ClimateGiven(p *model.Project) bool {
	c := &p.Site.Climate
	return c.FrostIndex > 0 || c.AirMean != nil || p.Room != (model.Room{})
}

// ClimateChecks are the checks of frost and air in the order of the result.
func ClimateChecks(r *assess.Result) []*check.Check {
	var out []*check.Check
	for i := range r.Checks {
		if slices.Contains(assess.ClimateIDs, r.Checks[i].ID) {
			out = append(out, &r.Checks[i])
		}
	}
	return out
}

// GroundTempsOf is the chart of ground temperature of a result; ok is false
// where the air over the year is not given.
func GroundTempsOf(r *assess.Result) (g scene.GroundTemps, ok bool) {
	if r == nil || r.Climate == nil || r.Climate.Ground == nil {
		return scene.GroundTemps{}, false
	}
	c := r.Climate
	g = scene.GroundTemps{Title: "Temperature of the ground over depth", Ground: *c.Ground, Dated: r.Project.Site.Climate.ColdestDay > 0,
		Marks: []scene.DepthMark{{Name: "roof", Depth: c.Cover}, {Name: "floor", Depth: c.Floor}}}
	if c.Frost.Depth > 0 {
		g.Marks = append(g.Marks, scene.DepthMark{Name: "frost", Depth: c.Frost.Depth})
	}
	return g, true
}

func (w *climateWords) show(v float64, k quantity.Kind) string { return units.Format(v, k, w.sys) }
func (w *climateWords) warm(v float64) string                  { return w.show(v, quantity.Temperature) }
func (w *climateWords) len(v float64) string                   { return w.show(v, quantity.Length) }

// frost says how deep it freezes, and how that came about.
func (w *climateWords) frost() []string {
	f, c := &w.c.Frost, &w.p.Site.Climate
	switch {
	case f.Why != "":
		return []string{"The depth of frost is not known: " + units.Say(f.Why, w.sys) + "."}
	case f.Given:
		return []string{"It freezes to " + w.len(f.Depth) + ", as given on page 1. With the freezing index of the winter it is computed instead."}
	case c.FrostIndex == 0:
		return []string{"The frost of the winter is not given: no index here, no depth on page 1."}
	}
	row, _ := w.t.FrostCover(c.FrostCover)
	out := []string{fmt.Sprintf("It freezes to %s in “%s”, where it goes deepest: %s in the air, %s at the surface (%s).", w.len(f.Depth), f.Soil,
		w.show(c.FrostIndex, quantity.FrostIndex), w.show(f.Found.Surface, quantity.FrostIndex), lowerFirst(row.Name))}
	if f.In.HasMean {
		out = append(out, fmt.Sprintf("Stefan's formula alone says %s. The warmth that the ground gives off as it cools takes %s of that away (factor λ %s, modified Berggren).",
			w.len(f.Found.Stefan), w.show(1-f.Found.Lambda, quantity.Share), units.Number(f.Found.Lambda, 2)))
	} else {
		out = append(out, "This is Stefan's formula, which goes too deep: with the mean of the year and the days of frost it comes out less.")
	}
	if in := &w.p.Room.Insulation; in.Thickness > 0 && in.K > 0 && f.Found.Surface > 0 {
		if x, err := climate.Insulated(f.Found, in.Thickness/in.K); err == nil {
			out = append(out, fmt.Sprintf("%s of the same insulation, laid out on the ground in front, would hold it to %s at the most.", w.show(in.Thickness, quantity.Thickness), w.len(x)))
		}
	}
	return append(out, "The shallow frost-protected foundation of the building code is for heated buildings: an unheated store does not qualify.")
}

// unknownAir says why nothing of the seasons is known.
func (w *climateWords) unknownAir() []string {
	return []string{"Not worked out: " + units.Say(w.c.WhySeasons, w.sys) + "."}
}

// ground says what the year makes of the ground.
func (w *climateWords) ground() []string {
	g := w.c.Ground
	if g == nil {
		return w.unknownAir()
	}
	var out []string
	for _, m := range []struct {
		name  string
		depth float64
		in    *climate.Ground
	}{{"Over the roof", w.c.Cover, w.c.Fill}, {"At the floor", w.c.Floor, g}} {
		least, on, err := m.in.Least(m.depth)
		most, err2 := m.in.Most(m.depth)
		if err != nil || err2 != nil {
			continue
		}
		text := fmt.Sprintf("%s, %s deep: %s to %s", m.name, w.len(m.depth), w.warm(least), w.warm(most))
		if w.p.Site.Climate.ColdestDay > 0 {
			text += fmt.Sprintf(", coldest about day %.0f of the year", math.Max(1, math.Round(on)))
		}
		out = append(out, text+".")
	}
	switch z, ok, err := g.ZeroDepth(); {
	case err != nil:
	case !ok:
		out = append(out, "The mean of the year is at or below freezing: the ground stays frozen somewhere all year.")
	case z > 0:
		out = append(out, "By conduction alone, without the heat of freezing, ground deeper than "+w.len(z)+" never freezes.")
	}
	return append(out, "Wide, level, bare ground is taken, as warm at its surface as the air; snow and turf keep it warmer in winter.")
}

// faces says how cold each face is, and what the vapour of the room does there.
func (w *climateWords) faces() []string {
	if len(w.c.Skins) == 0 {
		return []string{"Not worked out: " + w.missing("dew") + "."}
	}
	room := w.c.Room
	out := []string{fmt.Sprintf("Room wanted at %s and %s humidity: it drips on anything below %s; mould can grow below %s.", w.warm(room.T), w.show(room.RH, quantity.Share),
		w.warm(w.c.Skins[0].Dew), w.warm(w.c.Skins[0].Mould))}
	for _, s := range w.c.Skins {
		text := fmt.Sprintf("%s: %s behind it in the coldest weeks, %s inside", upperFirst(s.Name), w.warm(s.Behind), w.warm(s.Lined))
		if s.R > 0 {
			text += fmt.Sprintf(" with insulation of %s; bare it would be %s", w.show(s.R, quantity.Insulation), w.warm(s.Bare))
		}
		switch {
		case s.Humid > 1:
			text += ". It drips."
		case s.Humid > climate.MouldHumidity:
			text += fmt.Sprintf(". Humidity there %s: mould.", w.show(s.Humid, quantity.Share))
		default:
			text += fmt.Sprintf(". Humidity there %s.", w.show(s.Humid, quantity.Share))
		}
		if need := w.needs(s); need != "" {
			text += " " + need
		}
		out = append(out, text)
	}
	return out
}

// needs says what insulation would do for a face, where the one it has does not.
func (w *climateWords) needs(s assess.Skin) string {
	switch {
	case s.Humid <= climate.MouldHumidity:
		return ""
	case math.IsNaN(s.ForMould):
		return "No insulation keeps mould off in air this humid: dry it."
	}
	text := "Insulation of " + w.show(s.ForMould, quantity.Insulation) + " keeps mould off"
	if k := w.p.Room.Insulation.K; k > 0 {
		text += ", " + w.show(s.ForMould*k, quantity.Thickness) + " of the one given"
	} else if f, ok := w.t.Foam(usualFoam); ok {
		text += ", " + w.show(s.ForMould*f.Lambda, quantity.Thickness) + " of " + lowerFirst(f.Name)
	}
	return text + "."
}

// usualFoam is the row of the table of foams that a thickness is told for where
// no insulation is given: boards for the outside.
const usualFoam = "xps-25"

// warmth says what leaves the box and what an unheated room comes to: figures,
// no verdict.
func (w *climateWords) warmth() []string {
	c := w.c
	if !c.HasLoss || !c.Seasons {
		return w.unknownAir()
	}
	l := c.Loss
	out := []string{
		fmt.Sprintf("For each degree warmer inside %s leave: %s to the ground (ISO 13370, memory; on a box this narrow %s), %s through the roof, %s where steel stands in the open air.",
			w.show(l.Total(), quantity.HeatLoss), w.show(l.Ground, quantity.HeatLoss), "±"+units.Number(100*climate.ISOMargin, 0)+" %", w.show(l.Roof, quantity.HeatLoss), w.show(l.Open, quantity.HeatLoss)),
		fmt.Sprintf("Empty, closed and unheated it comes to about %s in the coldest weeks (%s outside) and %s in the warmest (%s outside).",
			w.warm(c.Winter.Room), w.warm(c.Winter.Outside), w.warm(c.Summer.Room), w.warm(c.Summer.Outside)),
	}
	if t := w.p.Room.Temperature; t != nil && *t > c.Winter.Room {
		out = append(out, fmt.Sprintf("To hold %s in the coldest weeks takes about %s, vents closed.", w.warm(*t), w.show((*t-c.Winter.Room)*l.Total(), quantity.Power)))
	}
	if n := c.People.N; n > 0 {
		out = append(out, fmt.Sprintf("%s give off %s.", people(n), w.show(n*c.Person.Heat, quantity.Power)))
	}
	return append(out, "These are figures for thought, without a verdict.")
}

func people(n float64) string {
	if n == 1 {
		return "One person"
	}
	return units.Number(n, 0) + " people"
}

// air says how long the air lasts, and what the vents bring.
func (w *climateWords) air() []string {
	c, p := w.c, &w.c.People
	var out []string
	if p.N > 0 {
		out = append(out, w.closed())
		need := p.N * climate.ShelterAir
		out = append(out, fmt.Sprintf("Fresh air wanted for %s: %s, which holds carbon dioxide near a quarter of one percent.", lowerFirst(people(p.N)), w.show(need, quantity.AirFlow)))
	} else {
		out = append(out, "How many people may be inside is not given: how long the air lasts is not worked out.")
	}
	if c.Vents == nil || !c.Seasons {
		return append(out, "The vents, or the air over the year, are not given: what they bring is not worked out.")
	}
	for _, s := range []struct {
		name string
		of   assess.Season
	}{{"In the coldest weeks", c.Winter}, {"In the warmest weeks", c.Summer}} {
		flow, err := c.Vents.Flow(s.of.Room, s.of.Outside)
		if err != nil {
			continue
		}
		way := "in low and out high"
		if flow < 0 {
			way = "in high and out low"
		}
		text := fmt.Sprintf("%s warmth alone moves %s, %s", s.name, w.show(math.Abs(flow), quantity.AirFlow), way)
		if co2, err := p.Steady(math.Abs(flow)); err == nil && p.N > 0 && flow != 0 {
			text += fmt.Sprintf("; carbon dioxide comes to %s", w.show(co2, quantity.Share))
			if co2 > climate.CO2Preferred {
				text += ", more than the " + w.show(climate.CO2Preferred, quantity.Share) + " preferred"
			}
		}
		out = append(out, text+".")
	}
	out = append(out, "When it is as warm outside as inside, and still, no air moves at all: open the door.")
	if d := c.Summer.Dew; !math.IsNaN(d) && c.Ground != nil {
		if wall, err := c.Ground.Most(c.Floor); err == nil && d > wall {
			out = append(out, fmt.Sprintf("In summer the air outside drips below %s and the ground at the floor is at most %s: close the vents then, or the walls get wet.", w.warm(d), w.warm(wall)))
		}
	}
	return out
}

// closed says how long the air of the closed room lasts.
func (w *climateWords) closed() string {
	p := &w.c.People
	text := fmt.Sprintf("Closed, %s in %s of air bring carbon dioxide to ", lowerFirst(people(p.N)), w.show(p.Volume, quantity.Volume))
	shares := []float64{climate.CO2Weighted, climate.CO2Two, climate.CO2Ceiling}
	for i, share := range shares {
		s, err := p.Seconds(share, 0)
		if err != nil {
			return "How long the air lasts could not be worked out: " + units.Say(err.Error(), w.sys) + "."
		}
		text += fmt.Sprintf("%s %% after %s", units.Number(100*share, 0), w.show(s/3600, quantity.Hours))
		text += []string{", ", " and ", ". "}[i]
	}
	left, err := p.OxygenAt(climate.CO2Ceiling, w.c.Person.O2/w.c.Person.CO2)
	if err != nil {
		return text
	}
	return text + fmt.Sprintf("Never more than 3 %%: oxygen is down to %s by then, and %s is short already.", w.show(left, quantity.Share), w.show(climate.OxygenLeast, quantity.Share))
}

// missing is why a check could not be made.
func (w *climateWords) missing(id string) string {
	for i := range w.r.Checks {
		if c := &w.r.Checks[i]; c.ID == id && c.Missing != "" {
			return units.Fill(c.Missing, c.MissingQ, w.sys)
		}
	}
	return "nothing is known of it"
}

// generatorAway is how far a generator stands from the box at the least, m:
// 20 ft (US CPSC, verified).
const generatorAway = 20 * 0.3048

// Cautions are what no computation covers.
func Cautions(sys units.System) []string {
	return []string{
		"Carbon monoxide kills unnoticed: no flame, charcoal, generator or engine inside or near an air intake; an open door does not help. A generator stands " +
			units.Format(generatorAway, quantity.Length, sys) + " away or more, its exhaust pointing away. Hang up a carbon monoxide alarm with a battery (US CPSC).",
		"Radon gathers in any room in the ground, more above crushed granite or shale: test after one heating season, act at 148 Bq/m³ (4 pCi/L; US EPA), seal the seams of the floor, vent the rock pad.",
		"Never lock it from outside. Stored roots and apples use up oxygen and give off carbon dioxide: open, and wait before going in.",
		"Not an ICC 500 shelter unless a registered engineer certifies it: door, anchorage, way out, air and flooding are not proven here. Keep a second way out, or a door or hatch that opens inwards and that debris cannot block. How many may shelter is set by the hours of air, not by the floor.",
		"Foam plastic inside a room that people use needs a thermal barrier against fire (IRC R316, memory).",
		"Two vents, one low and one high, screened, that neither storm nor snow closes; count their net free area.",
	}
}

// ClimateShort is the gist of ClimateWords in a few lines.
func ClimateShort(r *assess.Result, t *tables.Set, sys units.System) []string {
	if r == nil || r.Climate == nil {
		return []string{"Nothing was computed yet."}
	}
	w := &climateWords{r: r, c: r.Climate, p: r.Project, t: t, sys: sys}
	out := w.frost()[:1]
	if s := w.c.Skins; len(s) > 0 {
		out = append(out, fmt.Sprintf("Coldest inside: %s, %s. It drips below %s, mould can grow below %s.", s[0].Name, w.warm(s[0].Lined), w.warm(s[0].Dew), w.warm(s[0].Mould)))
	} else {
		out = append(out, "Coldest face inside: "+w.missing("dew")+".")
	}
	if w.c.Seasons {
		out = append(out, fmt.Sprintf("Unheated: about %s in the coldest weeks, %s in the warmest.", w.warm(w.c.Winter.Room), w.warm(w.c.Summer.Room)))
	}
	if w.c.People.N == 0 {
		return append(out, "Hours of air: not given how many people.")
	}
	s, err := w.c.People.Seconds(climate.CO2Weighted, 0)
	if err != nil {
		return append(out, "Hours of air: "+units.Say(err.Error(), sys)+".")
	}
	return append(out, fmt.Sprintf("Hours of air, closed, %s: %s to 1 %% carbon dioxide.", lowerFirst(people(w.c.People.N)), w.show(s/3600, quantity.Hours)))
}
