package assess

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/water"
)

// seenAbove is how far water may have been seen above the computed level before
// that is told, m: what a trial hole is read to.
const seenAbove = 0.05

// wetWords call the conditions.
var wetWords = map[string]string{model.WaterSeasonal: "seasonal water", model.WaterHigh: "high water"}

// openFlow lists what the computed water leaves open.
func (j *job) openFlow(add func(id, title, part, why string)) {
	var seen, short []string
	for _, wet := range []string{model.WaterHigh, model.WaterSeasonal} {
		far := j.field.Far[wet]
		if far == nil {
			continue
		}
		if up := j.seenOver(far); up > seenAbove {
			do := "raise the design high level"
			if wet == model.WaterSeasonal {
				do = "the stages in seasonal water do not cover it"
			}
			seen = append(seen, fmt.Sprintf("water was seen %s above the %s that is computed there for the hill as found: %s", quantity.Text(up, quantity.Length), levelWords[wet], do))
		}
		if text := shortWords(far); text != "" {
			short = append(short, "the "+levelWords[wet]+" "+text)
		}
	}
	if len(seen) > 0 {
		add("water-seen", "Water seen higher", "water", strings.Join(seen, "; "))
	}
	if len(short) > 0 {
		add("water-short", "Water as high as it was given", "water", strings.Join(short, "; ")+": look at the levels given, at the permeability, or draw the hill further up")
	}
	j.openBlocked(add)
}

// levelWords call the levels of the conditions.
var levelWords = map[string]string{model.WaterSeasonal: "seasonal level", model.WaterHigh: "high level"}

// seenOver is how far water was seen above the computed table of the hill as
// found, m; below 0 where it was not.
func (j *job) seenOver(far *water.Far) float64 {
	most := math.Inf(-1)
	for _, o := range j.p.Site.Water.Observed {
		if z, ok := far.Table.At(o.Pos[0]); ok {
			most = math.Max(most, o.Pos[1]-z)
		}
	}
	return most
}

// shortWords say that the water does not come as high as it was given, as the
// ground uphill is full; empty where it does.
func shortWords(far *water.Far) string {
	if !far.Full || len(far.Misses) == 0 {
		return ""
	}
	m := slices.MinFunc(far.Misses, func(a, b water.Miss) int { return cmp.Compare(a.Computed-a.Level, b.Computed-b.Level) })
	return fmt.Sprintf("is %s where %s was given: the ground uphill is full to its surface and no more comes", quantity.Level.Text(m.Computed, quantity.Length), quantity.Level.Text(m.Level, quantity.Length))
}

// tellShort says in the checks that take their water from a level that is lower
// than the one given that it is.
func (j *job) tellShort(cs []check.Check) {
	if j.field == nil {
		return
	}
	low := map[string]string{}
	for _, st := range j.p.Stages {
		if far := j.field.Far[st.Water]; far != nil {
			low[st.ID] = shortWords(far)
		}
	}
	for i := range cs {
		if c := &cs[i]; low[c.Stage] != "" && c.Verdict() != check.NotChecked && feelsWater(slot{c.ID, c.Part}) {
			c.Assumptions = append(slices.Clip(c.Assumptions), "the level of the water "+low[c.Stage])
		}
	}
}

// blockedIn are the names of the stages in service with the drains blocked under
// a condition.
func (j *job) blockedIn(wet string) []string {
	var out []string
	for _, st := range j.p.Stages {
		if st.Blocked && st.Kind == model.StageService && st.Water == wet {
			out = append(out, "“"+st.Name+"”")
		}
	}
	return out
}

// openBlocked tells at which water drains that are blocked were not looked at.
func (j *job) openBlocked(add func(id, title, part, why string)) {
	if !j.drained() || len(j.blockedIn(model.WaterHigh)) > 0 {
		return
	}
	switch low := j.blockedIn(model.WaterSeasonal); {
	case len(low) == 0:
		add("drain-blocked", "Drains blocked", "water", "no stage in service has its drains blocked: what the box bears when they stop is not in these checks")
	case j.p.Site.Water.DesignHigh == nil:
		add("drain-blocked", "Drains blocked at high water", "water", "no design high level is given: drains blocked are looked at with seasonal water only, in "+strings.Join(low, ", "))
	default:
		add("drain-blocked", "Drains blocked at high water", "water", "no stage in service has its drains blocked at high water: they are looked at with seasonal water only, in "+strings.Join(low, ", "))
	}
}

