package steel

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Bar shapes of the bar table.
const (
	SHS  = "shs"  // square hollow section
	RHS  = "rhs"  // rectangular hollow section
	Chan = "c"    // channel, sharp corners, flanges may differ
	Flat = "flat" // flat bar, H deep and T thick
)

// Bar is one bar with its properties. The x axis lies across the width B:
// bending about x uses the depth H. Channels have their web along H.
type Bar struct {
	Shape   string
	H, B, T float64 // depth, width, thickness, m
	lip     float64 // width of the second flange of a channel, m
	Area    float64 // m2
	Ix, Iy  float64 // m4
	Sx, Sy  float64 // m3, elastic, the smaller of the two faces
	Zx, Zy  float64 // m3, plastic
	Rx, Ry  float64 // m, radii of gyration
	Avx     float64 // m2, area that carries shear along H
	Avy     float64 // m2, area that carries shear along B
	Mass    float64 // t per m
}

// BarProps computes the properties of a bar of the table: hollow sections as
// exact rounded rectangles with outer radius 2t and inner radius t (EN 10219,
// ST-04 verified), channels and flats with sharp corners (derived). The axes
// of a channel with unequal flanges are those of its web; its product of
// inertia is not used, so it must be held against twisting by what it carries.
// Errors name the dimension out of range or the unknown shape.
func BarProps(row tables.Bar) (Bar, error) {
	bar := Bar{Shape: row.Shape, H: row.H, B: row.B, T: row.T}
	if err := checkBar(row); err != nil {
		return bar, fmt.Errorf("bar %s: %w", row.ID, err)
	}
	switch row.Shape {
	case SHS, RHS:
		bar.hollow()
	case Chan:
		lip := row.Lip
		if lip == 0 {
			lip = row.B
		}
		bar.lip = lip
		bar.solid(channel(row.H, row.B, lip, row.T))
		bar.Avx, bar.Avy = (row.H-2*row.T)*row.T, (row.B+lip-2*row.T)*row.T
	default: // Flat
		bar.solid([]rect{{0, row.T, 0, row.H}})
		bar.Avx, bar.Avy = bar.Area, bar.Area
	}
	bar.Rx, bar.Ry = math.Sqrt(bar.Ix/bar.Area), math.Sqrt(bar.Iy/bar.Area)
	bar.Mass = bar.Area * Density
	return bar, nil
}

// checkBar refuses dimensions that make no bar.
func checkBar(row tables.Bar) error {
	if err := quantity.Within("depth H", row.H, 5e-3, 1, quantity.Thickness); err != nil {
		return err
	}
	top := row.H
	switch row.Shape {
	case SHS, RHS:
		if err := quantity.Within("width B", row.B, 5e-3, 1, quantity.Thickness); err != nil {
			return err
		}
		top = math.Min(row.H, row.B) / 4 // the outer corners must not meet
		if row.Shape == SHS && row.H != row.B {
			return quantity.Within("width B of a square section", row.B, row.H, row.H, quantity.Thickness)
		}
	case Chan:
		if err := quantity.Within("flange B", row.B, 2*row.T, 1, quantity.Thickness); err != nil {
			return err
		}
		if row.Lip != 0 {
			if err := quantity.Within("second flange Lip", row.Lip, 2*row.T, 1, quantity.Thickness); err != nil {
				return err
			}
		}
		top = row.H / 4
	case Flat:
	default:
		return fmt.Errorf("%w: shape = %q, allowed shs, rhs, c, flat", quantity.ErrRange, row.Shape)
	}
	return quantity.Within("thickness T", row.T, MinBar, top, quantity.Thickness)
}

// hollow fills in the rounded rectangle with outer radius 2t, inner radius t.
func (b *Bar) hollow() {
	h, w, t := b.H, b.B, b.T
	aOut, ixOut, zxOut := rounded(h, w, 2*t)
	aIn, ixIn, zxIn := rounded(h-2*t, w-2*t, t)
	_, iyOut, zyOut := rounded(w, h, 2*t)
	_, iyIn, zyIn := rounded(w-2*t, h-2*t, t)
	b.Area = aOut - aIn
	b.Ix, b.Iy = ixOut-ixIn, iyOut-iyIn
	b.Sx, b.Sy = b.Ix/(h/2), b.Iy/(w/2)
	b.Zx, b.Zy = zxOut-zxIn, zyOut-zyIn
	b.Avx, b.Avy = 2*(h-3*t)*t, 2*(w-3*t)*t // flat part of the walls, AISC G4
}

// rounded gives area, second moment and plastic modulus of a full rectangle of
// depth h and width w with corners of radius r, about the axis across w.
func rounded(h, w, r float64) (a, i, z float64) {
	const own = math.Pi/16 - 4/(9*math.Pi) // quarter disc about its centroid, in r4
	sq, disc := r*r, math.Pi/4*r*r
	ySq, yDisc := h/2-r/2, h/2-r+4*r/(3*math.Pi)
	a = h*w - 4*(sq-disc)
	i = w*h*h*h/12 - 4*(sq*r*r/12+sq*ySq*ySq-own*r*r*r*r-disc*yDisc*yDisc)
	z = w*h*h/4 - 4*(sq*ySq-disc*yDisc)
	return a, i, z
}

// rect is an axis-parallel rectangle of steel.
type rect struct{ x0, x1, y0, y1 float64 }

// channel cuts a channel with web along y into rectangles that do not overlap.
func channel(h, b1, b2, t float64) []rect {
	return []rect{{0, t, 0, h}, {t, b1, 0, t}, {t, b2, h - t, h}}
}

// solid fills in the properties of a sum of rectangles.
func (b *Bar) solid(rects []rect) {
	turned := make([]rect, len(rects))
	for k, r := range rects {
		turned[k] = rect{r.y0, r.y1, r.x0, r.x1}
	}
	b.Area, b.Ix, b.Sx, b.Zx = bending(rects)
	_, b.Iy, b.Sy, b.Zy = bending(turned)
}

// bending gives area and the properties for bending in the y direction.
func bending(rects []rect) (a, i, s, z float64) {
	lo, hi, first := math.Inf(1), math.Inf(-1), 0.0
	for _, r := range rects {
		da := (r.x1 - r.x0) * (r.y1 - r.y0)
		a += da
		first += da * (r.y0 + r.y1) / 2
		lo, hi = math.Min(lo, r.y0), math.Max(hi, r.y1)
	}
	c := first / a
	for _, r := range rects {
		w, d, y := r.x1-r.x0, r.y1-r.y0, (r.y0+r.y1)/2-c
		i += w*d*d*d/12 + w*d*y*y
	}
	s = i / math.Max(c-lo, hi-c)
	p := halving(rects, lo, hi, a/2)
	for _, r := range rects {
		z += (r.x1 - r.x0) * absMoment(r.y0-p, r.y1-p)
	}
	return a, i, s, z
}

// halving is the level below which half of the area lies: bisection on a
// rising function, to rounding.
func halving(rects []rect, lo, hi, half float64) float64 {
	for range 64 {
		mid, below := (lo+hi)/2, 0.0
		for _, r := range rects {
			below += (r.x1 - r.x0) * math.Max(0, math.Min(mid, r.y1)-r.y0)
		}
		if below < half {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// absMoment integrates |y| from y0 to y1.
func absMoment(y0, y1 float64) float64 {
	return (y1*math.Abs(y1) - y0*math.Abs(y0)) / 2
}
