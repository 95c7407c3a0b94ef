package sketch

import (
	"image"
	"math"
	"math/bits"
)

// fillRule says which parts of overlapping outlines are inside.
type fillRule int

const (
	evenOdd fillRule = iota // holes are rings inside rings
	nonZero                 // overlapping outlines of one sense join up
)

// coverage turns outlines into exact area coverage per pixel. Each edge adds
// its signed area to the few pixels it crosses; those pixels are noted in a
// bit map, so that a sweep visits only them and lays everything between them
// in runs. A mask as large as the outline is never filled or cleared.
type coverage struct {
	win    image.Rectangle // the pixels it works on
	w, h   int
	stride int       // floats per row of acc
	words  int       // words per row of touched
	acc    []float32 // change of coverage at a pixel against its left neighbour
	bits   []uint64  // pixels of acc that are not zero
	// Range of rows touched since the last sweep; empty when y0 > y1.
	y0, y1 int
}

// reset sets the window. The buffers are clean after every sweep, so only a
// change of size costs anything.
func (c *coverage) reset(win image.Rectangle) {
	w, h := win.Dx(), win.Dy()
	if w != c.w || h != c.h {
		c.w, c.h = w, h
		c.stride = w + 2 // one pixel beyond the right edge takes what lies there
		c.words = (c.stride + 63) / 64
		c.acc = resized(c.acc, c.stride*h)
		c.bits = resized(c.bits, c.words*h)
	}
	c.win = win
	c.y0, c.y1 = h, -1
}

func resized[T float32 | uint64](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}

// line adds one edge, in pixels. Parts above and below the window are left
// out, parts to its left count as lying on its left edge, parts to its right
// on its right edge: that clips the area exactly, in float64.
func (c *coverage) line(ax, ay, bx, by float64) {
	ox, oy := float64(c.win.Min.X), float64(c.win.Min.Y)
	ax, ay, bx, by = ax-ox, ay-oy, bx-ox, by-oy
	dir := float32(1)
	if ay > by {
		ax, ay, bx, by = bx, by, ax, ay
		dir = -1
	}
	fh := float64(c.h)
	if ay == by || by <= 0 || ay >= fh {
		return
	}
	slope := (bx - ax) / (by - ay)
	if ay < 0 {
		ax, ay = ax-ay*slope, 0
	}
	if by > fh {
		bx, by = bx-(by-fh)*slope, fh
	}
	c.sides(ax, ay, bx, by, dir)
}

// sides splits an edge within the rows of the window where it leaves the
// window to the left or the right.
func (c *coverage) sides(ax, ay, bx, by float64, dir float32) {
	fw := float64(c.w)
	if math.Min(ax, bx) >= 0 && math.Max(ax, bx) <= fw {
		c.edge(ax, ay, bx, by, dir)
		return
	}
	cuts := [4]float64{ay, by, by, by}
	n := 1
	for _, side := range [2]float64{0, fw} {
		if (ax < side) != (bx < side) {
			cuts[n] = ay + (by-ay)*(side-ax)/(bx-ax)
			n++
		}
	}
	if n == 3 && cuts[1] > cuts[2] {
		cuts[1], cuts[2] = cuts[2], cuts[1]
	}
	at := func(y float64) float64 {
		return math.Min(fw, math.Max(0, ax+(bx-ax)*(y-ay)/(by-ay)))
	}
	cuts[n] = by
	for i := 0; i < n; i++ {
		if cuts[i+1] > cuts[i] {
			c.edge(at(cuts[i]), cuts[i], at(cuts[i+1]), cuts[i+1], dir)
		}
	}
}

