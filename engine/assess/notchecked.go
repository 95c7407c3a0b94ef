package assess

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// gap is something this version does not check, said on every result so that
// nobody takes silence for an answer.
type gap struct{ id, title, part, why string }

var never = []gap{
	{slopeID, slopeTitle, hillPart, "the circles are searched for after all else, and not when something is only tried"},
	{"slope-skin", "Skin of the slopes, soaked by rain", hillPart, "a soaked skin is worked out beside the hillside for information, and not judged: keep slopes grown over and drained"},
	{"seepage", "Computed water table and drains", "water", "the water level is the one you gave, not computed: no seepage analysis, no drain capacity"},
	{"fill-settlement", "Settling of the fill", "fill", "how far fill sinks beside and over the box, and what then hangs on the walls, is not computed"},
	{"joints", "Joints", "ribs and wales", "welds and bolts of what is built in are not checked"},
}

// notChecked lists what was not checked, with the reason.
func (j *job) notChecked(r *Result, found *worstOf) []check.Check {
	var out []check.Check
	add := func(id, title, part, why string) { out = append(out, check.Unchecked(id, title, part, why)) }
	for _, g := range never {
		if g.id == "seepage" && j.field != nil {
			continue
		}
		add(g.id, g.title, g.part, g.why)
	}
	j.openWater(add)
	j.noConcrete(add)
	j.noSettlement(found, add)
	j.waterInFront(r.Views, add)
	if j.p.Site.Climate.Kh > 0 {
		add("quake", "Inertia of the box and the soil on it", "box", "an earthquake also shakes the box and its cover: only the pressure on the walls is raised")
	}
	if j.p.Wings.Courses == 0 && (j.p.Fill.FrontTop > 0 || j.p.Fill.BackTop > 0) {
		add("headwall", "What holds the soil at the front", "front", "no wing walls are given: nothing drawn holds the fill beside the doors or the cover at the front edge of the roof")
	}
	j.wingsAbsent(found, add)
	j.absent(r, found, add)
	if why := j.flatCrests(); why != "" {
		add(crippleID, "Crests of the side sheet under ribs and wales", "long walls", why)
	}
	if !found.has(batterID) {
		add(batterID, "Legal batter of the cut", "cut face", "there is no stage with the cut open, or the cut has no face")
	}
	s := j.p.Strengthening
	j.openOutside(add)
	if !j.hasRibs() && (len(s.Wales) > 0 || s.Ribs.Purlins > 0) {
		add("wales", "Wales and purlins", "wales", "wales and purlins need ribs to carry them: give the ribs a spacing")
	}
	return out
}

// assumed lists what was taken for granted throughout.
func (j *job) assumed() []string {
	out := append(j.assumedWater(),
		"The box is held by its fill: soil presses at rest, and what compaction locks in stays.",
		"Cohesion of soil is not counted against the walls.",
		"The front of the box is open: nothing holds it from that side.",
		"A narrow strip of drainage rock does not shield the wall from the soil behind it: the worst of both is taken.",
		"No relief by arching over the roof; the soil on the roof weighs more than its prism (AASHTO embankment factor).",
		j.grade(),
	)
	out = append(out, j.idle()...)
	rusty, shaken := false, false
	for _, st := range j.p.Stages {
		rusty, shaken = rusty || st.Years > 0, shaken || st.Quake && j.p.Site.Climate.Kh > 0
	}
	if rusty {
		out = append(out, j.walls.words()...)
	} else {
		out = append(out, "The steel is taken as it is today: no stage has years of rust.")
	}
	if shaken {
		out = append(out, "In an earthquake water swings with the fill wherever it stands, as if the fill drained freely; the same factors of safety are asked for as without.")
	} else {
		out = append(out, "No earthquake acts in any stage.")
	}
	if j.p.Cut.DryDig {
		out = append(out, "The ground is dry below the formation when it is dug: you said so.")
	}
	if j.p.Fill.Plant == "" {
		out = append(out, "No compaction plant is named: what compaction presses on the walls is left out.")
	}
	if j.p.Box.DoorFill == 0 {
		out = append(out, "The doors are free of earth, and what water reaches the front runs off there.")
	}
	if !j.p.Box.NoFloor {
		out = append(out, "The plywood floor, butted against the sill of the blind end and screwed to every cross member, holds the sill (common practice, no source).")
	}
	if j.hasRibs() && j.ribFault == nil {
		out = append(out, j.floorWords())
		if j.ring.Pinned {
			out = append(out, "The ribs are pinned: the roof holds the tops of the long walls, as a diaphragm for what one pushes more. Where there is no roof beam it is the strut as well, where there is no floor tie the floor cross members are.")
		}
	}
	if !j.hasRibs() {
		out = append(out, "Without ribs the roof sheet holds the tops of the long walls: as a strut where both push, as a diaphragm for what one pushes more. The top rails are not counted on.")
	}
	if j.p.Box.Orientation == model.Broadside {
		out = append(out, "Set broadside, the downhill side and the door end stay clear of earth.")
	}
	out = append(out, j.assumedOutside()...)
	if j.p.Strengthening.Ribs.Spacing > 0 {
		out = append(out, "Ribs, wales and purlins are new hollow sections of the grade tube-345 of the table, fully welded. They do not rust. A rib carries up to 1.25 times its spacing, as sheets, wales and purlins run on over it.")
	}
	return out
}