// InterceptorHeld says what an interceptor is not credited with.
const InterceptorHeld = "The interceptor is seen by the long section alone: the sections across have the water of the hill as found at their ends, so that it lowers nothing beside the box, which is on the careful side."

// drained tells whether any drain is planned.
func (j *job) drained() bool { return j.p.Defence.Drain.Present || j.p.Defence.Drain.Uphill }

// assumedWater says how the water was found.
func (j *job) assumedWater() []string {
	if j.field == nil {
		return []string{"Water stands level at the height you gave for the stage: the ground-water flow is not computed."}
	}
	out := []string{
		"The water is computed as steady flow in sections, each by itself and in its own plane; the higher of long and cross section counts. The water levels you gave are those of the hill as found at the back of the box; the level at the far end of the section is fitted to them and the works do not change it.",
		"The lowest soil reaches down three quarters of the way from the front of the box to the uphill end of the ground drawn, and nothing flows below that; the ground is as permeable sideways and upwards as given, and drains run free unless a stage has them blocked.",
		fmt.Sprintf("A much finer mesh puts the water at a wall up to %s higher, and has a drain take up to %.0f %% less, in the demonstration projects.", quantity.Brief.Text(water.FinerLevel, quantity.Length), 100*water.FinerFlow),
	}
	if j.p.Defence.Drain.Uphill {
		out = append(out, InterceptorHeld)
	}
	for _, wet := range []string{model.WaterHigh, model.WaterSeasonal} {
		if far := j.field.Far[wet]; far != nil && shortWords(far) != "" {
			out = append(out, "The "+levelWords[wet]+" "+shortWords(far)+".")
		}
		if in := j.blockedIn(wet); len(in) > 0 && j.drained() {
			out = append(out, "Drains blocked were looked at with "+wetWords[wet]+": "+strings.Join(in, ", ")+".")
		}
	}
	var up []string
	for _, st := range j.p.Stages {
		if j.roughAt(st) {
			up = append(up, "\""+st.Name+"\"")
		}
	}
	if len(up) > 0 {
		out = append(out, "The water of "+strings.Join(up, ", ")+" hangs on thin films over tight ground: it is less exact there, and the checks that take it say so.")
	}
	return out
}

// stillOf is a project with still water in place of computed: the seasonal one
// as high as it was computed beside the box, none where it stays below.
func stillOf(p *model.Project, field *water.Field) *model.Project {
	if field == nil {
		return p
	}
	q := p.Clone()
	q.Site.Water.Computed = false
	z := highest(p, field, model.WaterSeasonal)
	q.Site.Water.Seasonal = &z
	if math.IsInf(z, -1) {
		q.Site.Water.Seasonal = nil
	}
	for i := range q.Stages {
		st := &q.Stages[i]
		if st.Water == model.WaterSeasonal && q.Site.Water.Seasonal == nil {
			st.Water = model.WaterNone
		}
	}
	return q
}

// highest is the highest computed water beside the box in the stages with one
// condition; -Inf where it stays below.
func highest(p *model.Project, field *water.Field, wet string) float64 {
	out := math.Inf(-1)
	for _, st := range p.Stages {
		if st.Water != wet {
			continue
		}
		w, err := field.At(st)
		if err != nil {
			continue
		}
		out = math.Max(out, highestBeside(w))
	}
	return out
}

// highestBeside is the highest water against a wall of the box; -Inf where it
// stays below.
func highestBeside(w *water.Wet) float64 {
	out := math.Inf(-1)
	for _, s := range append([]*water.State{w.Long}, w.Cross...) {
		if s == nil {
			continue
		}
		for _, f := range []section.Face{section.Back, section.Front, section.Left, section.Right} {
			out = math.Max(out, s.At(f).Level)
		}
	}
	return out
}

// highNow is the level of the high water that the question how high it may come
// starts from: as given, or as computed beside the box; nil where there is none.
func highNow(p *model.Project, field *water.Field) *float64 {
	if field == nil {
		return p.Site.Water.DesignHigh
	}
	z := highest(p, field, model.WaterHigh)
	if math.IsInf(z, -1) {
		return nil
	}
	return &z
}
