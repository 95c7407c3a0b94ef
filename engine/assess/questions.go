package assess

import (
	"math"
	"slices"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// question is one value to be varied.
type question struct {
	curve  Curve     // without points and answer
	values []float64 // tried first, rising
	// start is the value at which the walk to the limit begins where it is
	// within limits; NaN begins at the easiest value.
	start   float64
	nearest bool    // smaller values are harder
	tol     float64 // how closely the limit is solved
	// at is the project with the value, and what scales its vehicles.
	at  func(v float64) (*model.Project, map[string]float64)
	why string // why it cannot be asked
	// field is the water of the drawing where it is kept; nil where every value
	// has its own.
	field *water.Field
}

// inWaterOf keeps the computed water of the drawing for all values.
func (q question) inWaterOf(r *Result) question {
	if r.Water != nil {
		q.field = r.Water
		q.curve.Held += " The water is that computed for the drawing."
	}
	return q
}

// questionIDs are the questions in the order in which they are asked.
var questionIDs = []string{"cover", "backfill", "water", "vehicle", "distance", "years"}

// ask prepares a question.
func ask(r *Result, t *tables.Set, b tables.Box, id string) question {
	p := r.Project
	switch id {
	case "cover":
		return askCover(p).inWaterOf(r)
	case "backfill":
		return askBackfill(p, b).inWaterOf(r)
	case "water":
		return askWater(p, b, r.Water)
	case "vehicle":
		return askVehicle(p, t, b)
	case "distance":
		return askDistance(p, t, b)
	case "years":
		return askYears(p)
	}
	panic("assess: no question " + id)
}

const drawnByHand = "the finished surface is drawn by hand: remove the drawn line to let it be varied"

// askCover moves the finished surface over the box up and down as it is drawn.
func askCover(p *model.Project) question {
	drawn := coverOf(p)
	q := question{tol: tolAnswer, start: drawn,
		curve: Curve{ID: "cover", Question: "How deep may this box sit here?", Axis: "least cover on the roof", Kind: quantity.Length, Now: drawn,
			Held: "The finished surface is moved up and down as it is drawn, at both ends alike; everything else is kept as drawn. Less cover than the build-up on the roof is thick leaves the build-up out."},
		at: func(v float64) (*model.Project, map[string]float64) { return coverTo(p, v), nil }}
	if len(p.Fill.Line) >= 2 {
		q.why = drawnByHand
	}
	if drawn < 0 {
		q.curve.Now, q.start = math.NaN(), math.NaN()
	}
	q.values = []float64{0, 0.15, 0.3, 0.45, 0.6, 0.8, 1, 1.25, 1.5, 2, 2.5, 3, mostCover}
	return q
}

// askBackfill raises the fill beside the walls with nothing on the roof.
func askBackfill(p *model.Project, b tables.Box) question {
	q := question{tol: tolAnswer, start: math.NaN(),
		curve: Curve{ID: "backfill", Question: "How high may the fill stand beside the walls?", Axis: "fill above the underside of the box", Kind: quantity.Length, Now: math.NaN(),
			Held: "The finished surface is level with the same height at the front and the back edge of the box and rises behind it as drawn; nothing lies on the roof. Everything else is kept as drawn, machines, snow and water with it."},
		at: func(v float64) (*model.Project, map[string]float64) {
			c := p.Clone()
			c.Fill.FrontTop, c.Fill.BackTop, c.Fill.Roof = v-b.H, v-b.H, nil
			return c, nil
		}}
	if f := p.Fill; f.FrontTop == f.BackTop && f.FrontTop <= 0 && len(f.Roof) == 0 {
		q.curve.Now = b.H + f.FrontTop
	}
	if len(p.Fill.Line) >= 2 {
		q.why = drawnByHand
	}
	q.values = spread(0.2, b.H, 11)
	return q
}

// askWater raises the design high level from the underside of the box to the
// finished surface.
func askWater(p *model.Project, b tables.Box, field *water.Field) question {
	still := stillOf(p, field)
	q := question{tol: tolAnswer, start: math.NaN(),
		curve: Curve{ID: "water", Question: "How high may the water come?", Axis: "high water above the underside of the box", Kind: quantity.Length, Now: math.NaN(),
			Held: "The design high level is moved; the seasonal one is kept as given, but never above it. Everything else is kept as drawn."},
		at: func(v float64) (*model.Project, map[string]float64) { return waterTo(still, p.Box.Level+v), nil }}
	if !slices.ContainsFunc(p.Stages, func(s model.Stage) bool { return s.Water == model.WaterHigh }) {
		q.why = "no stage has high water"
	}
	top := waterTop(p, b)
	if p.Site.Water.Computed {
		q.curve.Held = "The water stands still at that level all round the box in the stages with high water, whatever the drains do: it is not computed here. Seasonal water stands as high as it was computed beside the box, but never above it. Everything else is kept as drawn."
	}
	if z := highNow(p, field); z != nil {
		if now := *z - p.Box.Level; now >= 0 && now <= top {
			q.curve.Now = now
		}
	}
	q.values = spread(0, top, 12)
	return q
}

// askYears lets the box rust in all service stages alike.
func askYears(p *model.Project) question {
	q := question{tol: 0.05, start: math.NaN(),
		curve: Curve{ID: "years", Question: "How many years until a part reaches its limit?", Axis: "years since the box was set", Kind: quantity.Years, Now: math.NaN(),
			Held: "All stages in service have the same years of rust, after the table of EN 1993-5 (memory); what is taken off is said in the workings. Everything else is kept as drawn."},
		at: func(v float64) (*model.Project, map[string]float64) {
			c := p.Clone()
			for i := range c.Stages {
				if c.Stages[i].Kind == model.StageService {
					c.Stages[i].Years = v
				}
			}
			return c, nil
		}}
	now := math.NaN()
	for _, s := range p.Stages {
		if s.Kind != model.StageService {
			continue
		}
		if !math.IsNaN(now) && s.Years != now {
			now = math.NaN() // not all alike: no one value is drawn
			break
		}
		now = s.Years
	}
	q.curve.Now = now
	if !slices.ContainsFunc(p.Stages, func(s model.Stage) bool { return s.Kind == model.StageService }) {
		q.why = "no stage is in service"
	}
	q.values = []float64{0, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 90, 100}
	return q
}

// Where no vehicle is given, one stands behind the box (common practice: what
// a farm or a builder drives there).
const (
	plainVehicle  = "tractor-midi" // row of the vehicle table
	plainDistance = 1.0            // m, clear of the back wall
	plainID       = "vehicle-tried"
)

// driven is a project with a vehicle that acts in a stage.
type driven struct {
	p     *model.Project
	s     model.Surcharge
	gross float64 // t, by the table
	near  float64 // m, clear distance of its nearest wheel from the back wall
	given bool    // by the project
	name  string
	why   string
}

// drive finds the first vehicle that acts in a stage, or brings one.
func drive(p *model.Project, t *tables.Set, b tables.Box) driven {
	d := driven{p: p}
	for _, s := range p.Site.Surcharges {
		if s.Kind == model.Vehicle && slices.ContainsFunc(p.Stages, func(st model.Stage) bool { return slices.Contains(st.Surcharges, s.ID) }) {
			d.s, d.given = s, true
			break
		}
	}
	back := p.Box.Front + section.Depth(p, b)
	if !d.given {
		d.bring(back)
	}
	veh, ok := t.Vehicle(d.s.Vehicle)
	patches, err := patchesOf(d.s, t)
	if !ok || err != nil || len(patches) == 0 {
		d.why = "the vehicle " + d.s.Vehicle + " is not in the table"
		return d
	}
	d.name = veh.Name
	d.near = math.Inf(1)
	for _, w := range patches {
		d.gross += w.P / gravity / 1000
		d.near = math.Min(d.near, nearEdge(w)-back)
	}
	if !d.given && d.why == "" {
		d.place(d.s.X1 + plainDistance - d.near)
		d.near = plainDistance
	}
	return d
}

// nearEdge is where a footprint begins, from the front of the hill.
func nearEdge(w earth.Patch) float64 { return w.X - w.A/2 }

// bring adds the ordinary vehicle behind the box, in a stage like the last one
// in service but dry and without snow.
func (d *driven) bring(back float64) {
	d.p = d.p.Clone()
	d.s = model.Surcharge{ID: plainID, Name: "Vehicle tried", Kind: model.Vehicle, Vehicle: plainVehicle, Heading: "along", X1: back}
	d.p.Site.Surcharges = append(d.p.Site.Surcharges, d.s)
	d.why = "no stage is in service"
	for _, st := range slices.Backward(d.p.Stages) {
		if st.Kind != model.StageService {
			continue
		}
		st.ID, st.Name, st.Surcharges = plainID, "Vehicle tried", []string{plainID}
		st.Water, st.Snow, st.Quake = "", false, false
		d.p.Stages = append(d.p.Stages, st)
		d.why = ""
		return
	}
}

// place moves the vehicle to x.
func (d *driven) place(x float64) {
	d.s.X1 = x
	for i := range d.p.Site.Surcharges {
		if d.p.Site.Surcharges[i].ID == d.s.ID {
			d.p.Site.Surcharges[i].X1 = x
		}
	}
}

// which says which vehicle is tried, for Curve.Held.
func (d *driven) which() string {
	if d.given {
		return "The vehicle is the first one that acts in a stage: " + d.name + ". "
	}
	return "No vehicle acts in a stage: a " + d.name + " is tried, lengthwise along the contour, " + quantity.Brief.Text(plainDistance, quantity.Length) + " clear of the back wall as it is drawn, in a dry stage of its own. "
}

// askVehicle scales the wheels of a vehicle where it stands.
func askVehicle(p *model.Project, t *tables.Set, b tables.Box) question {
	d := drive(p, t, b)
	q := question{tol: 0.005, start: math.NaN(), why: d.why,
		curve: Curve{ID: "vehicle", Question: "How heavy may a vehicle be?", Axis: "gross weight of the vehicle", Kind: quantity.Mass, Now: math.NaN(),
			Held: d.which() + "All its wheels are scaled alike and stay where they stand, with the same footprints; everything else is kept as drawn."},
		at: func(v float64) (*model.Project, map[string]float64) {
			return d.p, map[string]float64{d.s.ID: v / d.gross}
		}}
	if d.given {
		q.curve.Now = d.gross
	}
	for _, k := range []float64{0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 6, 8} {
		q.values = append(q.values, k*d.gross)
	}
	return q
}

// askDistance moves a vehicle towards the back wall.
func askDistance(p *model.Project, t *tables.Set, b tables.Box) question {
	d := drive(p, t, b)
	q := question{tol: tolAnswer, start: math.NaN(), nearest: true, why: d.why,
		curve: Curve{ID: "distance", Question: "How near may the vehicle come?", Axis: "clear distance of its nearest wheel from the back wall", Kind: quantity.Length, Now: math.NaN(),
			Held: d.which() + "It is moved up and down the slope with its own weight and keeps its place across; everything else is kept as drawn. Wheels over the box are not asked for here."},
		at: func(v float64) (*model.Project, map[string]float64) {
			m := driven{p: d.p.Clone(), s: d.s}
			m.place(d.s.X1 + v - d.near)
			return m.p, nil
		}}
	if d.given && d.near >= 0 {
		q.curve.Now = d.near
	}
	q.values = []float64{0, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8}
	return q
}

// spread is n even values from lo to hi.
func spread(lo, hi float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = lo + (hi-lo)*float64(i)/float64(n-1)
	}
	return out
}
