package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Limits of how far what is built in may bend.
const (
	BowLimit    = 240   // span over this, for posts, wales, purlins and roof beams
	InwardLimit = 25e-3 // m, how far a wall may come into the room near shelves or doors

	bowSource = "deflection limit L/240 of ribs and bars (common practice)"
)

var inwardSource = quantity.Brief.Text(InwardLimit, quantity.Thickness) + " of inward bow near shelves or doors (common practice)"

// sag is the largest deflection of a rail over w·L⁴/EI: beam tables, of three
// even spans the end span, which stands for more of them.
func (in Rail) sag() float64 {
	switch in.Spans {
	case 1:
		return 5.0 / 384
	case 2:
		return 0.0054161
	}
	return 0.0068843
}

// Bow is the deflection of a rail under service loads, m, and the same over
// what is allowed. It refuses what Check refuses.
func (kind *RailKind) Bow(in Rail) (w, ratio float64, err error) {
	if err := in.check(); err != nil {
		return 0, 0, err
	}
	w = in.sag() * math.Abs(in.Load.ASD) * math.Pow(in.Span, 4) / (in.Steel.E * kind.inertia(in.Bar))
	return w, w * BowLimit / in.Span, nil
}

// inertia is the second moment that works.
func (kind *RailKind) inertia(b steel.Bar) float64 {
	if kind.axis == steel.Y {
		return b.Iy
	}
	return b.Ix
}

// BowID is the stable name of the check of the deflection; empty for a kind of
// rail that has none: the rails of the container are part of its shell.
func (kind *RailKind) BowID() string {
	return kind.bowID
}

// BowCheck checks the deflection of a wale, a purlin or a beam of a roof on posts
// against its span over BowLimit. It panics for a kind of rail that has no such check.
func (kind *RailKind) BowCheck(in Rail) (check.Check, error) {
	if kind.bow == "" {
		panic("box: no deflection check for a " + kind.title)
	}
	w, _, err := kind.Bow(in)
	if err != nil {
		return check.Check{}, err
	}
	i := kind.inertia(in.Bar)
	c := bowCheck(kind.BowID(), kind.bow, w, in.Span, check.Line{
		Text: "Deflection under service loads", Formula: "w = n·w0·L⁴/(E·I)",
		Terms: []quantity.Q{
			quantity.Of("n", in.sag(), quantity.None), quantity.Of("w0", math.Abs(in.Load.ASD), quantity.LineLoad),
			quantity.Of("L", in.Span, quantity.Length), quantity.Of("E", in.Steel.E, quantity.Stress), quantity.Of("I", i, quantity.SecondMoment),
		},
		Result: quantity.Of("w", w, quantity.Thickness), Source: "beam tables (common practice; two and three spans checked by the three-moment equation)",
	})
	c.Case, _ = in.Case.orWall()
	c.Assumptions = append([]string{"The supports do not give way.", "Spans of equal length, evenly loaded."}, kind.assume...)
	if c.Ratio > 1 {
		c.Remedy = "Supports no further apart than {0}, or a bar with a second moment of area of {1}."
		c.RemedyQ = []quantity.Q{quantity.Of("", in.Span/math.Cbrt(c.Ratio), quantity.Length), quantity.Of("", i*c.Ratio, quantity.SecondMoment)}
	}
	return c, nil
}

// bowCheck sets the deflection of a bar against its span over BowLimit.
func bowCheck(id, title string, w, span float64, working ...check.Line) check.Check {
	c := Sag{ID: id, Title: title, Method: serviceSag, Source: bowSource, From: bowSource, W: w, Span: span, Limit: BowLimit}.Check(working...)
	c.Validity = "Elastic; joints without slip."
	return c
}

// RibBow is the part of a rib that bends most for its length in service, how
// far, m, its length and the ratio to what is allowed. The floor tie, on which
// the floor lies, has no limit.
func (in Rib) RibBow(r *RibResult) (part RibPart, w, span, ratio float64) {
	for _, p := range [...]RibPart{LeftPost, RightPost, RoofBeam} {
		l := in.Height
		if p == RoofBeam {
			l = in.Width
		}
		if v := r.Bow[p] * BowLimit / l; v > ratio || span == 0 {
			part, w, span, ratio = p, r.Bow[p], l, v
		}
	}
	return part, w, span, ratio
}

