package panel

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"hillset/engine/model"
	"hillset/ui/desk"
)

// ask shows a question with its answers as buttons; the last one changes
// nothing. A nil function only closes the question.
func (w *Window) ask(title, text string, answers ...answerTo) {
	words := newFlow(text)
	body := container.New(&wideEnough{420}, container.New(&column{}, words))
	d := dialog.NewCustomWithoutButtons(title, body, w.win)
	var bs []fyne.CanvasObject
	for i, a := range answers {
		bs = append(bs, w.newReply(a.name, i == 0, func() {
			d.Hide()
			if a.f != nil {
				a.f()
			}
		}))
	}
	d.SetButtons(bs)
	w.present(d)
	w.win.Canvas().Focus(bs[0].(fyne.Focusable))
}

// answerTo is one answer to a question.
type answerTo struct {
	name string
	f    func()
}

// wideEnough lays its content out at a fixed width and asks for the height
// that it has there.
type wideEnough struct{ width float32 }

// MinSize lays the content out to see how tall it is.
func (l *wideEnough) MinSize(objs []fyne.CanvasObject) fyne.Size {
	objs[0].Resize(fyne.NewSize(l.width, objs[0].MinSize().Height))
	return fyne.NewSize(l.width, objs[0].MinSize().Height)
}

// Layout gives it everything.
func (l *wideEnough) Layout(objs []fyne.CanvasObject, size fyne.Size) { objs[0].Resize(size) }

// failed shows an error that must be read.
func (w *Window) failed(title string, err error) {
	w.ask(title, w.explain(err), answerTo{"Close", nil})
	w.problem(w.explain(err))
}

// whenSaved goes on with f after unsaved work has been saved or given up.
func (w *Window) whenSaved(f func()) {
	if !w.desk.Dirty() {
		f()
		return
	}
	w.ask("Unsaved work", "“"+w.desk.Project().Title+"” has changes that are not saved.",
		answerTo{"Save", func() { w.save(f) }},
		answerTo{"Don't save", f},
		answerTo{"Back", nil})
}

// fresh puts an empty project on the desk.
func (w *Window) fresh() {
	if err := w.desk.New(); err != nil {
		w.failed("New project", err)
		return
	}
	w.openPage("hill")
	w.long.Fit()
}

// open puts the project of a file on the desk; what cannot be read leaves the
// desk as it is.
func (w *Window) open(path string) bool {
	if err := w.desk.Open(path); err != nil {
		w.failed("This file was not opened", err)
		return false
	}
	w.set.Folder = filepath.Dir(w.desk.Path())
	w.keepSettings()
	w.refit()
	w.tellUnknown()
	return true
}

// refit shows the whole of a project that was just opened.
func (w *Window) refit() {
	w.stages.show()
	w.problem("")
}

// tellUnknown says what the reader did not know.
func (w *Window) tellUnknown() {
	n := 0
	for _, p := range w.desk.OpenProblems() {
		if strings.Contains(p.Text, "not known to this version") {
			n++
		}
	}
	if n > 0 {
		w.status.say("The file holds " + plural(n, "field", "fields") + " that this version does not know; they are kept when it is saved.")
	}
}

// save writes the project to its file and goes on with then, which may be nil.
func (w *Window) save(then func()) {
	err := w.desk.Save()
	var changed *desk.ChangedError
	switch {
	case errors.Is(err, desk.ErrNoPath):
		w.saveAsDialog(then)
	case errors.As(err, &changed):
		w.ask("Changed on disk", w.explain(err),
			answerTo{"Save as another file…", func() { w.saveAsDialog(then) }},
			answerTo{"Replace it", func() { w.saved(w.desk.SaveAnyway(), then) }},
			answerTo{"Back", nil})
	default:
		w.saved(err, then)
	}
}

// saved says how saving went and goes on when it went well.
func (w *Window) saved(err error, then func()) {
	if err != nil {
		w.failed("Not saved", err)
		return
	}
	w.set.Folder = filepath.Dir(w.desk.Path())
	w.keepSettings()
	w.status.say("Saved: " + w.desk.Path())
	if then != nil {
		then()
	}
}

// saveAs writes the project to path, after asking when another file stands
// there.
func (w *Window) saveAs(path string, then func()) {
	path = desk.WithExt(path)
	write := func() { w.saved(w.desk.SaveAs(path), then) }
	if _, err := os.Stat(path); err == nil && path != w.desk.Path() {
		w.ask("Replace the file?", path+" exists already. The old one is kept beside it as .bak.",
			answerTo{"Replace", write}, answerTo{"Back", func() { w.saveAsDialog(then) }})
		return
	}
	write()
}

