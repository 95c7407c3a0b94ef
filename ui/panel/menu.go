package panel

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"hillset/ui/sketch"
)

// menus are the menus of the window. They are made anew when their words
// change: the recent files, and what undo would take back.
type menus struct {
	w     *Window
	made  string // what the present menus say
	timer *time.Timer
	files []string // opened last
}

func newMenus(w *Window) *menus {
	m := &menus{w: w, files: w.desk.Recent()}
	m.make()
	return m
}

// idle is how long the menus wait for a change to settle.
const idle = 200 * time.Millisecond

// soon brings the menus up to the desk a little later, once for many changes.
func (m *menus) soon() {
	m.w.tools.show()
	if m.timer != nil {
		m.timer.Stop()
	}
	m.timer = time.AfterFunc(idle, func() { m.w.post(m.make) })
}

// recent looks for the files opened last: only when they may have changed, as
// a folder on the network can take its time.
func (m *menus) recent() { m.files = m.w.desk.Recent() }

func (m *menus) make() {
	d := m.w.desk
	undo, _ := d.CanUndo()
	redo, _ := d.CanRedo()
	recent := m.files
	if says := undo + "\x00" + redo + "\x00" + strings.Join(recent, "\x00"); says != m.made || m.w.win.MainMenu() == nil {
		m.made = says
		m.w.win.SetMainMenu(fyne.NewMainMenu(m.file(recent), m.edit(undo, redo), m.view(), m.help()))
	}
}

const ctrl = fyne.KeyModifierShortcutDefault

// item makes an entry with its keys; key "" is none. What is being typed is
// handed over before the entry does its work.
func (w *Window) item(label string, key fyne.KeyName, mod fyne.KeyModifier, f func()) *fyne.MenuItem {
	it := fyne.NewMenuItem(label, w.unless(func() { w.settle(); f() }))
	if key != "" {
		it.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
	}
	return it
}

func (m *menus) file(recent []string) *fyne.Menu {
	w := m.w
	open := fyne.NewMenuItem("Open recent", nil)
	var items []*fyne.MenuItem
	for _, path := range recent {
		items = append(items, w.item(path, "", 0, func() { w.whenSaved(func() { w.open(path) }) }))
	}
	if len(items) == 0 {
		none := fyne.NewMenuItem("none yet", nil)
		none.Disabled = true
		items = append(items, none)
	}
	open.ChildMenu = fyne.NewMenu("", items...)
	quit := w.item("Quit", fyne.KeyQ, ctrl, w.quit)
	quit.IsQuit = true
	return fyne.NewMenu("File",
		w.item("New", fyne.KeyN, ctrl, func() { w.whenSaved(w.fresh) }),
		w.item("Open…", fyne.KeyO, ctrl, func() { w.whenSaved(w.openDialog) }),
		open,
		fyne.NewMenuItemSeparator(),
		w.item("Save", fyne.KeyS, ctrl, func() { w.save(nil) }),
		w.item("Save as…", fyne.KeyS, ctrl|fyne.KeyModifierShift, func() { w.saveAsDialog(nil) }),
		fyne.NewMenuItemSeparator(),
		w.item("Export PDF…", fyne.KeyE, ctrl, func() { w.openPage("sheet"); w.exportPDF() }),
		fyne.NewMenuItemSeparator(),
		quit)
}

// withWhat names what undo and redo are about.
func withWhat(verb, what string) string {
	if what == "" {
		return verb
	}
	return verb + ": " + lowerFirst(what)
}

func (m *menus) edit(undo, redo string) *fyne.Menu {
	w := m.w
	u := fyne.NewMenuItem(withWhat("Undo", undo), w.undoKey)
	u.Shortcut = &fyne.ShortcutUndo{}
	u.Disabled = undo == ""
	r := fyne.NewMenuItem(withWhat("Redo", redo), w.redoKey)
	r.Shortcut = &fyne.ShortcutRedo{}
	r.Disabled = redo == ""
	again := fyne.NewMenuItem("Redo (other keys)", w.redoKey)
	again.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: ctrl | fyne.KeyModifierShift}
	return fyne.NewMenu("Edit", u, r, again)
}

// undoKey is what Ctrl+Z does: in a field where something is being typed it
// takes the typing back, on a board the drag in hand, else the last edit.
func (w *Window) undoKey() {
	switch f := w.win.Canvas().Focused().(type) {
	case *commitEntry:
		if f.dirty() {
			f.Undo()
			return
		}
	case *sketch.Board:
		what, _ := w.desk.CanUndo()
		f.TypedShortcut(&fyne.ShortcutUndo{})
		w.status.say("Undone: " + lowerFirst(what))
		return
	case interface{ Undo() }:
		f.Undo()
		return
	}
	w.unless(w.undo)()
}

// redoKey is the reverse.
func (w *Window) redoKey() {
	switch f := w.win.Canvas().Focused().(type) {
	case *commitEntry:
		if f.dirty() {
			f.Redo()
			return
		}
	case interface{ Redo() }:
		f.Redo()
		return
	}
	w.unless(w.redo)()
}

func (m *menus) view() *fyne.Menu {
	w := m.w
	items := []*fyne.MenuItem{
		w.item("Fit the drawing", "", 0, func() { w.inView().Fit() }),
		w.item("Zoom in", fyne.KeyEqual, ctrl, func() { w.inView().ZoomIn() }),
		w.item("Zoom out", fyne.KeyMinus, ctrl, func() { w.inView().ZoomOut() }),
		fyne.NewMenuItemSeparator(),
	}
	for _, s := range shownWays {
		items = append(items, w.item(s.menu, s.key, fyne.KeyModifierAlt, func() { w.showSections(s.of) }))
	}
	items = append(items,
		fyne.NewMenuItemSeparator(),
		w.item("Metres or feet", fyne.KeyU, ctrl, w.otherUnits))
	for _, l := range shownLooks {
		items = append(items, w.item("Look: "+string(l), "", 0, func() { w.setLook(l) }))
	}
	items = append(items,
		w.item("Larger letters", fyne.KeyPeriod, ctrl, func() { w.setLetters(w.set.Letters + letterStep) }),
		w.item("Smaller letters", fyne.KeyComma, ctrl, func() { w.setLetters(w.set.Letters - letterStep) }),
		fyne.NewMenuItemSeparator())
	items = append(items, w.item("Go to the next step", fyne.KeyG, ctrl, w.header.goThere))
	for i, pg := range w.pages {
		key := pg.about().key
		items = append(items, w.item("Page "+pg.about().name, pageKeys[i], ctrl, func() { w.openPage(key); w.enterPage() }))
	}
	items = append(items, fyne.NewMenuItemSeparator(),
		w.item("Stage before", fyne.KeyPageUp, ctrl, func() { w.stepStage(-1) }),
		w.item("Stage after", fyne.KeyPageDown, ctrl, func() { w.stepStage(1) }))
	return fyne.NewMenu("View", items...)
}

// pageKeys open the pages with Ctrl: digits, then letters.
var pageKeys = []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9, fyne.Key0, fyne.KeyL, fyne.KeyD, fyne.KeyF, fyne.KeyI, fyne.KeyK}

// letterStep is one step of larger or smaller letters.
const letterStep = 0.1

func (m *menus) help() *fyne.Menu {
	return fyne.NewMenu("Help",
		m.w.item("Keys", fyne.KeySlash, ctrl, m.w.keysDialog),
		m.w.item("About, cautions and limits", "", 0, m.w.aboutDialog))
}
