package sheet

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/water"
	"hillset/geom"
	"hillset/ui/units"
)

// WaterPart is what is said of one thing of the computed water.
type WaterPart struct {
	Title string
	Lines []string // each a sentence or two
}

// waterWords gathers what is said of the computed water.
type waterWords struct {
	r      *assess.Result
	t      *tables.Set
	sys    units.System
	across float64 // of the box along the contour, m; NaN where none is chosen
}

// WaterWords says what was computed of the ground water: the hill as found with
// the far levels that were fitted, then each different water of the stages. A
// project whose water is not computed gets one part that says so.
func WaterWords(r *assess.Result, t *tables.Set, sys units.System) []WaterPart {
	if r == nil {
		return nil
	}
	if r.Water == nil {
		why := "The water of this project is not computed: where a stage has water, it stands level at the height given on page 3."
		if r.Project.Site.Water.Computed {
			why = "Nothing was computed: the strip on top says what is missing."
		}
		return append([]WaterPart{{"Water", []string{why}}}, moistPart(r.Project, t, sys)...)
	}
	w := &waterWords{r: r, t: t, sys: sys, across: math.NaN()}
	if b, err := section.BoxOf(r.Project, t); err == nil {
		w.across = section.Across(r.Project, b)
	}
	out := w.hills()
	var told []*water.Wet
	for _, st := range r.Project.Stages {
		if st.Water == "" || st.Water == model.WaterNone {
			continue
		}
		wet, err := r.Water.At(st)
		if err != nil {
			out = append(out, WaterPart{"Stage “" + st.Name + "”", []string{"Not computed: " + units.Say(assess.Words(err), sys) + "."}})
			continue
		}
		if slices.Contains(told, wet) {
			continue
		}
		told = append(told, wet)
		out = append(out, w.stage(st, wet))
	}
	out = append(out, w.dig()...)
	return append(out, moistPart(r.Project, t, sys)...)
}

func (w *waterWords) len(v float64) string   { return units.Format(v, quantity.Length, w.sys) }
func (w *waterWords) level(v float64) string { return units.FormatLevel(v, w.sys) }

// wetNames calls the conditions.
var wetNames = []struct{ id, name string }{{model.WaterSeasonal, "seasonal water"}, {model.WaterHigh, "high water"}}

// hills says what levels were fitted to the hill as found.
func (w *waterWords) hills() []WaterPart {
	var out []WaterPart
	for _, c := range wetNames {
		far := w.r.Water.Far[c.id]
		if far == nil {
			continue
		}
		part := WaterPart{Title: "The hill as found, " + c.name, Lines: []string{fmt.Sprintf("Water level fitted: %s at the uphill end of the ground line, %s at the downhill end.", w.level(far.Right), w.level(far.Left))}}
		for _, m := range far.Misses {
			d := m.Computed - m.Level
			text := fmt.Sprintf("At distance %s: to be %s, computed %s", w.len(m.X), w.level(m.Level), w.level(m.Computed))
			switch {
			case d > fitTold:
				text += ", " + w.len(d) + " too high."
			case d < -fitTold:
				text += ", " + w.len(-d) + " too low."
			default:
				text += ": met."
			}
			part.Lines = append(part.Lines, text)
		}
		if far.Full {
			part.Lines = append(part.Lines, "The ground uphill is full to its surface and the water still does not come as high as asked: look at the levels given, at the permeability, or draw the hill further up.")
		}
		out = append(out, part)
	}
	return out
}

// fitTold is a miss that is worth a word, m.
const fitTold = 0.005

