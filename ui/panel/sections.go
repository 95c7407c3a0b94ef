package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// showing is which of the two sections are shown.
type showing string

// What can be shown.
const (
	bothSections showing = ""
	longOnly     showing = "long"
	crossOnly    showing = "cross"
)

// shownWays lists them with the words on their buttons and their keys.
var shownWays = []struct {
	of         showing
	name, menu string
	key        fyne.KeyName
}{
	{bothSections, "Both", "Both sections", fyne.Key1},
	{longOnly, "Long", "Long section alone", fyne.Key2},
	{crossOnly, "Cross", "Cross section alone", fyne.Key3},
}

// sectionViews holds the two sections, beside each other or one alone.
type sectionViews struct {
	box         *fyne.Container
	long, cross *container.Clip
	split       *container.Split
}

func newSectionViews(w *Window) *sectionViews {
	v := &sectionViews{long: container.NewClip(w.long), cross: container.NewClip(w.cross), box: container.NewStack()}
	v.split = container.NewHSplit(v.long, v.cross)
	v.split.SetOffset(0.62)
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
	w.status.help(w.active.Help())
	if changed {
		w.keepSettings()
	}
}
