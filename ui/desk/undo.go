package desk

import (
	"reflect"

	"hillset/ui/units"
)

// step is one edit: what it was, and the state on its other side. Snapshots
// are never changed, so keeping them all costs what the edits added.
type step struct {
	what  string
	merge string
	other state
}

// record puts the present state on the undo list, unless the edit goes on with
// the gesture of the last one.
func (d *Desk) record(what, merge string) {
	d.redo = nil
	if merge != "" && merge == d.view.gesture {
		return
	}
	d.view.gesture = merge
	d.undo = append(d.undo, step{what, merge, d.now})
}

// EndGesture ends the step that edits were merging into, as when the pointer
// is released. A gesture that came back to where it started leaves no step.
func (d *Desk) EndGesture() {
	if d.view.gesture == "" {
		return
	}
	d.view.gesture = ""
	top := d.undo[len(d.undo)-1]
	if reflect.DeepEqual(d.inUnits(top.other).project, d.now.project) {
		d.undo = d.undo[:len(d.undo)-1]
		d.now = d.inUnits(top.other)
		d.autosaveSoon()
		d.tell(Event{Kind: FileChanged})
	}
}

// CanUndo names the edit that Undo would take back.
func (d *Desk) CanUndo() (what string, ok bool) { return topOf(d.undo) }

// CanRedo names the edit that Redo would make again.
func (d *Desk) CanRedo() (what string, ok bool) { return topOf(d.redo) }

func topOf(s []step) (string, bool) {
	if len(s) == 0 {
		return "", false
	}
	return s[len(s)-1].what, true
}

// Undo takes back the last edit and names it; ok is false when there is none.
func (d *Desk) Undo() (what string, ok bool) { return d.move(&d.undo, &d.redo) }

// Redo makes the edit that was taken back last again.
func (d *Desk) Redo() (what string, ok bool) { return d.move(&d.redo, &d.undo) }

func (d *Desk) move(from, to *[]step) (string, bool) {
	d.view.gesture = ""
	n := len(*from)
	if n == 0 {
		return "", false
	}
	s := (*from)[n-1]
	*from = (*from)[:n-1]
	*to = append(*to, step{s.what, s.merge, d.now})
	d.become(d.inUnits(s.other))
	return s.what, true
}

// inUnits gives s in the units now in use: the way a project is shown is no
// step, so it does not come back with one.
func (d *Desk) inUnits(s state) state { return withUnits(s, d.now.project.Display.Units) }

func withUnits(s state, name string) state {
	if s.project.Display.Units == name {
		return s
	}
	p := *s.project // shares its lists, which nobody changes
	p.Display.Units = name
	return state{&p, s.number}
}

// SetUnits switches the system of units. It is stored with the project and so
// makes it dirty, but it is no step of the undo list and needs no new
// assessment: nothing but the display depends on it.
func (d *Desk) SetUnits(sys units.System) {
	if d.Units() == sys {
		return
	}
	d.now = withUnits(d.now, sys.String())
	d.autosaveSoon()
	d.tell(Event{Kind: ViewChanged})
	d.tell(Event{Kind: FileChanged})
}
