package panel

import (
	"encoding/binary"
	"fmt"

	"fyne.io/fyne/v2"

	"hillset/assets"
)

// The letters of the window are those of the sheet. The toolkit cuts a line of
// text off at the descent that the font names, rounded down to the pixel, and
// so the tails of g and p; here the font names a little more.
var (
	regular = fyne.NewStaticResource("regular.ttf", roomy(assets.Regular()))
	bold    = fyne.NewStaticResource("bold.ttf", roomy(assets.Bold()))
)

// tails is how much more descent the font gets, in units of the em: 1 px of
// 13.
const tails = 158

// roomy gives a copy of a TrueType font with a larger descent in its table
// hhea. A font without one is none that we embed.
func roomy(ttf []byte) []byte {
	out := append([]byte(nil), ttf...)
	n := int(binary.BigEndian.Uint16(out[4:]))
	for i := range n {
		entry := out[12+16*i:]
		if string(entry[:4]) != "hhea" {
			continue
		}
		at := binary.BigEndian.Uint32(entry[8:]) + 6 // descender
		d := int16(binary.BigEndian.Uint16(out[at:]))
		binary.BigEndian.PutUint16(out[at:], uint16(d-tails))
		return out
	}
	panic(fmt.Sprintf("panel: font of %d tables has no hhea", n))
}
