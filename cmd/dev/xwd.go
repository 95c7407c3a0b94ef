package main

import (
	"encoding/binary"
	"fmt"
	"image"
	"os"
	"path/filepath"
)

// picture reads what the display shows now. Xvfb keeps its frame buffer in a
// file in the X Window Dump format, version 7 (X11/XWDFile.h).
func (d *display) picture() (*image.RGBA, error) {
	b, err := os.ReadFile(filepath.Join(d.dir, "Xvfb_screen0"))
	if err != nil {
		return nil, err
	}
	return decodeXWD(b)
}

// decodeXWD turns a 32-bit-per-pixel TrueColor dump into a picture.
func decodeXWD(b []byte) (*image.RGBA, error) {
	const fields = 25
	if len(b) < 4*fields {
		return nil, fmt.Errorf("xwd: %d bytes are too few for a header", len(b))
	}
	u := func(i int) int { return int(binary.BigEndian.Uint32(b[4*i:])) }
	header, version, w, h := u(0), u(1), u(4), u(5)
	msb, bits, stride, colours := u(7) == 1, u(11), u(12), u(19)
	if version != 7 || bits != 32 {
		return nil, fmt.Errorf("xwd: version %d with %d bits per pixel; only version 7 with 32 is read", version, bits)
	}
	at := header + 12*colours
	if w <= 0 || h <= 0 || stride < 4*w || len(b) < at+stride*h {
		return nil, fmt.Errorf("xwd: %d x %d pixels do not fit in %d bytes", w, h, len(b))
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		row := b[at+y*stride:]
		for x := range w {
			px := row[4*x : 4*x+4]
			r, g, bl := px[2], px[1], px[0]
			if msb {
				r, g, bl = px[1], px[2], px[3]
			}
			copy(img.Pix[y*img.Stride+4*x:], []byte{r, g, bl, 255})
		}
	}
	return img, nil
}
