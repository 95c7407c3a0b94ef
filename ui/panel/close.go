package panel

import (
	"fmt"
	"slices"
	"time"

	"hillset/ui/desk"
)

// quit closes the window, after asking about unsaved work.
func (w *Window) quit() {
	for _, m := range slices.Clone(w.modals) {
		m.Hide()
	}
	w.settle()
	if !w.desk.Dirty() {
		w.leave()
		return
	}
	w.ask("Unsaved work", "“"+w.desk.Project().Title+"” has changes that are not saved.",
		answerTo{"Save", func() { w.save(w.leave) }},
		answerTo{"Don't save", func() {
			if err := w.desk.Discard(); err != nil {
				w.problem(w.explain(err))
			}
			w.leave()
		}},
		answerTo{"Back", nil})
}

// leave ends the program.
func (w *Window) leave() {
	s := w.win.Canvas().Size()
	w.set.Width, w.set.Height = s.Width, s.Height
	w.keepSettings()
	if err := w.desk.Close(); err != nil {
		w.failed("Unsaved work could not be kept", err)
		return
	}
	w.win.SetCloseIntercept(nil)
	w.win.Close()
	w.app.Quit()
}

// leftovers are unsaved projects of other runs, first those that nobody seems
// to have open. A number of a process can be given to another program, so none
// is hidden.
func (w *Window) leftovers() []desk.Recovered {
	if w.places.autosave == "" {
		return nil
	}
	all, err := desk.Recover(w.places.autosave)
	if err != nil {
		w.problem(w.explain(fmt.Errorf("looking for unsaved work: %w", err)))
		return nil
	}
	all = slices.DeleteFunc(all, func(r desk.Recovered) bool { return r.Err != nil })
	slices.SortStableFunc(all, func(a, b desk.Recovered) int {
		switch {
		case a.InUse == b.InUse:
			return 0
		case b.InUse:
			return -1
		}
		return 1
	})
	return all
}

// offerLeftovers asks about the first unsaved project that concerns path, or
// about the first of all when path is empty.
func (w *Window) offerLeftovers(path string) {
	for _, r := range w.leftovers() {
		if path == "" || r.Origin == path {
			w.offer(r, path)
			return
		}
	}
}

// leftWords says what was found.
func leftWords(r desk.Recovered) string {
	s := "“" + r.Title + "”"
	if r.Origin != "" {
		s += " (" + r.Origin + ")"
	}
	s += ", last kept " + r.Saved.Local().Format("2 January 2006, 15:04") + ", has changes that were not saved."
	if r.InUse {
		s += " It may be open in another window of this program: look there first."
	}
	return s
}

func (w *Window) offer(r desk.Recovered, path string) {
	open := answerTo{"Open it", func() { w.openLeft(r) }}
	drop := answerTo{"Throw it away", func() {
		if err := desk.DiscardRecovered(r); err != nil {
			w.failed("Not thrown away", err)
			return
		}
		w.offerLeftovers(path)
	}}
	later := answerTo{"Later", nil}
	if r.InUse {
		w.ask("Unsaved work", leftWords(r), later, open, drop)
		return
	}
	w.ask("Unsaved work was found", leftWords(r), open, drop, later)
}

// openLeft puts unsaved work on the desk.
func (w *Window) openLeft(r desk.Recovered) {
	if err := w.desk.OpenRecovered(r); err != nil {
		w.failed("Not opened", err)
		return
	}
	w.refit()
	w.status.say("Opened from the unsaved work. Save it to keep it.")
}

// frameAfter runs f a little later, when the window stands.
func (w *Window) frameAfter(f func()) {
	time.AfterFunc(50*time.Millisecond, func() { w.post(f) })
}
