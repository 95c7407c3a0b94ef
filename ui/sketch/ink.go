package sketch

import (
	"image"
	"image/color"
)

// ink lays one colour on an image, pixel by pixel or in runs.
type ink struct {
	img *image.RGBA
	pix []byte // row in hand, from the left edge of the window on
	// Colour, premultiplied, and its opacity.
	r, g, b, a uint32
	px         [4]byte
	run        []byte // a row full of the colour, when it is opaque
	runOf      [4]byte
}

// set chooses the colour, premultiplied as color.RGBA is. The full row for opaque runs is made once per
// colour and width.
func (k *ink) set(c color.RGBA) {
	k.r, k.g, k.b, k.a = uint32(c.R), uint32(c.G), uint32(c.B), uint32(c.A)
	k.px = [4]byte{c.R, c.G, c.B, c.A}
	n := 4 * k.img.Rect.Dx()
	if k.a != 255 || (k.runOf == k.px && len(k.run) >= n) {
		return
	}
	if cap(k.run) < n {
		k.run = make([]byte, n)
	}
	k.run = k.run[:n]
	k.runOf = k.px
	copy(k.run, k.px[:])
	for done := 4; done < n; done *= 2 {
		copy(k.run[done:], k.run[:done])
	}
}

// row goes to the pixels of image row y from column x on.
func (k *ink) row(x, y int) {
	k.pix = k.img.Pix[k.img.PixOffset(x, y):]
}

// dot lays the colour on pixel x of the row with coverage cov, 1 to 255.
func (k *ink) dot(x int, cov uint8) {
	p := k.pix[4*x : 4*x+4 : 4*x+4]
	a := k.a * uint32(cov)
	if a == 255*255 {
		copy(p, k.px[:])
		return
	}
	m, c := 255*255-a, uint32(cov)*255
	const half = 255 * 255 / 2
	p[0] = byte((k.r*c + uint32(p[0])*m + half) / (255 * 255))
	p[1] = byte((k.g*c + uint32(p[1])*m + half) / (255 * 255))
	p[2] = byte((k.b*c + uint32(p[2])*m + half) / (255 * 255))
	p[3] = byte((k.a*c + uint32(p[3])*m + half) / (255 * 255))
}

// span lays the colour on pixels x0 to x1-1 of the row.
func (k *ink) span(x0, x1 int, cov uint8) {
	if k.a*uint32(cov) == 255*255 {
		copy(k.pix[4*x0:4*x1], k.run)
		return
	}
	for x := x0; x < x1; x++ {
		k.dot(x, cov)
	}
}
