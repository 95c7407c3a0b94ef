package panel

import (
	"hillset/engine/model"
	"hillset/ui/units"
)

// usually gives a number row a help that names the ordinary range of a row of
// the table of members, in the reader's units.
func (n *number) usually(id string) *number {
	n.about = func(*model.Project) string {
		m, ok := n.w.tables.Member(id)
		if !ok {
			return ""
		}
		show := func(v float64) string { return units.Format(v, n.kind, n.w.desk.Units()) }
		if m.Low == m.High {
			return "usually " + show(m.Low)
		}
		return "usually " + show(m.Low) + " to " + show(m.High)
	}
	return n
}

// limited gives a number row for a limit of settlement a help that says what
// counts where none is typed.
func (n *number) limited(id, help string) *number {
	n.or("by table")
	n.about = func(*model.Project) string {
		l, ok := n.w.tables.SettleLimit(id)
		if !ok {
			return help
		}
		return help + "; by table " + units.Format(l.Limit, n.kind, n.w.desk.Units()) + " (" + string(l.Src.Mark) + ")"
	}
	return n
}
