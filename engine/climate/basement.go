package climate

import (
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Resistances of the surfaces, m2K/W (ISO 13370, memory).
const (
	RsiWall  = 0.13
	RsiFloor = 0.17
	RsiRoof  = 0.10
	Rse      = 0.04
)

// ISOMargin is how far the loss of heat by ISO 13370 may be off on a box this
// narrow: two-dimensional finite differences give 15 to 25 % more (derived).
const ISOMargin = 0.25

// Basement is a room below level ground, by ISO 13370 (memory).
type Basement struct {
	Area      float64 // of the floor, m2
	Perimeter float64 // of the floor, m
	Depth     float64 // of the floor below the ground, m
	Lambda    float64 // conductivity of the ground, W/mK
	Wall      float64 // thickness of the walls above the ground, m
	RFloor    float64 // resistance of the floor, m2K/W
	RWall     float64 // resistance of the walls, m2K/W
}

// BasementLoss is what a basement loses to the ground.
type BasementLoss struct {
	Width         float64 // characteristic: area over half the perimeter, m
	DtFloor, Dw   float64 // equivalent thicknesses, m
	UFloor, UWall float64 // W/m2K
	H             float64 // W/K
}

func (b *Basement) validate() error {
	return limit.First(
		limit.Within("area", b.Area, 0.5, 1e5, q.Area),
		limit.Within("perimeter", b.Perimeter, math.Sqrt(4*math.Pi*math.Max(b.Area, 0.5))*(1-1e-9), 1e5, q.Length),
		limit.Within("depth", b.Depth, 0.05, 50, q.Length),
		limit.Within("lambda", b.Lambda, 0.1, 10, q.Conductivity),
		limit.Within("wall", b.Wall, 0, 3, q.Length),
		limit.Within("r_floor", b.RFloor, 0, 50, q.Insulation),
		limit.Within("r_wall", b.RWall, 0, 50, q.Insulation))
}

// Loss is the steady loss to the ground by ISO 13370. See ISOMargin.
func (b Basement) Loss() (BasementLoss, error) {
	if err := b.validate(); err != nil {
		return BasementLoss{}, err
	}
	l := BasementLoss{Width: b.Area / (0.5 * b.Perimeter),
		DtFloor: b.Wall + b.Lambda*(RsiFloor+b.RFloor+Rse),
		Dw:      b.Lambda * (RsiWall + b.RWall + Rse)}
	if deep := l.DtFloor + 0.5*b.Depth; deep < l.Width {
		l.UFloor = 2 * b.Lambda / (math.Pi*l.Width + deep) * math.Log(math.Pi*l.Width/deep+1)
	} else {
		l.UFloor = b.Lambda / (0.457*l.Width + deep)
	}
	dt := math.Min(l.DtFloor, l.Dw)
	l.UWall = 2 * b.Lambda / (math.Pi * b.Depth) * (1 + 0.5*dt/(dt+b.Depth)) * math.Log(b.Depth/l.Dw+1)
	l.H = b.Area*l.UFloor + b.Depth*b.Perimeter*l.UWall
	return l, nil
}

// Roof is the loss of heat through a roof under soil in one dimension, W/m2K:
// insulation r, m2K/W, under a cover of soil, m (derived).
func Roof(r, cover, lambda float64) (float64, error) {
	err := limit.First(
		limit.Within("r", r, 0, 50, q.Insulation),
		limit.Within("cover", cover, 0, 20, q.Length),
		limit.Within("lambda", lambda, 0.1, 10, q.Conductivity))
	return 1 / (RsiRoof + r + cover/lambda + Rse), err
}
