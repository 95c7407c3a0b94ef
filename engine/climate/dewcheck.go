package climate

import (
	"math"

	"hillset/engine/check"
	q "hillset/engine/quantity"
)

// Face is one part of the box with what is cold behind it.
type Face struct {
	Name   string  // as in "roof"
	Behind float64 // temperature behind it in the coldest weeks, °C
	R      float64 // insulation, m2K/W
	Rsi    float64 // m2K/W
}

// Skin is what a face is like on the inside in the coldest weeks.
type Skin struct {
	Bare, Lined float64 // temperature of the surface without and with insulation, °C
	Dew, Mould  float64 // temperatures below which it drips, and below which mould grows, °C
	Humid       float64 // humidity at the surface, share; above 1 it drips
	ForDew      float64 // resistance that keeps it from dripping, m2K/W
	ForMould    float64 // and from mould; NaN where none does
}

// Find works out a face with a room behind it.
func (f Face) Find(room Air) (Skin, error) {
	var s Skin
	var err error
	take := func(v *float64, got float64, e error) {
		if err == nil {
			*v, err = got, e
		}
	}
	bare, e := Surface(room.T, f.Behind, f.Rsi, 0)
	take(&s.Bare, bare, e)
	lined, e := Surface(room.T, f.Behind, f.Rsi, f.R)
	take(&s.Lined, lined, e)
	dew, e := room.DewPoint()
	take(&s.Dew, dew, e)
	mould, e := room.MouldPoint()
	take(&s.Mould, mould, e)
	full, e := Saturation(s.Lined)
	take(&s.Humid, room.RH*saturation(room.T)/full, e)
	if err != nil {
		return Skin{}, err
	}
	s.ForDew, s.ForMould = math.NaN(), math.NaN()
	if r, e := ResistanceFor(room.T, f.Behind, s.Dew, f.Rsi); e == nil {
		s.ForDew = r
	}
	if r, e := ResistanceFor(room.T, f.Behind, s.Mould, f.Rsi); e == nil {
		s.ForMould = r
	}
	return s, nil
}

// DewCheck compares the vapour of the room with what saturates at the coldest
// face inside, MouldCheck with what is 80 % there.
func DewCheck(f Face, room Air) (check.Check, error) {
	return faceCheck(f, room, 1, check.Check{ID: "dew", Title: "Water on the walls inside"})
}

// MouldCheck is DewCheck for mould.
func MouldCheck(f Face, room Air) (check.Check, error) {
	return faceCheck(f, room, MouldHumidity, check.Check{ID: "mould", Title: "Mould on the walls inside"})
}

