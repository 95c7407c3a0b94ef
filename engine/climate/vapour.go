package climate

import (
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	vapourAir = 2e-10    // kg/(m·s·Pa), permeability of air (ISO 13788, memory)
	usPerm    = 57.2e-12 // kg/(s·m2·Pa)
	// PermAir is the layer of air that lets as little vapour through as one US
	// perm, m (derived).
	PermAir = vapourAir / usPerm

	srcGlaser = "Glaser with 2·10⁻¹⁰ kg/(m·s·Pa), ISO 13788 (memory); steel lets no vapour through"
)

// Lining is insulation on the inside of the steel.
type Lining struct {
	R      float64 // resistance to heat, m2K/W
	Air    float64 // layer of air that lets as little vapour through: thickness times µ, m
	Rsi    float64 // of the surface inside, m2K/W
	Behind float64 // resistance between the steel and what is cold behind it, m2K/W
}

// Behind is what happens at the steel behind a lining.
type Behind struct {
	Steel  float64 // temperature of the steel, °C
	Room   float64 // pressure of vapour in the room, Pa
	AtDew  float64 // saturated at the steel, Pa
	Vapour float64 // that turns to water behind the lining, kg/(m2·s); below zero it dries
}

func (l *Lining) validate() error {
	return limit.First(
		limit.Within("r", l.R, 1e-3, 50, q.Insulation),
		limit.Within("air", l.Air, 0.01, 1e5, q.Length),
		limit.Within("rsi", l.Rsi, 0.01, 1, q.Insulation),
		limit.Within("behind", l.Behind, 0, 50, q.Insulation))
}

// Glaser is the steady flow of vapour from a room through its lining to the
// steel, which lets none through, with te behind the steel, °C.
func (l Lining) Glaser(room Air, te float64) (Behind, error) {
	if err := limit.First(l.validate(), room.validate(), limit.Within("outside", te, -45, 60, q.Temperature)); err != nil {
		return Behind{}, err
	}
	b := Behind{Room: room.RH * saturation(room.T)}
	b.Steel = te + (room.T-te)*l.Behind/(l.Rsi+l.R+l.Behind)
	b.AtDew = saturation(b.Steel)
	b.Vapour = vapourAir * (b.Room - b.AtDew) / l.Air
	return b, nil
}