// edge adds an edge that lies wholly within the window, ay < by.
func (c *coverage) edge(ax, ay, bx, by float64, dir float32) {
	row, last := int(ay), int(math.Ceil(by))
	if last > c.h {
		last = c.h
	}
	if row < c.y0 {
		c.y0 = row
	}
	if last-1 > c.y1 {
		c.y1 = last - 1
	}
	slope := (bx - ax) / (by - ay)
	x := ax
	for y := row; y < last; y++ {
		top, bottom := math.Max(ay, float64(y)), math.Min(by, float64(y+1))
		dy := bottom - top
		next := x + slope*dy
		if bottom == by {
			next = bx // no drift beyond the end point
		}
		c.cell(y, x, next, dir*float32(dy))
		x = next
	}
}

// cell adds the part of an edge inside one row, from x0 to x1, with the signed
// height d.
func (c *coverage) cell(y int, x0, x1 float64, d float32) {
	if x0 > x1 {
		x0, x1 = x1, x0
	}
	i0, i1 := int(x0), int(math.Ceil(x1))
	acc := c.acc[y*c.stride : (y+1)*c.stride]
	c.touch(y, i0, max(i1, i0+1))
	if i1 <= i0+1 {
		m := d * float32(0.5*(x0+x1)-float64(i0))
		acc[i0] += d - m
		acc[i0+1] += m
		return
	}
	s := float32(1 / (x1 - x0))
	f0 := float32(x0 - float64(i0))
	f1 := float32(x1 - float64(i1-1))
	a0 := 0.5 * s * (1 - f0) * (1 - f0)
	am := 0.5 * s * f1 * f1
	acc[i0] += d * a0
	if i1 == i0+2 {
		acc[i0+1] += d * (1 - a0 - am)
	} else {
		a1 := s * (1.5 - f0)
		acc[i0+1] += d * (a1 - a0)
		for i := i0 + 2; i < i1-1; i++ {
			acc[i] += d * s
		}
		a2 := a1 + float32(i1-i0-3)*s
		acc[i1-1] += d * (1 - a2 - am)
	}
	acc[i1] += d * am
}

// touch notes pixels i0 to i1 of a row, both included.
func (c *coverage) touch(y, i0, i1 int) {
	row := c.bits[y*c.words:]
	w0, w1 := i0>>6, i1>>6
	lo := ^uint64(0) << (i0 & 63)
	hi := ^uint64(0) >> (63 - i1&63)
	if w0 == w1 {
		row[w0] |= lo & hi
		return
	}
	row[w0] |= lo
	for w := w0 + 1; w < w1; w++ {
		row[w] = ^uint64(0)
	}
	row[w1] |= hi
}

// share turns summed winding into opacity 0 to 255.
func share(sum float32, rule fillRule) uint8 {
	a := sum
	if a < 0 {
		a = -a
	}
	if rule == evenOdd {
		if a > 1 {
			a -= 2 * float32(int(a/2))
			if a > 1 {
				a = 2 - a
			}
		}
	} else if a > 1 {
		a = 1
	}
	return uint8(a*255 + 0.5)
}

// sweep lays the colour of the ink wherever the outlines cover, and cleans the
// buffers.
func (c *coverage) sweep(in *ink, rule fillRule) {
	for y := c.y0; y <= c.y1; y++ {
		in.row(c.win.Min.X, c.win.Min.Y+y)
		c.sweepRow(y, in, rule)
	}
	c.y0, c.y1 = c.h, -1
}

func (c *coverage) sweepRow(y int, in *ink, rule fillRule) {
	acc := c.acc[y*c.stride : (y+1)*c.stride]
	touched := c.bits[y*c.words : (y+1)*c.words]
	sum, x := float32(0), 0
	var a uint8
	for w, word := range touched {
		if word == 0 {
			continue
		}
		touched[w] = 0
		for word != 0 {
			px := w<<6 + bits.TrailingZeros64(word)
			word &= word - 1
			if px > x && a != 0 {
				in.span(x, min(px, c.w), a)
			}
			sum += acc[px]
			acc[px] = 0
			a = share(sum, rule)
			if a != 0 && px < c.w {
				in.dot(px, a)
			}
			x = px + 1
		}
	}
	if x < c.w && a != 0 {
		in.span(x, c.w, a)
	}
}
