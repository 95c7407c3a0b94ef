package scene

import (
	"cmp"
	"slices"
	"strconv"

	"hillset/engine/check"
	"hillset/geom"
	"hillset/ui/face"
)

// Key is one row of the list that goes with the numbered marks of a drawing.
type Key struct {
	Part  string
	Worst *check.Check // the check of the part with the largest ratio
	Words string       // its verdict
}

// KeysOf lists the verdict of every part of which something was checked, the
// worst first. A part has the number of its row, from 1.
func KeysOf(cs []check.Check) []Key {
	vs := slices.DeleteFunc(gather(cs, false), func(v verdict) bool { return v.worst == nil })
	slices.SortStableFunc(vs, func(a, c verdict) int { return cmp.Compare(c.weight(), a.weight()) })
	out := make([]Key, len(vs))
	for i, v := range vs {
		out[i] = Key{v.part, v.worst, v.words()}
	}
	return out
}

// keySize is the height of the numbers, mm: the least that is read on paper.
const keySize = 2.0

// keyNumbers writes the numbers of parts beside their marks. Where the long
// section shows parts one behind the other, it is that of the worse.
func (b *builder) keyNumbers(todo []placed) {
	no := map[string]int{}
	for i, k := range KeysOf(b.r.Checks) {
		no[k.Part] = i + 1
	}
	for _, p := range todo {
		if p.v.worst == nil {
			continue
		}
		l := label(Verdicts, "verdict:"+p.v.part, strconv.Itoa(no[shownBy(p.v.worst.Part)]))
		l.Role, l.Bold, l.Height, l.Anchor = p.v.role(), true, keySize, Anchor{0.5, 0.5}
		x := (markSize + 0.9 + face.Width(l.Text, l.Height, true)/2) * b.mm
		y := (markSize + 0.9 + keySize/2) * b.mm
		var around []geom.Vec
		for _, d := range []geom.Vec{{x, 0}, {-x, 0}, {0, y}, {0, -y}, {x, y}, {-x, y}, {x, -y}, {-x, -y}} {
			around = append(around, p.s.at.Add(d))
		}
		if !b.put(l, around...) {
			b.callout(l, p.s.at, markSize+0.3)
		}
	}
}
