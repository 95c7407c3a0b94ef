package sheet

import (
	"fmt"
	"io"
	"strings"
	"time"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// Options say how the sheets are laid out.
type Options struct {
	Size      string // A4, A3, letter, tabloid
	Landscape bool
	Units     units.System
	Version   string // name and version of the program, written into the file
	Plain     bool   // leave the file's content uncompressed
	// Layers are those drawn; nil takes Handout.
	Layers map[scene.Layer]bool
	Scene  SceneFunc // draws the sections; nil takes the program's own drawing
}

// noDate stands for the date of a sheet without one: the same file must come
// out of the same project on any day.
var noDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// sheetDate reads the drawing date of a project.
func sheetDate(p *model.Project) (time.Time, error) {
	if p.Sheet.Date == "" {
		return noDate, nil
	}
	t, err := time.Parse(time.DateOnly, p.Sheet.Date)
	if err != nil {
		return t, model.Problem{Field: "sheet.date", Value: p.Sheet.Date, Allowed: "YYYY-MM-DD", Text: "not a date"}
	}
	return t, nil
}

// Write makes the hand-out of a project as a PDF file: on the first sheet the
// long and the cross section at one standard scale with the title block, and
// the tables there or on further sheets. The same input gives the same bytes.
//
// It fails, naming the cause, on an unknown size, an unreadable date, sections
// that fit at no standard scale, and numbers that are not finite.
func Write(w io.Writer, p *model.Project, r *assess.Result, long, cross *section.View, o Options) error {
	date, err := sheetDate(p)
	if err != nil {
		return err
	}
	d, err := plan(p, r, long, cross, o)
	if err != nil {
		return err
	}
	b := newBoard(nil)
	paper, err := NewPDF(Meta{
		Title: b.clean(p.Title), Author: b.clean(p.Sheet.DrawnBy), Subject: Status,
		Producer: o.Version, Date: date, Plain: o.Plain,
	})
	if err != nil {
		return err
	}
	if err := d.draw(paper); err != nil {
		return err
	}
	return paper.Finish(w)
}

// document is a hand-out with everything decided but where the tables go.
type document struct {
	c      *content
	size   Size
	fig    *arrangement
	legend table
	// Height of letters of the tables, on the first sheet and on the others.
	cap, furtherCap float64
	sheets          int
	notes           []string
}

// plan decides scale, letter height and number of sheets.
func plan(p *model.Project, r *assess.Result, long, cross *section.View, o Options) (*document, error) {
	if p == nil || r == nil || long == nil || cross == nil {
		return nil, fmt.Errorf("sheet: project, result and both sections are needed")
	}
	size, err := SizeNamed(o.Size)
	if err != nil {
		return nil, err
	}
	o.Size = size.Name
	if o.Scene == nil {
		o.Scene = ownScene(p, r, o)
	}
	views := []*section.View{long, cross}
	for i, v := range views {
		if views[i], err = crop(v); err != nil {
			return nil, err
		}
	}
	d := &document{c: &content{p: p, r: r, long: long, cross: cross, o: o}, size: size}
	field := d.field(d.leastBand())
	if d.fig, err = arrange(views, o.Scene, d.c.feet(), field.w, field.h); err != nil {
		return nil, err
	}
	if d.legend, err = d.c.legend(d.fig.figs, o.Scene); err != nil {
		return nil, err
	}
	d.notes = d.findNotes()
	return d, d.fitLetters()
}

// fitLetters takes the largest letters for the tables with which all of them
// stand on the first sheet; where none does so, the least there, and on the
// further sheets the largest that need no more of them.
func (d *document) fitLetters() error {
	for _, d.cap = range []float64{capBody, 2.25, capLeast} {
		if err := d.count(); err != nil || d.sheets == 1 {
			return err
		}
	}
	least := d.sheets
	for _, d.furtherCap = range []float64{capBody, 2.25, capLeast} {
		if err := d.count(); err != nil || d.sheets <= least {
			return err
		}
	}
	return nil
}

// count finds how many sheets it takes.
func (d *document) count() error {
	rec := &Recorder{}
	d.sheets = 1
	err := d.draw(rec)
	d.sheets = len(rec.Pages)
	return err
}

// findNotes says what the drawing could not show.
func (d *document) findNotes() []string {
	var out []string
	for _, f := range d.fig.figs {
		if len(f.sc.Lost) > 0 {
			head, _ := f.caption()
			out = append(out, head+", no room at this scale for: "+strings.Join(f.sc.Lost, "; "))
		}
	}
	d.cap, d.furtherCap, d.sheets = capLeast, capLeast, 1
	b := newBoard(&Recorder{})
	d.lay(b)
	if lost := b.lostSigns(); len(lost) > 0 {
		s := "Signs that the typeface lacks, printed as ?:"
		for _, r := range lost {
			s += fmt.Sprintf(" U+%04X", r)
		}
		out = append(out, s)
	}
	return out
}

// draw puts the whole document on paper.
func (d *document) draw(p Paper) error {
	b := newBoard(p)
	d.lay(b)
	return b.err
}
