package ground

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Layer is a layer of ground that is squeezed.
type Layer struct {
	Name      string
	Thickness float64 // m; +Inf for the lowest where it has no end
	E         float64 // Young's modulus of drained ground, kPa
	Nu        float64 // Poisson's ratio, below 0.5
}

// valid refuses what no ground is; name stands before the fields.
func (l *Layer) valid(name string) error {
	if math.IsInf(l.Thickness, 1) {
		return limit.In(name, limit.First(limit.Positive("e", l.E, quantity.Stress), limit.Within("nu", l.Nu, 0, MostNu, quantity.None)))
	}
	return limit.In(name, limit.First(
		limit.AtLeast("thickness", l.Thickness, 0, quantity.Length),
		limit.Positive("e", l.E, quantity.Stress),
		limit.Within("nu", l.Nu, 0, MostNu, quantity.None)))
}

// MostNu is the largest Poisson's ratio of ground that settles; above it a layer that cannot
// spread has no modulus.
const MostNu = 0.49

// rect is a rectangle in plan, m.
type rect struct{ x1, x2, y1, y2 float64 }

// reach holds the two integrals over a loaded rectangle that the sinking of a
// point below it is made of, m: of 1/R, and of z²/R³.
type reach struct{ near, deep float64 }

// corner is the reach of a rectangle a by b for the point z below its corner.
// Sides may be negative: then it counts against.
func corner(a, b, z float64) reach {
	sign := 1.0
	if a < 0 {
		a, sign = -a, -sign
	}
	if b < 0 {
		b, sign = -b, -sign
	}
	if a == 0 || b == 0 {
		return reach{}
	}
	r := math.Sqrt(a*a + b*b + z*z)
	turn := 0.0
	if z > 0 {
		turn = z * math.Atan(a*b/(z*r))
	}
	near := a*math.Log((b+r)/math.Hypot(a, z)) + b*math.Log((a+r)/math.Hypot(b, z)) - turn
	return reach{sign * near, sign * turn}
}

// of is the reach of a rectangle for the point z below the place x, y.
func (r rect) of(x, y, z float64) reach {
	var sum reach
	for _, c := range [...]reach{corner(r.x2-x, r.y2-y, z), corner(x-r.x1, r.y2-y, z), corner(r.x2-x, y-r.y1, z), corner(x-r.x1, y-r.y1, z)} {
		sum.near, sum.deep = sum.near+c.near, sum.deep+c.deep
	}
	return sum
}

// sinks is how far the point sinks below the ground of a half-space, m per kPa
// on the rectangle: the sum of (1+ν)/(2πE)·(2(1−ν)/R + z²/R³) (Boussinesq). At
// the surface it is the half-space of EP-24; the difference of two depths is
// what the ground between them is squeezed (Steinbrenner).
func (r reach) sinks(l *Layer) float64 {
	return (1 + l.Nu) / (2 * math.Pi * l.E) * (2*(1-l.Nu)*r.near + r.deep)
}

// gauss are the places and shares of three points over a length of 1.
var gauss = [3]struct{ at, share float64 }{{0.5 - 0.5*0.7745966692414834, 5. / 18}, {0.5, 8. / 18}, {0.5 + 0.5*0.7745966692414834, 5. / 18}}

// mean is the reach of a loaded rectangle over the area of another, on the
// average, at the depth z. Where they are the same, a quarter stands for all,
// and at the surface the closed form of Settle does.
func (r rect) mean(over rect, z float64) reach {
	if over == r {
		if z == 0 {
			return r.own()
		}
		over.x2, over.y2 = (r.x1+r.x2)/2, (r.y1+r.y2)/2
	}
	var sum reach
	for _, gx := range gauss {
		for _, gy := range gauss {
			p := r.of(over.x1+gx.at*(over.x2-over.x1), over.y1+gy.at*(over.y2-over.y1), z)
			sum.near += gx.share * gy.share * p.near
			sum.deep += gx.share * gy.share * p.deep
		}
	}
	return sum
}

// own is the average reach of a rectangle for its own surface.
func (r rect) own() reach {
	a, b := math.Min(r.x2-r.x1, r.y2-r.y1), math.Max(r.x2-r.x1, r.y2-r.y1)
	return reach{near: math.Pi * a * averageOf(b/a)}
}

// squeeze is how far a rectangle loaded with 1 kPa squeezes the ground below
// another, m, layer by layer, each as if all the ground were like it: the
// stress is that of even ground (Steinbrenner). each, which may be nil, is given
// the part of every layer with the depths that it lies between.
func (r rect) squeeze(over rect, below []Layer, each func(l *Layer, from, to, part float64)) float64 {
	sum, z := 0.0, 0.0
	var at reach
	for i := range below {
		l := &below[i]
		if l.Thickness == 0 {
			continue
		}
		if z == 0 {
			at = r.mean(over, 0)
		}
		part, from := at.sinks(l), z
		if z += l.Thickness; !math.IsInf(z, 1) {
			at = r.mean(over, z)
			part -= at.sinks(l)
		}
		if each != nil {
			each(l, from, z, part)
		}
		sum += part
		if math.IsInf(z, 1) {
			break
		}
	}
	return sum
}