func faceCheck(f Face, room Air, humidity float64, c check.Check) (check.Check, error) {
	s, err := f.Find(room)
	if err != nil {
		return check.Check{}, err
	}
	c.Part, c.Method, c.Source = "room", "Inside surface against the vapour of the room", srcMagnus+"; "+srcInside
	c.Assumptions = []string{"the steel is as cold as what is behind it; its own resistance is nothing", "the room is kept as warm and as humid as was said"}
	c.Validity = "The mean of the coldest weeks at the " + f.Name + ": a cold night is colder. Ribs, rails and seams that go through the insulation are colder than the face."
	vapour := q.Of("pi", room.RH*saturation(room.T), q.VapourPressure)
	least, need := s.Dew, s.ForDew
	if humidity < 1 {
		least, need = s.Mould, s.ForMould
	}
	holds := q.Of("ps", humidity*saturation(s.Lined), q.VapourPressure)
	remedy, values := "drier air: no insulation does", []q.Q(nil)
	if !math.IsNaN(need) {
		remedy, values = "insulation of {0} on the "+f.Name+", outside the steel rather than inside, or drier air", []q.Q{q.Of("R", need, q.Insulation)}
	}
	judge(&c, vapour, holds, remedy, values...)
	ti, te, rsi := q.Of("Ti", room.T, q.Temperature), q.Of("Te", f.Behind, q.Temperature), q.Of("Rsi", f.Rsi, q.Insulation)
	c.Working = []check.Line{
		check.Step("Vapour in the room", "pi = φ·psat(Ti)", srcMagnus, vapour, q.Of("φ", room.RH, q.Share), ti),
		check.Step("Dew point of the room", "Td = 243.12·g/(17.62 − g), g = ln φ + 17.62·Ti/(243.12 + Ti), Ti and Td in °C there", srcMagnus, q.Of("Td", s.Dew, q.Temperature)),
		check.Step("The "+f.Name+" inside without insulation", "Tb = Te", srcInside, q.Of("Tb", s.Bare, q.Temperature), te),
		check.Step("The "+f.Name+" inside as it is", "Tsi = Ti − (Ti − Te)·Rsi/(Rsi + R)", srcInside, q.Of("Tsi", s.Lined, q.Temperature), ti, te, rsi, q.Of("R", f.R, q.Insulation)),
	}
	if humidity < 1 {
		c.Working = append(c.Working, check.Step("Warm enough from", "pi/psat(Tm) = 80 %", srcInside, q.Of("Tm", least, q.Temperature)),
			check.Step("Vapour that is 80 % there", "ps = 0.8·psat(Tsi)", srcMagnus, holds))
	} else {
		c.Working = append(c.Working, check.Step("Vapour that saturates there", "ps = psat(Tsi)", srcMagnus, holds))
	}
	if !math.IsNaN(need) && need > 0 {
		c.Working = append(c.Working, check.Step("Insulation that is enough", "R = Rsi·((Ti − Te)/(Ti − Tmin) − 1)", srcInside, q.Of("R", need, q.Insulation), rsi, ti, te, q.Of("Tmin", least, q.Temperature)))
	}
	c.Working = append(c.Working, check.Step("Vapour against what the face takes", "r = pi/ps", srcInside, q.Of("r", c.Ratio, q.Ratio), vapour, holds))
	return c, nil
}

// LiningCheck compares the vapour of the room with what saturates at the steel
// behind a lining on its inside: above that, water gathers there which cannot
// leave.
func LiningCheck(f Face, l Lining, room Air) (check.Check, error) {
	b, err := l.Glaser(room, f.Behind)
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "vapour", Title: "Water behind the insulation inside", Part: "room", Method: "Glaser at the steel", Source: srcGlaser,
		Assumptions: []string{"the room is kept as warm and as humid as was said", "the lining has no gaps, and no air goes behind it"},
		Validity:    "The mean of the coldest weeks at the " + f.Name + ". Whether a summer dries what a winter brought is not worked out."}
	vapour, holds := q.Of("pi", b.Room, q.VapourPressure), q.Of("pc", b.AtDew, q.VapourPressure)
	judge(&c, vapour, holds, "insulation outside the steel, or air drier than {0} of vapour", holds)
	const month = 30 * day
	c.Working = []check.Line{
		check.Step("Vapour in the room", "pi = φ·psat(Ti)", srcMagnus, vapour, q.Of("φ", room.RH, q.Share), q.Of("Ti", room.T, q.Temperature)),
		check.Step("Vapour that saturates at the steel", "pc = psat(Ts)", srcGlaser, holds, q.Of("Ts", b.Steel, q.Temperature)),
		check.Step("Water that gathers behind it, below zero dries", "g = δ0·(pi − pc)/Σ(μ·d)", srcGlaser, q.Of("g", b.Vapour, q.VapourFlow), vapour, holds, q.Of("Σ(μ·d)", l.Air, q.Length)),
		check.Step("In thirty days", "m = g·t", srcGlaser, q.Of("m", b.Vapour*month, q.Gathered)),
		check.Step("Vapour against what the steel takes", "r = pi/pc", srcGlaser, q.Of("r", c.Ratio, q.Ratio), vapour, holds),
	}
	return c, nil
}
