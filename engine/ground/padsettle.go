package ground

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// SettleIn is a box on four equal pads, or bare castings or the quarters of a
// slab, on a rock bed over ground that may differ from pad to pad.
type SettleIn struct {
	SpanX, SpanY  float64 // between the middles of the pads, m
	Length, Width float64 // of a pad along and across the box, m
	// MostLength and MostWidth are how far the load of a pad may spread without
	// meeting that of its neighbour, m.
	MostLength, MostWidth float64
	Bed                   Layer // below the pads; of no thickness where there is none
	// Below are the layers under the bed below each pad, from the top down, in
	// the order of Pads. The ground ends below the last one unless that is endless.
	Below [4][]Layer
}

// PadNames are the four pads in the order of Pads.
var PadNames = [4]string{"front right", "front left", "back right", "back left"}

// Settling is what four pads do to the ground, ready for any load.
type Settling struct {
	In SettleIn
	// Length and Width are those of the load on the ground below the bed, spread
	// 2:1 through it, m.
	Length, Width float64
	// bed is the squeezing of the bed per kPa below a pad, and modulus its
	// constrained modulus, kPa.
	bed, modulus float64
	share        float64       // of the pressure below a pad that is left at mid-depth of the bed
	soft         [4][4]float64 // m that pad i goes down per kPa on the ground below pad j
}

// Settled is how far the pads go down, m.
type Settled struct {
	Bed, Ground, Pad [4]float64 // the squeezing of the bed, that of the ground, and both together
	Pressure         [4]float64 // on the ground below the bed, kPa
	Own              [4]float64 // of Ground, what the pad's own load does
	Most             float64    // the largest
	Worst            int        // the pad that it is of
	// Along and Across are the tilts by the differences of front and back and of
	// right and left, the larger of the two sides or ends.
	Along, Across float64
	// Twist is how far a corner leaves the plane of the three others.
	Twist float64
}

// ReadySettle works out what any load on the pads will do. The bed is squeezed
// under the pressure at its mid-depth (EP-24); below it the ground is elastic,
// layer by layer (Steinbrenner), and every pad draws down its neighbours.
func ReadySettle(in SettleIn) (*Settling, error) {
	err := limit.First(
		limit.Positive("span_x", in.SpanX, quantity.Length),
		limit.Positive("span_y", in.SpanY, quantity.Length),
		limit.Positive("length", in.Length, quantity.Length),
		limit.Positive("width", in.Width, quantity.Length),
		limit.AtLeast("most_length", in.MostLength, in.Length, quantity.Length),
		limit.AtLeast("most_width", in.MostWidth, in.Width, quantity.Length))
	if err != nil {
		return nil, err
	}
	s := &Settling{In: in}
	t := in.Bed.Thickness
	spread := func(t float64) (length, width float64) {
		return math.Min(in.Length+t, in.MostLength), math.Min(in.Width+t, in.MostWidth)
	}
	s.Length, s.Width = in.Length, in.Width
	if t != 0 {
		if err := limit.First(in.Bed.valid("bed"), limit.Finite("bed.thickness", t, quantity.Length)); err != nil {
			return nil, err
		}
		s.Length, s.Width = spread(t)
		b, err := SettleBed(1, in.Length, in.Width, t, in.Bed.E, in.Bed.Nu)
		if err != nil {
			return nil, err
		}
		l, w := spread(t / 2) // 2:1 through half the bed
		s.modulus, s.share = b.Modulus, in.Length*in.Width/(l*w)
		s.bed = b.Unspread * s.share
	}
	at := s.rects()
	for i, below := range in.Below {
		for k := range below {
			if err := below[k].valid("below " + PadNames[i]); err != nil {
				return nil, err
			}
		}
		for k := range at {
			s.soft[i][k] = at[k].squeeze(at[i], below, nil)
		}
	}
	return s, nil
}

// rects are the areas that the pads load below the bed, x to the front and y to
// the right of the middle.
func (s *Settling) rects() [4]rect {
	var out [4]rect
	for i := range out {
		x, y := s.In.SpanX/2, s.In.SpanY/2 // front and right
		if i >= 2 {
			x = -x
		}
		if i%2 == 1 {
			y = -y
		}
		out[i] = rect{x - s.Length/2, x + s.Length/2, y - s.Width/2, y + s.Width/2}
	}
	return out
}

// Under is how far the pads go down under the pressures below them, kPa.
func (s *Settling) Under(pressure [4]float64) (Settled, error) {
	var out Settled
	shrink := s.In.Length * s.In.Width / (s.Length * s.Width)
	for i, p := range pressure {
		if err := limit.AtLeast("pressure below the pad "+PadNames[i], p, 0, quantity.Pressure); err != nil {
			return out, err
		}
		out.Pressure[i] = p * shrink
		out.Bed[i] = p * s.bed
	}
	for i := range out.Pad {
		for k, p := range out.Pressure {
			out.Ground[i] += s.soft[i][k] * p
		}
		out.Own[i] = s.soft[i][i] * out.Pressure[i]
		out.Pad[i] = out.Bed[i] + out.Ground[i]
		if out.Pad[i] > out.Most {
			out.Most, out.Worst = out.Pad[i], i
		}
	}
	p := &out.Pad
	out.Along = math.Max(math.Abs(p[0]-p[2]), math.Abs(p[1]-p[3])) / s.In.SpanX
	out.Across = math.Max(math.Abs(p[0]-p[1]), math.Abs(p[2]-p[3])) / s.In.SpanY
	out.Twist = math.Abs(p[0] - p[1] - p[2] + p[3])
	return out, nil
}

// Tilt is the larger of the two tilts.
func (s *Settled) Tilt() float64 { return math.Max(s.Along, s.Across) }
