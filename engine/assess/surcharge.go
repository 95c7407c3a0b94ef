package assess

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// acting are the surcharges switched on at a stage.
func (j *job) acting(st model.Stage) []model.Surcharge {
	var out []model.Surcharge
	for _, id := range st.Surcharges {
		for _, s := range j.p.Site.Surcharges {
			if s.ID == id {
				out = append(out, s)
			}
		}
	}
	return out
}

// isWide tells whether an area load reaches so far across the slope that it
// acts like one without end: no limits in y are given.
func isWide(s model.Surcharge) bool { return s.Y1 == nil || s.Y2 == nil }

// besideBox tells whether an area load that is wide across the slope stands
// beside the box at a station, so that it presses on both sides with K q.
func besideBox(s model.Surcharge, station float64) bool {
	return s.X1 <= station && station <= s.X2
}

// wideSurcharge is the uniform pressure on the surface that presses on a face
// with K q: on the sides every area load without limits across; on the back
// wall one that starts at the wall and reaches beyond the strip formula.
// Snow lies everywhere.
func (j *job) wideSurcharge(st model.Stage, f section.Face, station float64) float64 {
	q := 0.0
	if st.Snow {
		q = j.p.Site.Climate.GroundSnow
	}
	for _, s := range j.acting(st) {
		if s.Kind != model.AreaLoad {
			continue
		}
		switch {
		case f == section.Back:
			if s.X1 <= j.backX && isWide(s) && s.X2-j.backX > stripReach*j.box.H {
				q += s.Q
			}
		case isWide(s) && besideBox(s, station):
			q += s.Q
		}
	}
	return q
}

// stripReach is the width of a load over the height of the wall beyond which
// it is no strip any more: the strip formula would give K = 1.
const stripReach = 4.0

// inWall gives plan positions as seen from a face: out is the distance from
// the wall, along the place along it.
func (j *job) inWall(f section.Face, x, y float64) (out, along float64) {
	switch f {
	case section.Back:
		return x - j.backX, y
	case section.Left:
		return -j.across/2 - y, x
	default:
		return y - j.across/2, x
	}
}

// wallLoads are the strips, areas and wheels that press on a face at a station.
func (j *job) wallLoads(st model.Stage, f section.Face, station, surface float64) ([]earth.WallLoad, error) {
	h := surface - j.p.Box.Level
	along := station
	if f == section.Back {
		along = 0
	}
	var out []earth.WallLoad
	for _, s := range j.acting(st) {
		load, err := j.wallLoadOf(s, f, along, h)
		if err != nil {
			return nil, err
		}
		if load != nil {
			out = append(out, load)
		}
	}
	return out, nil
}

// wallLoadOf is the pressure of one surcharge on a face at a place along it,
// nil where it does not press there or acts as a wide surcharge.
func (j *job) wallLoadOf(s model.Surcharge, f section.Face, along, h float64) (earth.WallLoad, error) {
	if s.Kind == model.Vehicle {
		return j.wheelsOn(s, f, along, h)
	}
	y1, y2 := math.Inf(-1), math.Inf(1)
	if !isWide(s) {
		y1, y2 = math.Min(*s.Y1, *s.Y2), math.Max(*s.Y1, *s.Y2)
	}
	if f == section.Back {
		l1, l2 := math.Max(0, s.X1-j.backX), s.X2-j.backX
		if l2 <= 0 || l1 == 0 && isWide(s) && l2 > stripReach*j.box.H {
			return nil, nil
		}
		l2 = math.Min(l2, l1+stripReach*h)
		if isWide(s) {
			return earth.StripLoad(s.Q, l1, l2, h)
		}
		return earth.AreaLoad(s.Q, l1, l2, y1, y2, j.onBack((y1+y2)/2), h)
	}
	if isWide(s) {
		return nil, nil
	}
	l1, l2 := y1-j.across/2, y2-j.across/2
	if f == section.Left {
		l1, l2 = -j.across/2-y2, -j.across/2-y1
	}
	if l2 <= 0 {
		return nil, nil
	}
	l1 = math.Max(0, l1)
	return earth.AreaLoad(s.Q, l1, math.Min(l2, l1+stripReach*h), s.X1, s.X2, along, h)
}

// onBack is the place on the back wall nearest to y. Opposite the middle of a
// load, or as near to it as the wall reaches, it presses most.
func (j *job) onBack(y float64) float64 { return math.Min(math.Max(y, -j.across/2), j.across/2) }

// wheelsOn is the pressure of a vehicle's wheels on a face. On the back wall
// the place with the largest thrust is taken, of the middle and those opposite
// the wheels; a side is judged at every station, wheels among them.
func (j *job) wheelsOn(s model.Surcharge, f section.Face, along, h float64) (earth.WallLoad, error) {
	patches, err := j.patches(s)
	if err != nil {
		return nil, err
	}
	var wheels []earth.PlanLoad
	places := []float64{along}
	for _, p := range patches {
		out, a := j.inWall(f, p.X, p.Y)
		if out < 0 {
			continue // over the box or on its other side
		}
		wheels = append(wheels, earth.PlanLoad{P: p.P, X: out, Y: a})
		if f == section.Back {
			places = append(places, j.onBack(a))
		}
	}
	if len(wheels) == 0 {
		return nil, nil
	}
	var worst earth.WallLoad
	most := math.Inf(-1)
	for _, y := range places {
		load, err := earth.WheelLoads(wheels, y, h)
		if err != nil {
			return nil, err
		}
		if t := thrustOf(load, h); t > most {
			worst, most = load, t
		}
	}
	return worst, nil
}

// thrustSteps divides a wall for comparing thrusts.
const thrustSteps = 24

// thrustOf is the thrust of a load on a wall of height h by the midpoint rule,
// close enough to tell which place is worst, kN/m.
func thrustOf(load earth.WallLoad, h float64) float64 {
	sum := 0.0
	for i := range thrustSteps {
		sum += load(h * (float64(i) + 0.5) / thrustSteps)
	}
	return sum * h / thrustSteps
}

// patches are the footprints of a vehicle in plan: x into the hill, y across.
func (j *job) patches(s model.Surcharge) ([]earth.Patch, error) {
	out, err := patchesOf(s, j.t)
	if k, ok := j.heavier[s.ID]; ok {
		for i := range out {
			out[i].P *= k
		}
	}
	return out, err
}

// patchesOf are the footprints of a vehicle of the table in plan.
func patchesOf(s model.Surcharge, t *tables.Set) ([]earth.Patch, error) {
	veh, ok := t.Vehicle(s.Vehicle)
	if !ok {
		return nil, model.Problem{Field: "site.surcharges.vehicle", Value: s.Vehicle, Allowed: "a row of the vehicle table", Text: "no such vehicle"}
	}
	y0 := 0.0
	if s.Y1 != nil {
		y0 = *s.Y1
	}
	var out []earth.Patch
	for _, w := range veh.Wheels {
		p := earth.Patch{P: w.P, X: s.X1 + w.U, Y: y0 + w.V, A: w.A, B: w.B}
		if s.Heading != headingUp {
			p = earth.Patch{P: w.P, X: s.X1 - w.V, Y: y0 + w.U, A: w.B, B: w.A}
		}
		out = append(out, p)
	}
	return out, nil
}

const headingUp = "up"
