package panel

import (
	"bytes"
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/widget"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// exporting is how the sheet is laid and where it goes. It belongs to the
// window and not to the project.
type exporting struct {
	w        *Window
	upright  bool
	water    string // name of a sheet.WaterChoice; "" for the usual one
	typed    string // path that was typed; empty takes the one beside the project
	written  string // last file written
	busy     bool
	button   *button
	note     *flow
	openNote *chip
}

func newExporting(w *Window) exporting {
	e := exporting{w: w, note: newFlow("")}
	e.button = w.button("Export PDF…", w.exportPDF)
	e.button.Importance = widget.HighImportance
	e.openNote = newChip("Open the PDF", func() { w.openFile(w.export.written) })
	e.openNote.Hide()
	w.followFocus(e.openNote)
	return e
}

// lying chooses how the paper lies.
func (e *exporting) lying() row {
	w := e.w
	return w.choose("It lies", "", fixed("wide", "landscape", "tall", "portrait"),
		func(*model.Project) string {
			if w.export.upright {
				return "tall"
			}
			return "wide"
		},
		func(_ *model.Project, v string) error { w.export.upright = v == "tall"; return nil })
}

// waterDrawn chooses what of the computed water is on the first sheet.
func (e *exporting) waterDrawn() row {
	w := e.w
	var pairs []string
	for _, c := range sheet.WaterChoices {
		pairs = append(pairs, c.Name, c.Words)
	}
	return w.choose("Water on it", "", fixed(pairs...),
		func(*model.Project) string {
			if w.export.water == "" {
				return sheet.WaterChoices[0].Name
			}
			return w.export.water
		},
		func(_ *model.Project, v string) error { w.export.water = v; return nil })
}

// pathLine is the path of the PDF.
type pathLine struct {
	*labelled
	entry *commitEntry
}

func (r *pathLine) show(*model.Project, units.System) { r.entry.show(r.w.exportPath()) }

func (e *exporting) pathRow() row {
	w := e.w
	r := &pathLine{}
	r.entry = newCommitEntry(func(text string) {
		full, err := fullPath(text)
		if err != nil {
			r.say(w.explain(err))
			return
		}
		r.say("")
		w.export.typed = full
		r.entry.taken()
	})
	r.labelled = w.stacked("PDF file", "PDF file", r.entry)
	return r
}

// exportPath is where the next PDF goes.
func (w *Window) exportPath() string {
	if w.export.typed != "" {
		return w.export.typed
	}
	return w.pdfPath()
}

// noteRow says what became of the last export.
func (e *exporting) noteRow() row {
	return &heading{box: containerOf(&column{gap: 3}, e.note, containerOf(&wrapped{}, e.openNote))}
}

// exportPDF writes the sheet, after asking when a file stands there that this
// window did not write.
func (w *Window) exportPDF() {
	w.settle()
	path := w.exportPath()
	if _, err := os.Stat(path); err == nil && path != w.export.written {
		w.ask("Replace the file?", path+" exists already.",
			answerTo{"Replace", func() { w.writePDF(path) }}, answerTo{"Back", nil})
		return
	}
	w.writePDF(path)
}

// writePDF makes the sheet beside the window and puts it in its place in one
// step.
func (w *Window) writePDF(path string) {
	if w.export.busy {
		return
	}
	w.export.busy = true
	w.export.note.set("Writing…")
	w.relay()
	job := sheetJob{project: w.desk.Project(), stage: w.desk.StageID(), station: w.desk.Station(), upright: w.export.upright, water: w.export.water, sys: w.desk.Units()}
	if w.desk.Fresh() && w.desk.Err() == nil {
		job.result = w.desk.Result()
	}
	go func() {
		pdf, err := job.make(w.tables)
		if err == nil {
			err = model.ReplaceFile(path, pdf)
		}
		w.post(func() { w.exported(path, err) })
	}()
}

// exported says how writing the sheet went.
func (w *Window) exported(path string, err error) {
	e := &w.export
	e.busy = false
	if err != nil {
		e.note.colour = "error"
		e.note.set("Not written: " + w.explain(err))
		w.problem("The PDF was not written: " + w.explain(err))
	} else {
		e.written = path
		e.note.colour = "foreground"
		e.note.set("Written: " + path)
		w.status.say("PDF written: " + path)
		e.openNote.Show()
	}
	w.relay()
}

// openFile shows a file in the program that the system has for it.
func (w *Window) openFile(path string) {
	if err := w.app.OpenURL(fileURL(filepath.ToSlash(path))); err != nil {
		w.problem(w.explain(fmt.Errorf("the sheet lies in %s, and this system names no program to show it: %w", path, err)))
	}
}

// fileURL is the address of a file; a path that begins with a drive gets the
// slash that stands before one.
func fileURL(path string) *url.URL {
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	return &url.URL{Scheme: "file", Path: path}
}

// sheetJob is one sheet to be made: everything it depends on, so that it can
// be made beside the window.
type sheetJob struct {
	project *model.Project
	result  *assess.Result // nil while it is not known
	stage   string
	station float64
	upright bool
	water   string // name of a sheet.WaterChoice
	sys     units.System
}

func (j sheetJob) make(t *tables.Set) ([]byte, error) {
	r := j.result
	if r == nil || r.Depth.Question == "" {
		full, err := j.assess(t)
		if err != nil {
			return nil, err
		}
		r = full
	}
	var st model.Stage
	for _, s := range j.project.Stages {
		if s.ID == j.stage {
			st = s
		}
	}
	long, err := section.NewLong(j.project, t, st)
	if err != nil {
		return nil, err
	}
	cross, err := section.NewCross(j.project, t, st, j.station)
	if err != nil {
		return nil, err
	}
	size := j.project.Sheet.Size
	if size == "" {
		size = "A3"
	}
	var buf bytes.Buffer
	o := sheet.Options{Size: size, Landscape: !j.upright, Units: j.sys, Version: Version}
	if o.Also, err = sheet.WaterNamed(j.water); err != nil {
		return nil, err
	}
	if r.Governing() != nil {
		if o.Structure, err = sheet.StructureOf(context.Background(), r, t, j.sys); err != nil {
			return nil, err
		}
	}
	err = sheet.Write(&buf, j.project, r, long, cross, o)
	return buf.Bytes(), err
}

// assess computes what the sheet shows, with the answers.
func (j sheetJob) assess(t *tables.Set) (*assess.Result, error) {
	r, err := assess.Run(context.Background(), j.project, t)
	if err != nil {
		return nil, err
	}
	return r, assess.Follow(context.Background(), r, t)
}