// absent lists the main checks that no stage came to, with the reason.
func (j *job) absent(r *Result, found *worstOf, add func(id, title, part, why string)) {
	why := "no stage has fill against the box"
	if len(r.Blocks) > 0 {
		why = "a stage could not be computed: " + r.Blocks[0].Text
	}
	for _, c := range []gap{
		{id: "side-sheet", title: "Side sheet in bending", part: "long walls"},
		{id: "end-sheet", title: "End sheet in bending", part: "back wall"},
		{id: "roof-sheet", title: "Roof sheet as beam and strut", part: "roof"},
		{id: "sliding", title: "Sliding out of the hill", part: "box"},
		{id: "overturning", title: "Overturning about the front edge", part: "box"},
		{id: padBearing, title: "Bearing below the pads", part: "pads"},
	} {
		if !found.has(c.id) {
			add(c.id, c.title, c.part, why)
		}
	}
	if found.has("flotation") {
		return
	}
	switch {
	case j.p.Site.Water.DesignHigh == nil:
		why = "no design high water level is given"
	case len(r.Blocks) == 0:
		why = "no stage has water above the underside of the box"
	}
	add("flotation", "Flotation", "box", why)
}

// openWater lists what the levels given leave open.
func (j *job) openWater(add func(id, title, part, why string)) {
	w := j.p.Site.Water
	if j.field != nil {
		j.openFlow(add)
		return
	}
	if w.DesignHigh == nil {
		j.seenStill(add)
		return
	}
	for _, o := range w.Observed {
		if o.Pos[0] >= j.frontX && o.Pos[1] > *w.DesignHigh {
			add("drain-blocked", "Drains blocked", "water", "water was seen higher than your design high level: what happens when the drains fail is not checked unless a stage has that level")
			return
		}
	}
}

// seenStill tells of water seen above the seasonal level where that is the only
// one given.
func (j *job) seenStill(add func(id, title, part, why string)) {
	w := j.p.Site.Water
	if w.Seasonal == nil {
		return
	}
	up := math.Inf(-1)
	for _, o := range w.Observed {
		if o.Pos[0] >= j.frontX {
			up = math.Max(up, o.Pos[1]-*w.Seasonal)
		}
	}
	if up > 0 {
		add("water-seen", "Water seen higher", "water", "water was seen "+quantity.Text(up, quantity.Length)+" above the seasonal level given: no stage covers it")
	}
}

// grade says which steel the box is taken to be of.
func (j *job) grade() string {
	switch {
	case j.p.Box.Patched:
		return "Steel of the box: patched or straightened, so taken as of unknown grade."
	case j.p.Box.Fy > 0:
		return "Steel of the box: the yield strength that you gave, or the lower one of its grade."
	case j.p.Box.SteelKnown:
		return "Steel of the box: the maker's weathering steel, grade corten of the table."
	}
	return "Steel of the box: maker not known, so the low grade of the table."
}

// idle lists the stages that name no load although they are there for one.
func (j *job) idle() []string {
	var out []string
	for _, st := range j.p.Stages {
		if st.ID == "plant" && len(st.Surcharges) == 0 {
			out = append(out, fmt.Sprintf("Stage %q has no machine: give one to see what it does; a vehicle is judged only where it stands.", st.Name))
		}
	}
	return out
}

// has tells whether a check of that id was made.
func (w *worstOf) has(id string) bool {
	for _, c := range w.best {
		if c.id == id {
			return true
		}
	}
	return false
}
