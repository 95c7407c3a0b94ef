package tables

import "strconv"

// Member is the ordinary range of one size or strength of a part of a
// container, as makers and dealers state it. Something measured beyond it is
// not wrong, but worth a second look at the gauge.
type Member struct {
	ID, Part, What     string
	Unit               string  // mm, MPa or kN
	Low, Typical, High float64 // m, kPa or kN
	Src                Source
}

// memberUnits are the units of the table as factors to the units held.
var memberUnits = map[string]float64{"mm": mm, "MPa": mpa, "kN": 1}

func parseMember(r *row) Member {
	m := Member{ID: r.text("id"), Part: r.text("part"), What: r.text("what"), Unit: r.oneOf("unit", "mm", "MPa", "kN")}
	unit := memberUnits[m.Unit]
	m.Low, m.Typical, m.High = r.num("low", unit, 0.5, 2000), r.num("typical", unit, 0.5, 2000), r.num("high", unit, 0.5, 2000)
	m.Src = r.source()
	if r.err == nil && !(m.Low <= m.Typical && m.Typical <= m.High) {
		r.fail("typical", r.raw("typical"), "is not between low and high")
	}
	return m
}

// Member gives the ordinary range of one size; false where there is none.
func (s *Set) Member(id string) (Member, bool) { return s.members.get(id) }

// MemberIDs gives the ids of the ordinary sizes.
func (s *Set) MemberIDs() []string { return s.members.ids }

// Size is the unit of a row in the unit that its values are held in.
func (m *Member) Size() float64 { return memberUnits[m.Unit] }

// Range is the ordinary range in words, e.g. "1.6 to 2 mm".
func (m *Member) Range() string {
	num := func(v float64) string { return strconv.FormatFloat(v/m.Size(), 'g', 4, 64) }
	if m.Low == m.High {
		return num(m.Low) + " " + m.Unit
	}
	return num(m.Low) + " to " + num(m.High) + " " + m.Unit
}
