package water

import "hillset/engine/model"

// Rough tells whether any of the flows is less exact: see seepage.Flow.Inexact.
func (w *Wet) Rough() bool {
	for _, s := range append([]*State{w.Long}, w.Cross...) {
		if s != nil && s.Flow.Inexact() {
			return true
		}
	}
	return false
}

// Rough tells whether the water of a stage hangs on a flow that is less exact:
// in a section of the stage, or in the hill as found that its levels come from.
func (f *Field) Rough(st model.Stage) bool {
	if far := f.Far[st.Water]; far != nil && far.Flow.Inexact() {
		return true
	}
	w, err := f.At(st)
	return err == nil && w.Rough()
}

// Rough tells whether the water in the cut hangs on a flow that is less exact.
func (p *Pit) Rough() bool { return p.Long.Flow.Inexact() || p.Cross.Flow.Inexact() }