// folder is where a file dialog begins.
func (w *Window) folder() string {
	if p := w.desk.Path(); p != "" {
		return filepath.Dir(p)
	}
	if w.set.Folder != "" {
		return w.set.Folder
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// saveAsDialog asks for a name. The name is typed, and the folder can be
// chosen: the toolkit's own dialog for saving would empty the file before
// anything is written.
func (w *Window) saveAsDialog(then func()) {
	name := w.desk.Path()
	if name == "" {
		name = filepath.Join(w.folder(), fileName(w.desk.Project().Title)+model.Ext)
	}
	w.askPath("Save as", "Save", name, true, func(path string) { w.saveAs(path, then) })
}

// openDialog asks for a file.
func (w *Window) openDialog() {
	w.askPath("Open a project", "Open", w.folder()+string(filepath.Separator), false, w.openAny)
}

// fileName makes a name for a file of a title.
func fileName(title string) string {
	keep := func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}
	if s := strings.Trim(strings.Map(keep, title), " ."); s != "" {
		return s
	}
	return "project"
}

// askPath asks for a path: typed, or chosen by looking through the folders.
func (w *Window) askPath(title, verb, path string, saving bool, f func(path string)) {
	entry := w.newField(false)
	entry.SetText(path)
	fault := newFlow("").strong()
	fault.paint("error")
	var d *dialog.CustomDialog
	done := func() {
		full, err := fullPath(entry.Text)
		if err != nil {
			fault.set(w.explain(err))
			return
		}
		d.Hide()
		f(full)
	}
	entry.OnSubmitted = func(string) { done() }
	look := w.button("Look…", func() { w.lookForPath(entry, saving) })
	words := "Type or paste a path, or look for it. A file can also be dropped on the window."
	if saving {
		words = "Type or paste a path, or look for a folder."
	}
	help := newFlow(words).caption()
	body := container.New(&wideEnough{560}, container.New(&column{gap: 4}, help, container.NewBorder(nil, nil, nil, look, entry), fault))
	d = dialog.NewCustomWithoutButtons(title, body, w.win)
	d.SetButtons([]fyne.CanvasObject{w.newReply(verb, true, done), w.newReply("Back", false, d.Hide)})
	w.pathAsked = d
	w.present(d)
	w.win.Canvas().Focus(entry)
	entry.CursorColumn = len([]rune(path))
	entry.Refresh()
}

// fullPath makes a typed path whole; ~ is the home folder.
func fullPath(text string) (string, error) {
	text = strings.Trim(strings.TrimSpace(text), `"`)
	if text == "" || strings.HasSuffix(text, string(filepath.Separator)) {
		return "", errors.New("the name of the file is missing")
	}
	if rest, ok := strings.CutPrefix(text, "~"); ok {
		home, err := os.UserHomeDir()
		if err != nil {
			return "", err
		}
		text = filepath.Join(home, rest)
	}
	return filepath.Abs(text)
}

// lookForPath puts what is chosen in a file dialog into the field. For saving
// only the folder is chosen.
func (w *Window) lookForPath(entry *field, saving bool) {
	here := filepath.Dir(entry.Text)
	if saving {
		d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
			if err != nil {
				w.failed("Folder", err)
			} else if u != nil {
				entry.SetText(filepath.Join(u.Path(), filepath.Base(entry.Text)))
			}
		}, w.win)
		w.showFileDialog(d, here)
		return
	}
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err != nil {
			w.failed("File", err)
		} else if r != nil {
			entry.SetText(r.URI().Path())
			if err := r.Close(); err != nil {
				w.failed("File", err)
				return
			}
			entry.OnSubmitted(entry.Text)
		}
	}, w.win)
	d.SetFilter(storage.NewExtensionFileFilter([]string{model.Ext, ".csv", ".txt"}))
	w.showFileDialog(d, here)
}

func (w *Window) showFileDialog(d *dialog.FileDialog, folder string) {
	if l, err := storage.ListerForURI(storage.NewFileURI(folder)); err == nil {
		d.SetLocation(l)
	}
	d.SetView(dialog.ListView) // names are not cut short
	d.Resize(w.win.Canvas().Size().SubtractWidthHeight(160, 120))
	w.present(d)
}

// openAny opens a file by what it is: a table of points is read in, anything
// else is taken for a project.
func (w *Window) openAny(path string) {
	if isProject(path) {
		w.open(path)
		return
	}
	w.importFile(path)
}

// isProject tells whether a file takes the place of the project on the desk.
func isProject(path string) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".csv", ".txt", ".tsv":
		return false
	}
	return true
}

// dropped opens the first of the files that were dropped on the window. A
// dialog that asks for a path has its answer; any other must be answered first.
func (w *Window) dropped(uris []fyne.URI) {
	if len(uris) == 0 {
		return
	}
	for n := len(w.modals); n > 0 && w.modals[n-1] == w.pathAsked; n = len(w.modals) {
		w.dismiss()
	}
	if w.asking() {
		w.problem("Close what is open first, then drop the file again.")
		return
	}
	path := uris[0].Path()
	if !isProject(path) {
		w.openAny(path)
		return
	}
	w.whenSaved(func() { w.openAny(path) })
}
