package assess

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/water"
)

// seenAbove is how far water may have been seen above the computed level before
// that is told, m: what a trial hole is read to.
const seenAbove = 0.05

// openFlow lists what the computed water leaves open.
func (j *job) openFlow(add func(id, title, part, why string)) {
	if far := j.field.Far[model.WaterHigh]; far != nil {
		table := far.Table
		for _, o := range j.p.Site.Water.Observed {
			if z, ok := table.At(o.Pos[0]); ok && o.Pos[1] > z+seenAbove {
				add("water-seen", "Water seen higher", "water", fmt.Sprintf("water was seen %.2f m above the high level that is computed there for the hill as found: raise the design high level", o.Pos[1]-z))
				break
			}
		}
	}
	if !j.drained() {
		return
	}
	blocked := func(st model.Stage) bool {
		return st.Blocked && st.Kind == model.StageService && st.Water != "" && st.Water != model.WaterNone
	}
	if !slices.ContainsFunc(j.p.Stages, blocked) {
		add("drain-blocked", "Drains blocked", "water", "no stage in service has its drains blocked: what the box bears when they stop is not in these checks")
	}
}

// drained tells whether any drain is planned.
func (j *job) drained() bool { return j.p.Defence.Drain.Present || j.p.Defence.Drain.Uphill }

// assumedWater says how the water was found.
func (j *job) assumedWater() []string {
	if j.field == nil {
		return []string{"Water stands level at the height you gave for the stage: the ground-water flow is not computed."}
	}
	out := []string{
		"The water is computed as steady flow in sections, each by itself and in its own plane; the higher of long and cross section counts. The water levels you gave are those of the hill as found at the back of the box; the level at the far end of the section is fitted to them and the works do not change it.",
		"The foot of the sections lets no water through, the ground is as permeable sideways and upwards as given, and drains run free unless a stage has them blocked.",
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
