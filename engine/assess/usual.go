package assess

import (
	"fmt"
	"strconv"

	"hillset/engine/check"
	"hillset/engine/tables"
)

// usual are the ordinary sizes that what was measured is held against, worked
// out once: a sentence for each that lies outside, empty where it does not.
type usual struct{ side, end, roof, yield string }

// usuals holds what the project gives against the table of members.
func (j *job) usuals() usual {
	b := &j.p.Box
	return usual{
		side: j.odd("side-sheet", b.SideT*1e-3, "gauge"), end: j.odd("end-sheet", b.EndT*1e-3, "gauge"),
		roof: j.odd("roof-sheet", b.RoofT*1e-3, "gauge"), yield: j.odd("yield", b.Fy*1e3, "test report"),
	}
}

// odd says that a measured value lies outside the ordinary range of a row of
// the table of members, and what to look at again; empty for a value within, and
// for 0, which is not given.
func (j *job) odd(id string, v float64, look string) string {
	m, ok := j.t.Member(id)
	if !ok || v == 0 || v >= m.Low*(1-tie) && v <= m.High*(1+tie) {
		return ""
	}
	return fmt.Sprintf("%s: measured %s; usual is %s (%s): check the %s.", m.Part, amount(m, v), m.Range(), m.Src.Mark, look)
}

// amount is a value in the unit of a row.
func amount(m tables.Member, v float64) string {
	return strconv.FormatFloat(v/m.Size(), 'g', 4, 64) + " " + m.Unit
}

// sheet is the sentence on the sheet of a long or an end wall.
func (u *usual) sheet(long bool) string {
	if long {
		return u.side
	}
	return u.end
}

// tell adds what is out of the ordinary to a check.
func tell(c *check.Check, odd ...string) {
	for _, s := range odd {
		if s != "" {
			c.Assumptions = append(c.Assumptions, s)
		}
	}
}
