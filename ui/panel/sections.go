package panel

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/ui/scene"
	"hillset/ui/sketch"
)

// showing is what the middle of the window shows.
type showing string

// What can be shown.
const (
	bothSections showing = ""
	longOnly     showing = "long"
	crossOnly    showing = "cross"
	panelsOnly   showing = "panels"
)

// shownWay is one of them, with its words and its key.
type shownWay struct {
	of         showing
	name, menu string
	key        fyne.KeyName
}

// shownWays lists them with the words on their buttons and their keys.
var shownWays = []shownWay{
	{bothSections, "Both", "Both sections", fyne.Key1},
	{longOnly, "Long", "Long section alone", fyne.Key2},
	{crossOnly, "Cross", "Cross section alone", fyne.Key3},
	{panelsOnly, "Panels", "The box folded flat, with the ratio of every bay", fyne.Key4},
}

// sectionViews holds the two sections, beside each other or one alone, and the
// box folded flat.
type sectionViews struct {
	box         *fyne.Container
	long, cross *container.Clip
	split       *container.Split
	panels      *sketch.Viewer
}

func newSectionViews(w *Window) *sectionViews {
	v := &sectionViews{long: container.NewClip(w.long), cross: container.NewClip(w.cross), box: container.NewStack()}
	v.split = container.NewHSplit(v.long, v.cross)
	v.split.SetOffset(0.62)
	v.panels = sketch.NewViewer(w.draftPanels, w.look.palette, float64(w.set.Letters), fyne.NewSize(240, 180))
	return v
}

// show puts the sections in place.
func (v *sectionViews) show(s showing) {
	var o fyne.CanvasObject = v.split
	switch s {
	case longOnly:
		o = v.long
	case crossOnly:
		o = v.cross
	case panelsOnly:
		o = v.panels
	}
	v.box.Objects = []fyne.CanvasObject{o}
	v.box.Refresh()
}

// showSections shows both sections or one of them; the keys go to one that is
// shown.
func (w *Window) showSections(s showing) {
	if w.sections == nil {
		return
	}
	w.sections.show(s)
	switch s {
	case longOnly:
		w.active = w.long
	case crossOnly:
		w.active = w.cross
	}
	changed := w.set.Sections != s
	w.set.Sections = s
	w.tools.show()
	if s == panelsOnly {
		w.sections.panels.Redraw()
		w.status.help(panelsHelp)
	} else {
		w.status.help(w.active.Help())
		w.portraits()
	}
	if changed {
		w.keepSettings()
	}
}

// panelsHelp is what the status line says while the panels are shown.
const panelsHelp = "The box folded flat: each bay with demand over strength, at its worst stage. Wheel, + and - zoom, dragging moves the paper, F shows all."

// draftPanels lays the box out flat with the last result.
func (w *Window) draftPanels(width, height float64) (*scene.Scene, error) {
	r := w.desk.Result()
	switch {
	case w.desk.Err() != nil:
		return nil, errors.New(w.explain(w.desk.Err()))
	case r == nil:
		return nil, errors.New(computing)
	case r.Governing() == nil && w.header.next.words != "":
		return nil, errors.New("nothing is worked out yet. Next: " + w.header.next.words)
	}
	return scene.BuildPanels(r, scene.PanelOptions{Width: width, Height: height, Units: w.desk.Units(), Selected: w.marked})
}

// zoomed is a drawing that can be zoomed.
type zoomed interface {
	Fit()
	ZoomIn()
	ZoomOut()
}

// inView is the drawing that the keys zoom.
func (w *Window) inView() zoomed {
	if w.set.Sections == panelsOnly {
		return w.sections.panels
	}
	return w.active
}

// panelsChanged draws the panels anew where they are shown.
func (w *Window) panelsChanged() {
	if w.set.Sections == panelsOnly && w.sections != nil {
		w.sections.panels.Redraw()
	}
}