// RibDeflection checks how far the posts and the roof beam of a rib bend from
// the straight line between their ends.
func RibDeflection(in Rib) (check.Check, RibResult, error) { return in.checked(RibDeflectionOf) }

// RibDeflectionOf is RibDeflection of a rib that is solved.
func RibDeflectionOf(in Rib, r *RibResult) (check.Check, error) {
	part, w, span, _ := in.RibBow(r)
	c := bowCheck("rib-deflection", "Bow of the ribs", w, span, check.Line{
		Text: "Bow of the " + part.String() + " under service loads", Formula: "w from the line of moments: E·I·w'' = −M, integrated along the bar",
		Terms: []quantity.Q{
			quantity.Of("E", in.Steel.E, quantity.Stress), quantity.Of("I", in.bar(part).Ix, quantity.SecondMoment),
			quantity.Of("sway", r.Sway, quantity.Thickness),
		},
		Result: quantity.Of("w", w, quantity.Thickness), Source: srcRing,
	})
	c.Assumptions = append(ribJointWords(in), ribShareWords(in), ribRoofWords(in), ribWallWords(in),
		"Measured from the straight line between the ends of the bar; the sway of the frame comes on top.")
	if c.Ratio > 1 {
		c.Remedy = "A heavier " + part.String() + ", with a second moment of area near {0}, or ribs about {1} apart."
		c.RemedyQ = []quantity.Q{quantity.Of("", in.bar(part).Ix*c.Ratio, quantity.SecondMoment), quantity.Of("", in.Spacing/c.Ratio, quantity.Length)}
	}
	return c, nil
}

// Inward is how far a wall comes into the room: the parts that carry it, one on
// top of the other, m. They need not have their largest at the same place, so
// the sum is never too small.
type Inward struct {
	Sheet float64 // between its supports
	Wale  float64 // between the ribs; 0 without wales
	Post  float64 // with the sway of the frame
}

// Sum is the whole of it, m.
func (in Inward) Sum() float64 { return in.Sheet + in.Wale + in.Post }

// InwardBow checks how far a wall comes into the room.
func InwardBow(in Inward) (check.Check, error) {
	for _, one := range []struct {
		name string
		v    float64
	}{{"bow of the sheet", in.Sheet}, {"bow of the wale", in.Wale}, {"movement of the post", in.Post}} {
		if err := quantity.Range(one.name, one.v, 0, 10); err != nil {
			return check.Check{}, err
		}
	}
	c := check.Check{
		ID: "inward-bow", Title: "Wall coming into the room", Method: "Deflections of sheet, wale and rib, added", Source: inwardSource,
		Demand: quantity.Of("w", in.Sum(), quantity.Thickness), Capacity: quantity.Of("wa", InwardLimit, quantity.Thickness),
		Ratio: in.Sum() / InwardLimit, RatioLRFD: nan, Case: serviceCombo,
		Assumptions: []string{"The largest of each are added, as if they met at one place.", "Linear, under service loads."},
		Validity:    "Matters where shelves, linings or doors stand near the wall.",
		Working: []check.Line{{
			Text: "Inward movement, service", Formula: "w = w sheet + w wale + w post",
			Terms: []quantity.Q{
				quantity.Of("w sheet", in.Sheet, quantity.Thickness), quantity.Of("w wale", in.Wale, quantity.Thickness),
				quantity.Of("w post", in.Post, quantity.Thickness),
			},
			Result: quantity.Of("w", in.Sum(), quantity.Thickness), Source: srcStat,
		}},
	}
	if c.Ratio > 1 {
		c.Remedy = "Most comes from {0} of the sheet, {1} of the wale and {2} of the post: stiffen the largest, or keep shelves off the wall."
		c.RemedyQ = []quantity.Q{
			quantity.Of("", in.Sheet, quantity.Thickness), quantity.Of("", in.Wale, quantity.Thickness), quantity.Of("", in.Post, quantity.Thickness),
		}
	}
	return c, nil
}
