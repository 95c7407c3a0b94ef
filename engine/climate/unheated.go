package climate

import (
	"fmt"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Way is one way of heat out of a room.
type Way struct {
	H      float64 // W/K
	Behind float64 // temperature at its end, °C
}

// Unheated is the temperature that a room comes to with a source of heat, W,
// such as people, °C: steady, so that it is what weeks of one weather make of it.
func Unheated(ways []Way, heat float64) (float64, error) {
	if err := limit.Within("heat", heat, 0, 1e6, q.Power); err != nil {
		return 0, err
	}
	sum, driven := 0.0, heat
	for i, w := range ways {
		if err := limit.First(limit.Within("h", w.H, 0, 1e6, q.HeatLoss), degrees("behind", w.Behind)); err != nil {
			return 0, limit.In(fmt.Sprintf("ways[%d]", i), err)
		}
		sum, driven = sum+w.H, driven+w.H*w.Behind
	}
	if err := limit.Positive("sum of the losses", sum, q.HeatLoss); err != nil {
		return 0, err
	}
	return driven / sum, nil
}
