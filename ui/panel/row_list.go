package panel

import (
	"hillset/engine/model"
)

// listButtons are the buttons that add a thing to a list of the project and
// take the last one away. fresh makes the new one; what names it in the list
// of steps that can be undone.
func listButtons[T any](w *Window, noun, what string, ref func(p *model.Project) *[]T, fresh func(l []T) T) row {
	return buttons(
		w.button("Add "+noun, func() {
			w.edit("Add "+what, func(p *model.Project) error {
				l := ref(p)
				*l = append(*l, fresh(*l))
				return nil
			})
		}),
		w.button("Remove "+noun, func() {
			w.edit("Remove "+what, func(p *model.Project) error {
				l := ref(p)
				if n := len(*l); n > 0 {
					*l = (*l)[:n-1]
				}
				if len(*l) == 0 {
					*l = nil
				}
				return nil
			})
		}))
}
