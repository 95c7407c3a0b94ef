package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Envelope is the horizontal pressure that compaction in lifts leaves behind
// (Broms 1971, Ingold 1979; memory): it rises in a straight line to Max at
// depth Zc, stays until the soil's own pressure has caught up at Hc and
// follows that from there.
type Envelope struct {
	Max    float64 // kPa
	Zc, Hc float64 // m
	own    float64 // K gamma, kPa per m
}

// CompactionEnvelope works out the envelope of a machine of p kN per m of drum
// (static weight and centrifugal force), in soil of gamma kN/m3 with
// coefficient k: Max = sqrt(2 p gamma/pi), Zc = k Max/gamma, Hc = Max/(k gamma).
// k is K0 on a wall that is held, Ka on one that yields. A machine that stays
// setback clear of the wall with a drum of length drum has drum/(setback+drum)
// of Max (NAVFAC DM-7.02, memory); drum matters only then.
func CompactionEnvelope(p, gamma, k, setback, drum float64) (Envelope, error) {
	err := limit.First(
		limit.AtLeast("p", p, 0, quantity.LineLoad),
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.Positive("k", k, quantity.None),
		limit.Within("k", k, 0, 5, quantity.None),
		limit.AtLeast("setback", setback, 0, quantity.Length),
		limit.AtLeast("drum", drum, 0, quantity.Length))
	if err != nil {
		return Envelope{}, err
	}
	e := Envelope{Max: math.Sqrt(2 * p * gamma / math.Pi), own: k * gamma}
	if setback > 0 {
		if err := limit.Positive("drum", drum, quantity.Length); err != nil {
			return Envelope{}, err
		}
		e.Max *= drum / (setback + drum)
	}
	e.Zc, e.Hc = k*e.Max/gamma, e.Max/e.own
	return e, nil
}

// At is the pressure of the envelope at a depth, soil included, kPa.
func (e Envelope) At(z float64) float64 {
	return math.Max(e.locked(z), e.own*math.Max(0, z))
}

// locked is the envelope without the soil's own pressure: what compaction has
// left at a depth, whatever the soil weighs there now.
func (e Envelope) locked(z float64) float64 {
	if z <= 0 || e.Max == 0 {
		return 0
	}
	return e.Max * math.Min(1, z/e.Zc)
}

// Compaction adds to a diagram what compaction leaves above the pressure of
// soil and wide surcharge; see CompactionEnvelope for the values. Where the
// soil has since become lighter, below water, what was locked in stays.
func Compaction(d Diagram, p, gamma, k, setback, drum float64) (Diagram, error) {
	e, err := CompactionEnvelope(p, gamma, k, setback, drum)
	if err != nil {
		return nil, err
	}
	return d.AddCompaction(e), nil
}

// AddCompaction adds what an envelope leaves above Soil, with rows where the
// envelope bends and where it meets Soil.
func (d Diagram) AddCompaction(e Envelope) Diagram {
	return make(Diagram, 0, len(d)+4).compacted(d, e)
}

// compacted adds the rows of another diagram with what an envelope leaves.
func (d Diagram) compacted(of Diagram, e Envelope) Diagram {
	for i := 1; i < len(of); i++ {
		a, b := of[i-1], of[i]
		if a.Level == b.Level {
			continue
		}
		for _, knee := range [...]float64{0, e.Zc} {
			if a.Depth < knee && knee < b.Depth {
				m := between(&a, &b, a.Level-(knee-a.Depth))
				d = d.excess(e, a, m)
				a = m
			}
		}
		d = d.excess(e, a, b)
	}
	return d
}

// excess adds two rows between which soil and envelope are both straight, and
// the row where they cross.
func (d Diagram) excess(e Envelope, a, b Row) Diagram {
	p, q := e.locked(a.Depth)-a.Soil, e.locked(b.Depth)-b.Soil
	lift := func(r Row, v float64) Row {
		v = math.Max(0, v)
		r.Total += v - r.Compaction // what stood there before is replaced
		r.Compaction = v
		return r
	}
	d = d.join(lift(a, p))
	if p*q < 0 {
		d = d.join(lift(between(&a, &b, a.Level-(a.Level-b.Level)*p/(p-q)), 0))
	}
	return d.join(lift(b, q))
}
