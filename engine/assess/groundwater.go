package assess

import (
	"context"
	"errors"
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/water"
)

// flow computes the water of the project, where it is to be computed. Stages
// that have none cost nothing, and water that was computed before is at hand.
func (j *job) flow(ctx context.Context) error {
	if !j.p.Site.Water.Computed || j.field != nil {
		return nil
	}
	var err error
	j.field, err = water.Of(ctx, j.p, j.t)
	return err
}

// wet is the computed water at a stage, nil where it has none or where the
// level is given.
func (j *job) wet(st model.Stage) *water.Wet {
	if j.field == nil {
		return nil
	}
	w, err := j.field.At(st)
	if err != nil {
		return nil // missingWater has told
	}
	return w
}

// dry is no water against a wall.
var dry = water.Against{Level: math.Inf(-1), Share: 1}

// against is the water against a face at a station: computed, or still at the
// level given.
func (j *job) against(v *section.View, f section.Face, x float64) water.Against {
	if j.field == nil {
		if math.IsNaN(v.Water) {
			return dry
		}
		return water.Against{Level: v.Water, Share: 1}
	}
	w := j.wet(v.Stage)
	if w == nil || w.Long == nil {
		return dry
	}
	if f == section.Back || f == section.Front {
		return higher(w.Long.At(f), j.besideEnd(w, f))
	}
	return j.between(w, f, x)
}

// besideEnd is the water beside the end of a box by the cross section there:
// what flows towards the sides may be held back behind the end as well.
func (j *job) besideEnd(w *water.Wet, f section.Face) water.Against {
	if len(w.Cross) == 0 {
		return dry
	}
	x := j.backX
	if f == section.Front {
		x = j.frontX
	}
	c := w.CrossAt(x)
	return higher(c.At(section.Left), c.At(section.Right))
}

// higher is the one of two waters that stands higher, with the larger share.
func higher(a, b water.Against) water.Against {
	return water.Against{Level: math.Max(a.Level, b.Level), Share: math.Max(a.Share, b.Share)}
}

// between is the water against a side at a station, straight between the cross
// sections before and after it; water below the box counts as at its underside
// there.
func (j *job) between(w *water.Wet, f section.Face, x float64) water.Against {
	floor := j.p.Box.Level
	at := func(s *water.State) water.Against {
		a := s.At(f)
		a.Level = math.Max(a.Level, floor)
		return a
	}
	var out water.Against
	for i, c := range w.Cross {
		switch {
		case i == 0 || x >= c.View.Station:
			out = at(c)
			if i+1 < len(w.Cross) && x > c.View.Station {
				n := w.Cross[i+1]
				t := math.Min(1, (x-c.View.Station)/(n.View.Station-c.View.Station))
				b := at(n)
				out = water.Against{Level: out.Level + t*(b.Level-out.Level), Share: math.Max(out.Share, b.Share)}
			}
		}
	}
	if out.Level <= floor {
		return dry
	}
	return out
}

// wetColumns puts the water into the columns of soil beside a face.
func wetColumns(cols []earth.Column, a water.Against) {
	for i := range cols {
		cols[i].Water, cols[i].Left = a.Level, a.Share
	}
}

// lift is the water that lifts the box: still water, or that computed. An error
// says that it is not known.
func (j *job) lift(v *section.View) (water.Lift, error) {
	if j.field == nil {
		if math.IsNaN(v.Water) {
			return water.Lift{}, nil
		}
		return water.Lift{Mean: math.Max(0, v.Water-j.p.Box.Level)}, nil
	}
	w := j.wet(v.Stage)
	if w == nil || w.Long == nil {
		return water.Lift{}, nil
	}
	l := w.Lift()
	if math.IsNaN(l.Mean) {
		return l, model.Problem{Field: "bedding", Value: "no ground below", Allowed: "ground that carries water under the box",
			Text: "the water that lifts the box is not known: nothing below it lets water through"}
	}
	return l, nil
}

// level is the highest water beside the box at a station; NaN for none.
func (j *job) level(v *section.View, x float64) float64 {
	if j.field == nil {
		return v.Water
	}
	a := higher(j.against(v, section.Left, x), j.against(v, section.Right, x))
	if math.IsInf(a.Level, -1) {
		return math.NaN()
	}
	return a.Level
}

// atToe is the level of the water at the front of the box, NaN for none.
func (j *job) atToe(v *section.View) float64 {
	if j.field == nil {
		return v.Water
	}
	w := j.wet(v.Stage)
	if w == nil || w.Long == nil {
		return math.NaN()
	}
	z, ok := w.Long.Table.At(j.frontX)
	if !ok {
		return math.NaN()
	}
	return z
}

// waterFault is why the water of a stage cannot be computed, nil where it can
// or need not be.
func (j *job) waterFault(st model.Stage) error {
	if j.field == nil || st.Water == "" || st.Water == model.WaterNone {
		return nil
	}
	_, err := j.field.At(st)
	if errors.Is(err, water.ErrNoCondition) {
		return nil
	}
	return err
}
