package sheet

import (
	"fmt"
	"io"
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
	// Layers are those drawn; nil takes Handout, with Verdicts where there is
	// room for them.
	Layers map[scene.Layer]bool
	Also   []scene.Layer // drawn besides them; see WaterNamed
	Scene  SceneFunc     // draws the sections; nil takes the program's own drawing
	// Structure adds the sheets of the structure; nil leaves them out.
	Structure *Structure
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

// document is a hand-out with everything decided.
type document struct {
	c     *content
	size  Size
	views []*section.View
	// first is the first sheet, and fig what is drawn on it.
	first  *firstSheet
	fig    *arrangement
	legend table
	// furtherCap is the height of letters on the further sheets.
	furtherCap float64
	sheets     int
	lost       map[rune]bool // signs that texts outside the drawing lack
}

// plan decides scale, arrangement, letter heights and number of sheets.
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
	d := &document{
		c:    &content{p: p, r: r, long: long, cross: cross, o: o, marks: map[string]zoneSample{}},
		size: size, views: []*section.View{long, cross}, sheets: 1,
	}
	if err := d.choose(); err != nil {
		return nil, err
	}
	return d, d.fitLetters()
}

// fitLetters takes the largest letters for the further sheets that need no
// more of them than the least letters do.
func (d *document) fitLetters() error {
	least := 0
	for _, d.furtherCap = range []float64{capLeast, capBody, 2.25, capLeast} {
		n, err := d.count()
		if err != nil {
			return err
		}
		if d.sheets = n; least == 0 {
			least = n
		} else if n <= least {
			return nil
		}
	}
	return nil
}

// count finds how many sheets it takes.
func (d *document) count() (int, error) {
	rec := &Recorder{}
	b := newBoard(rec)
	d.rest(b)
	return 1 + len(rec.Pages), b.err
}

// draw puts the whole document on paper.
func (d *document) draw(p Paper) error {
	b := newBoard(p)
	w, h := d.size.page(d.c.o.Landscape)
	d.begin(b, w, h)
	d.first.draw(b, d.sheets)
	d.rest(b)
	return b.err
}
