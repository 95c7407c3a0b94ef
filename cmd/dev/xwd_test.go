package main

import (
	"encoding/binary"
	"testing"
)

// xwd builds a dump by the layout of X11/XWDFile.h: 25 header words, no
// colours, two pixels.
func xwd(msb bool) []byte {
	head := make([]uint32, 25)
	head[0], head[1], head[4], head[5] = 100, 7, 2, 1
	head[11], head[12] = 32, 8
	order := binary.ByteOrder(binary.LittleEndian)
	if msb {
		head[7], order = 1, binary.BigEndian
	}
	var b []byte
	for _, v := range head {
		b = binary.BigEndian.AppendUint32(b, v)
	}
	px := make([]byte, 8)
	order.PutUint32(px, 0x00112233)
	order.PutUint32(px[4:], 0x00aabbcc)
	return append(b, px...)
}

func TestDecodeXWD(t *testing.T) {
	for _, msb := range []bool{false, true} {
		img, err := decodeXWD(xwd(msb))
		if err != nil {
			t.Fatal(err)
		}
		if c := img.RGBAAt(0, 0); c.R != 0x11 || c.G != 0x22 || c.B != 0x33 || c.A != 255 {
			t.Errorf("msb %v: first pixel %v", msb, c)
		}
		if c := img.RGBAAt(1, 0); c.R != 0xaa || c.G != 0xbb || c.B != 0xcc {
			t.Errorf("msb %v: second pixel %v", msb, c)
		}
	}
}

func TestDecodeXWDRefuses(t *testing.T) {
	short := xwd(false)[:104]
	old := xwd(false)
	old[7] = 6
	for name, b := range map[string][]byte{"empty": nil, "cut off": short, "other version": old} {
		if _, err := decodeXWD(b); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