// stage says how the water stands and where it goes.
func (w *waterWords) stage(st model.Stage, wet *water.Wet) WaterPart {
	part := WaterPart{Title: "Stage “" + st.Name + "”"}
	say := func(format string, a ...any) { part.Lines = append(part.Lines, fmt.Sprintf(format, a...)) }
	if st.Blocked {
		say("The drains take nothing here.")
	}
	if w.r.Water.Rough(st) {
		say("Less exact here: thin films of water run down tight ground. As a rule more flows than should, and the water may stand a hand or two off.")
	}
	s := wet.Long
	if s == nil {
		return part
	}
	if s.View.HasBox {
		w.atBox(wet, say)
		w.drains(st, wet, say)
	}
	if s.Sums.Within > 0 {
		text := "Into the open cut: " + units.Format(s.Sums.Within, quantity.LineFlow, w.sys) + " along the contour"
		if floor := w.across + 2*w.r.Project.Cut.WorkSide; !math.IsNaN(floor) {
			text += fmt.Sprintf("; over its floor of %s that is about %s to pump. What comes from the two sides is extra", w.len(floor), PerHour(s.Sums.Within*floor, w.sys))
		}
		say("%s.", text)
	} else if k := st.Kind; k == model.StageCut || k == model.StageSet {
		say("No water comes into the open cut.")
	}
	if s.Sums.Beyond > 0 {
		say("Water comes out of the hillside itself: %s.", units.Format(s.Sums.Beyond, quantity.LineFlow, w.sys))
	}
	return part
}

// dig says what is to be pumped while the cut is open: both sections together, at
// rest and in the first days, and how far it may be off.
func (w *waterWords) dig() []WaterPart {
	pit := w.r.Water.Pit()
	if pit == nil {
		return nil
	}
	part := WaterPart{Title: "Pumping during the dig"}
	q := pit.Inflow()
	if q < leastPumped {
		part.Lines = []string{"In the wet season no water comes into the open cut but rain."}
		return []WaterPart{part}
	}
	hour := func(v float64) string { return PerHour(v, w.sys) }
	first := drain.FirstDays * q
	part.Lines = []string{
		"In the wet season " + hour(q) + " come into the open cut once the hill has drained to it. " + hour(pit.Back) + " come by the section along the slope and " + hour(pit.Sides) + " by the one across; the rest runs together towards the corners.",
		fmt.Sprintf("In the first days about %g times as much: %s.", drain.FirstDays, hour(first)),
		"Permeability is seldom known better than ten times: reckon with " + hour(first/tenfold) + " to " + hour(first*tenfold) + ". Rain that falls into the cut is extra.",
	}
	if pump := w.r.Project.Cut.Pump; pump > 0 {
		part.Lines = append(part.Lines, "The pumps for the dig lift "+hour(pump*1e-3/60)+".")
	} else {
		part.Lines = append(part.Lines, "No pump is given for the dig.")
	}
	if pit.Rough() {
		part.Lines = append(part.Lines, "Less exact here: thin films of water run down tight ground, and the flow may be off by up to a quarter, as a rule too high.")
	}
	return []WaterPart{part}
}

const (
	// leastPumped is a flow that nobody pumps, m3/s: a cup an hour.
	leastPumped = 2e-4 / 3600
	tenfold     = 10 // how far a permeability may be off
)

// atBox says how the water stands against the box.
func (w *waterWords) atBox(wet *water.Wet, say func(string, ...any)) {
	floor := wet.Long.View.Box.Min[1]
	tell := func(what string, a water.Against, table float64) {
		if math.IsInf(a.Level, -1) {
			if d := floor - table; d > 0 {
				say("%s: %s below the underside of the box.", what, w.len(d))
			} else {
				say("%s: below the underside of the box.", what)
			}
			return
		}
		text := fmt.Sprintf("%s: %s above the underside, level %s", what, w.len(a.Level-floor), w.level(a.Level))
		if a.Share < wholePressure {
			text += fmt.Sprintf("; it presses with %s %% of still water, as it flows down", units.Number(100*a.Share, 0))
		}
		say("%s.", text)
	}
	tell("At the back wall", wet.Long.At(section.Back), besideBox(wet.Long, 1))
	sides := water.Against{Level: math.Inf(-1)}
	high := math.NaN()
	for _, c := range wet.Cross {
		for _, z := range []float64{besideBox(c, -1), besideBox(c, 1)} {
			if !(z <= high) {
				high = z
			}
		}
		for _, f := range []section.Face{section.Left, section.Right} {
			if a := c.At(f); a.Level > sides.Level {
				sides = a
			}
		}
	}
	if len(wet.Cross) > 0 {
		tell("At the sides, where it is highest", sides, high)
	}
	switch lift := wet.Lift(); {
	case math.IsNaN(lift.Mean):
		say("Under the box: not known.")
	case lift.Mean <= 0:
		say("Under the box: no water that lifts.")
	case lift.ByCross:
		say("Under the box it would rise %s above the underside in the mean, by the cross sections, where it comes from the sides.", w.len(lift.Mean))
	default:
		_, most, _ := wet.Long.Under()
		say("Under the box it would rise %s above the underside in the mean, %s at most.", w.len(lift.Mean), w.len(most))
	}
}

