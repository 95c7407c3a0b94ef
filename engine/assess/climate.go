package assess

import (
	"math"
	"slices"

	"hillset/engine/check"
	"hillset/engine/climate"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Parts of the checks of frost and air, beside the pads.
const (
	roomPart = "room"
	fillPart = "fill"
)

// climateGaps are the checks of frost and air.
var climateGaps = struct{ bed, fill, dew, mould, vapour, air, closed, damp gap }{
	bed:    gap{id: "frost-bed", title: "Frost below the front of the box", part: "pads"},
	fill:   gap{id: "frost-fill", title: "Fill in the frost zone", part: fillPart},
	dew:    gap{id: "dew", title: "Water on the walls inside", part: roomPart},
	mould:  gap{id: "mould", title: "Mould on the walls inside", part: roomPart},
	vapour: gap{id: "vapour", title: "Water behind the insulation inside", part: roomPart},
	air:    gap{id: "fresh-air", title: "Fresh air through the vents", part: roomPart},
	closed: gap{id: "closed-air", title: "Air of the closed room", part: roomPart},
	damp:   gap{id: "moisture", title: "Moisture of the people carried off", part: roomPart},
}

// ClimateIDs are the ids of the checks of frost and air.
var ClimateIDs = []string{"frost-bed", "frost-fill", "dew", "mould", "vapour", "fresh-air", "closed-air", "moisture"}

// ofClimate tells the checks of frost and air from those of what holds. They
// are made for a result only: no trial comes to them.
func ofClimate(id string) bool { return slices.Contains(ClimateIDs, id) }

// Season is the air of the coldest or the warmest weeks.
type Season struct {
	Outside float64 // mean of those weeks, °C
	Room    float64 // unheated and empty, °C
	Dew     float64 // dew point outside, °C; NaN where the humidity is not given
	Flow    float64 // through the vents, m3/s, positive upwards; NaN where they are not given
}

// Loss is the heat that leaves the box with a room warmer than what is round
// it, W/K: to the ground by ISO 13370, through the roof, and through what stands
// in the open air.
type Loss struct{ Ground, Roof, Open float64 }

// Total is all of it, W/K.
func (l Loss) Total() float64 { return l.Ground + l.Roof + l.Open }

// Skin is a face of the box with what it is like inside.
type Skin struct {
	climate.Face
	climate.Skin
}

// Climate is what was worked out of frost, warmth and air, for the words that
// say it. What could not be is NaN, nil or empty, with the reason in Why.
type Climate struct {
	Frost  Frost
	Ground *climate.Ground // natural ground in front; nil where the air is not given
	Fill   *climate.Ground // fill over and beside the box
	Floor  float64         // depth of the floor below the finished surface, m
	Cover  float64         // least on the roof, m

	Winter, Summer Season
	Seasons        bool   // the two above are known
	WhySeasons     string // or why they are not

	Room    *climate.Air // as it is wanted; nil where it is not given
	Skins   []Skin       // the coldest first
	Loss    Loss         // with the insulation given
	HasLoss bool

	People climate.People // in the room; N is 0 where they are not given
	Person tables.Person
	Vents  climate.Vent // nil where they are not given
}

// weather makes the checks of frost and air.
type weather struct {
	*job
	worst *worstOf
	view  *section.View // of the finished box, in the last stage in service
	stage string        // its id; empty where there is none
	out   *Climate
}

// climateChecks offers the checks of frost and air of the finished box.
func (j *job) climateChecks(stages []stageResult, worst *worstOf) {
	if !j.drawn {
		return
	}
	w := &weather{job: j, worst: worst, out: &Climate{}}
	j.climate = w.out
	w.out.Frost = FrostOf(j.p, j.t)
	for i := range stages {
		if sr := &stages[i]; sr.view != nil && sr.view.HasBox && sr.st.Kind == model.StageService {
			w.view, w.stage = sr.view, sr.st.ID
		}
	}
	w.warmth()
	w.frost()
	w.faces()
	w.air()
}

// offer offers a check, or says why it could not be made.
func (w *weather) offer(g gap, c check.Check, err error) {
	if err != nil {
		w.miss(asProblem(err).Text, g)
		return
	}
	w.worst.add(candidate{slot: slot{g.id, g.part}, stage: w.stage, ratio: c.Worst(), write: func() (check.Check, error) { return c, nil }})
}

// miss says why checks could not be made.
func (w *weather) miss(why string, gaps ...gap) {
	for _, g := range gaps {
		w.worst.missing(g.id, g.title, g.part, w.stage, why)
	}
}

// lacks says what a check needs that is not given; false where nothing is
// lacking.
func (w *weather) lacks(g gap, needs ...need) bool {
	why := notGiven(needs)
	if why != "" {
		w.miss(why, g)
	}
	return why != ""
}

// thermalOf is how heat goes through a soil of the project.
func thermalOf(t *tables.Set, so model.Soil) (tables.Thermal, tables.Soil, bool) {
	th, ok := t.Thermal(so.USCS)
	row, okRow := t.Soil(so.USCS)
	return th, row, ok && okRow
}

// frozenSoil is a soil of the project for the depth of frost: its unit weight
// with the water of its class.
func frozenSoil(t *tables.Set, so model.Soil) (climate.Soil, bool) {
	th, row, ok := thermalOf(t, so)
	if !ok {
		return climate.Soil{}, false
	}
	return climate.Soil{Dry: so.Gamma / gravity / (1 + row.Moisture), Water: row.Moisture, KUnfrozen: th.KUnfrozen, KFrozen: th.KFrozen}, true
}

// fines is the most of a soil that may be finer than 0.075 mm: by its sieves,
// else by its class.
func fines(t *tables.Set, so model.Soil) (float64, bool) {
	if len(so.Sieves) > 0 {
		if f, err := gradingOf(so).Fines(); err == nil {
			return f, true
		}
	}
	th, ok := t.Thermal(so.USCS)
	return th.Fines, ok
}

// seasons are the means of the coldest and the warmest weeks.
func (w *weather) seasons() (cold, warm float64, ok bool) {
	c := &w.p.Site.Climate
	if c.AirMean == nil || c.AirSwing == 0 {
		return math.NaN(), math.NaN(), false
	}
	return *c.AirMean - c.AirSwing, *c.AirMean + c.AirSwing, true
}
