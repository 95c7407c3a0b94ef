package assess

import (
	"math"

	"hillset/engine/section"
)

// wingBays lays the ratios of a wing on its panel, column by column: each column
// at the worst place within it, in line with the front all at the worst.
func (j *job) wingBays(out []Bay, row *bayRow, part string) []Bay {
	for _, s := range j.wings {
		if s.part != part || s.wall == nil {
			continue
		}
		w := s.wall
		for _, c := range w.Columns {
			x, _ := w.At(c.From, 0)
			var here []seen
			for _, v := range row.rows() {
				if math.Abs(v.station-x) < sameStation {
					here = append(here, v)
				}
			}
			v, ok := worstSeen(here)
			if !ok {
				continue
			}
			b := Bay{Panel: section.Face(part), From: c.From, To: c.To, High: w.Top(c) - w.Base, ID: v.id, Stage: v.stage, Ratio: v.ratio}
			if w.Dir < 0 {
				b.From, b.To = w.Length()-c.To, w.Length()-c.From
			}
			out = append(out, b)
		}
	}
	return out
}
