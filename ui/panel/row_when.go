package panel

import "hillset/engine/model"

// condition says when a row is shown. A row that is not shown keeps its
// control, so that the keys do not lose their place when another value makes
// it matter.
type condition struct{ is func(p *model.Project) bool }

func (c *condition) under(is func(p *model.Project) bool) { c.is = is }
func (c *condition) holds(p *model.Project) bool          { return c.is == nil || c.is(p) }

// conditional is a row that may be hidden.
type conditional interface {
	under(is func(p *model.Project) bool)
	holds(p *model.Project) bool
}

// when shows rows only while something is so in the project.
func when(is func(p *model.Project) bool, rows ...row) []row {
	for _, r := range rows {
		r.(conditional).under(is)
	}
	return rows
}

// arrange shows the rows that matter and hides the others; it is true when that
// changed anything.
func arrange(rows []row, p *model.Project) bool {
	changed := false
	for _, r := range rows {
		c, ok := r.(conditional)
		if !ok || r.object().Visible() == c.holds(p) {
			continue
		}
		changed = true
		if c.holds(p) {
			r.object().Show()
		} else {
			r.object().Hide()
		}
	}
	return changed
}