// besideBox is the water table just outside the box, at its right or, with a
// negative way, its left; NaN where there is none.
func besideBox(s *water.State, way float64) float64 {
	const clear = 0.01 // m
	x := s.View.Box.Max[0] + clear
	if way < 0 {
		x = s.View.Box.Min[0] - clear
	}
	z, ok := s.Table.At(x)
	if !ok {
		return math.NaN()
	}
	return z
}

// wholePressure is the share from which water presses as still water does.
const wholePressure = 0.995

// drains says what each drain takes, run by run.
func (w *waterWords) drains(st model.Stage, wet *water.Wet, say func(string, ...any)) {
	if st.Blocked {
		return
	}
	runs, err := assess.DrainRuns(w.r.Project, w.t, wet)
	if err != nil {
		say("What the drains take: not known, %s.", assess.Words(err))
		return
	}
	total := 0.0
	for _, r := range runs {
		name := upperFirst(r.Name)
		if r.Name == "drain" {
			name += " behind the box"
		}
		say("%s: %s; over %s that is %s.", name, units.Format(r.Per, quantity.LineFlow, w.sys), w.len(r.Length), PerHour(r.Flow(), w.sys))
		total += r.Flow()
		if r.Name == "interceptor" {
			say("%s", assess.InterceptorHeld)
		}
	}
	if len(runs) > 1 {
		say("Together the drains take %s.", PerHour(total, w.sys))
	}
}

// gallon is the US gallon, m3.
const gallon = 0.003785411784

// PerHour writes a flow, m3/s, as what is to be pumped in an hour.
func PerHour(q float64, sys units.System) string {
	v, unit := q*3600e3, "litres an hour"
	if sys == units.US {
		v, unit = q*3600/gallon, "gallons an hour"
	}
	return units.Number(roundTo3(v), decimals3(v)) + " " + unit
}

// roundTo3 keeps three figures.
func roundTo3(v float64) float64 {
	if v == 0 || !geom.Finite(v) {
		return v
	}
	k := math.Pow10(2 - int(math.Floor(math.Log10(math.Abs(v)))))
	return math.Round(v*k) / k
}

func decimals3(v float64) int {
	if v == 0 || !geom.Finite(v) {
		return 0
	}
	return min(3, max(0, 2-int(math.Floor(math.Log10(math.Abs(v))))))
}

// WaterChecks are the checks of drains, filters, outlet, sump and swale, in
// the order of the result.
func WaterChecks(r *assess.Result) []*check.Check {
	var out []*check.Check
	for i := range r.Checks {
		if slices.Contains(waterCheckIDs, r.Checks[i].ID) {
			out = append(out, &r.Checks[i])
		}
	}
	return out
}

var waterCheckIDs = []string{"cut-inflow", "drain-blocked", "drain-curtain", "drain-fall", "drain-layout", "drain-openings", "drain-outlet", "drain-pipe",
	"drain-velocity", "drain-rock", "drain-layer", "filter-classic", "filter-band", "filter-cloth", "interceptor-pipe", "membrane", "pump-head", "pump-stops", "pump-supply", "sump", "swale"}
