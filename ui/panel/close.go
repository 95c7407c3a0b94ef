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

// leftovers are unsaved projects of earlier runs that nobody has open now.
func (w *Window) leftovers() []desk.Recovered {
	if w.places.autosave == "" {
		return nil
	}
	all, err := desk.Recover(w.places.autosave)
	if err != nil {
		w.problem(w.explain(fmt.Errorf("looking for unsaved work: %w", err)))
		return nil
	}
	var out []desk.Recovered
	for _, r := range all {
		if r.Err == nil && !r.InUse {
			out = append(out, r)
		}
	}
	return out
}

// offerLeftovers asks about the newest unsaved project that concerns path, or
// about the newest of all when path is empty; then about the next one.
func (w *Window) offerLeftovers(path string) {
	for _, r := range w.leftovers() {
		if path == "" || r.Origin == path {
			w.offer(r, path)
			return
		}
	}
}

func (w *Window) offer(r desk.Recovered, path string) {
	name := "“" + r.Title + "”"
	if r.Origin != "" {
		name += " (" + r.Origin + ")"
	}
	w.ask("Unsaved work was found", name+", last kept "+r.Saved.Local().Format("2 January 2006, 15:04")+", was not saved before the program ended.",
		answerTo{"Open it", func() {
			if err := w.desk.OpenRecovered(r); err != nil {
				w.failed("Not opened", err)
				return
			}
			w.refit()
			w.status.say("Opened from the unsaved work. Save it to keep it.")
		}},
		answerTo{"Throw it away", func() {
			if err := desk.DiscardRecovered(r); err != nil {
				w.failed("Not thrown away", err)
				return
			}
			w.offerLeftovers(path)
		}},
		answerTo{"Later", nil})
}

// frameAfter runs f a little later, when the window stands.
func (w *Window) frameAfter(f func()) {
	time.AfterFunc(50*time.Millisecond, func() { w.post(f) })
}
