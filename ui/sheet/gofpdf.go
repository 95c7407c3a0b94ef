package sheet

import (
	"fmt"
	"image/color"
	"io"
	"math"
	"strconv"
	"time"

	"hillset/assets"
	"hillset/geom"
	"hillset/ui/face"

	"github.com/jung-kurt/gofpdf"
)

// Meta is what a PDF file says about itself.
type Meta struct {
	Title, Author, Subject string
	Producer               string    // name and version of the program
	Date                   time.Time // of creation and of last change
	Plain                  bool      // leave the content readable: no compression
}

// family is the name under which the embedded faces are registered.
const family = "sheet"

// pdf is a Paper that writes a PDF file. Paths go out as bare operators in a
// q ... Q pair of their own, so that the library's memory of colours and
// widths never differs from the file's; fonts are set outside every such pair.
type pdf struct {
	doc    *gofpdf.Fpdf
	layers map[string]int
	layer  string
	h      float64 // height of the page, mm
	paged  bool
	done   bool
	buf    []byte
}

// NewPDF makes a Paper that writes a PDF file with the typeface embedded. It
// fails when the typeface cannot be used.
func NewPDF(m Meta) (Paper, error) {
	return newPDF(m, assets.Regular(), assets.Bold())
}

func newPDF(m Meta, regular, bold []byte) (Paper, error) {
	doc := gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "mm", Size: gofpdf.SizeType{Wd: 210, Ht: 297}})
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.SetCellMargin(0)
	doc.SetCatalogSort(true)
	doc.SetCreationDate(m.Date)
	doc.SetModificationDate(m.Date)
	doc.SetCompression(!m.Plain)
	doc.SetDisplayMode("fullpage", "single")
	doc.SetTitle(m.Title, true)
	doc.SetAuthor(m.Author, true)
	doc.SetSubject(m.Subject, true)
	doc.SetProducer(m.Producer, true)
	doc.SetCreator(m.Producer, true)
	for _, f := range []struct {
		style string
		ttf   []byte
	}{{"", regular}, {"B", bold}} {
		// The library reports a face that it cannot read on standard output
		// only, so the file's first bytes are looked at beforehand.
		if !trueType(f.ttf) {
			return nil, fmt.Errorf("sheet: typeface %q is not a TrueType file", f.style)
		}
		doc.AddUTF8FontFromBytes(family, f.style, f.ttf)
		doc.SetFont(family, f.style, 10)
	}
	if err := doc.Error(); err != nil {
		return nil, fmt.Errorf("sheet: typeface: %w", err)
	}
	return &pdf{doc: doc, layers: map[string]int{}}, nil
}

// trueType tells whether the bytes start as a TrueType file with outlines in
// a glyf table, which is the only kind that can be embedded here.
func trueType(b []byte) bool {
	return len(b) > 12 && b[0] == 0 && b[1] == 1 && b[2] == 0 && b[3] == 0
}

// Page implements Paper.
func (p *pdf) Page(w, h float64) error {
	if !finite(w) || !finite(h) || w <= 0 || h <= 0 {
		return fmt.Errorf("sheet: page of %g by %g mm", w, h)
	}
	p.setLayer("")
	// Always "P": with "L" the library swaps the two sides.
	p.doc.AddPageFormat("P", gofpdf.SizeType{Wd: w, Ht: h})
	p.h, p.paged = h, true
	return p.doc.Error()
}

func (p *pdf) ready(tag string) error {
	if p.done || !p.paged {
		return fmt.Errorf("sheet: item %q is drawn outside a page", tag)
	}
	return p.doc.Error()
}

func (p *pdf) setLayer(name string) {
	if name == p.layer {
		return
	}
	p.doc.EndLayer()
	p.layer = name
	if name == "" {
		return
	}
	id, ok := p.layers[name]
	if !ok {
		id = p.doc.AddLayer(name, true)
		p.layers[name] = id
	}
	p.doc.BeginLayer(id)
}

// Path implements Paper.
func (p *pdf) Path(path Path) error {
	if err := path.check(); err != nil {
		return err
	}
	if err := p.ready(path.Tag); err != nil {
		return err
	}
	op := paint(path)
	if op == "" || !hasPoints(path.Parts) {
		return nil
	}
	p.setLayer(path.Layer)
	p.buf = append(p.buf[:0], "q "...)
	p.style(path)
	for _, part := range path.Parts {
		p.part(part, path.Closed)
	}
	p.buf = append(p.buf, op...)
	p.buf = append(p.buf, "\nQ"...)
	p.doc.RawWriteStr(string(p.buf))
	return p.doc.Error()
}

func hasPoints(parts []geom.Polyline) bool {
	for _, part := range parts {
		if len(part) > 1 {
			return true
		}
	}
	return false
}

// paint is the painting operator; areas use the even-odd rule.
func paint(p Path) string {
	fill, line := p.Fill.A > 0 && p.Closed, p.Stroke.A > 0
	switch {
	case fill && line:
		return "B*"
	case fill:
		return "f*"
	case line:
		return "S"
	}
	return ""
}

func (p *pdf) style(path Path) {
	if path.Fill.A > 0 {
		p.ink("rg", path.Fill)
	}
	if path.Stroke.A == 0 {
		return
	}
	p.ink("RG", path.Stroke)
	p.nums("w", 4, path.Width*ptPerMM)
	p.buf = append(p.buf, "0 J 1 j "...) // butt ends, round corners
	if len(path.Dash) > 0 {
		p.buf = append(p.buf, '[')
		for _, d := range path.Dash {
			p.nums("", 3, d*ptPerMM)
		}
		p.buf = append(p.buf, "] 0 d "...)
	}
}

func (p *pdf) part(part geom.Polyline, closed bool) {
	if len(part) < 2 {
		return
	}
	op := "m"
	for _, v := range part {
		p.nums(op, 3, v[0]*ptPerMM, (p.h-v[1])*ptPerMM)
		op = "l"
	}
	if closed {
		p.buf = append(p.buf, "h "...)
	}
}

func (p *pdf) ink(op string, c color.RGBA) {
	p.nums(op, 3, float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
}

// nums appends numbers with the given number of decimals and an operator.
func (p *pdf) nums(op string, decimals int, vs ...float64) {
	for _, v := range vs {
		p.buf = strconv.AppendFloat(p.buf, v, 'f', decimals, 64)
		p.buf = append(p.buf, ' ')
	}
	if op != "" {
		p.buf = append(append(p.buf, op...), '\n')
	}
}

// Text implements Paper. Signs that the typeface does not have are refused:
// they must be replaced, and reported, before they come here.
func (p *pdf) Text(t Text) error {
	if err := t.check(); err != nil {
		return err
	}
	if err := p.ready(t.Tag); err != nil {
		return err
	}
	if t.Text == "" {
		return nil
	}
	if clean, _ := face.Clean(t.Text); clean != t.Text {
		return fmt.Errorf("sheet: text %q %q has signs outside the typeface", t.Tag, t.Text)
	}
	p.setLayer(t.Layer)
	weight := ""
	if t.Bold {
		weight = "B"
	}
	p.doc.SetFont(family, weight, FontPoints(t.Cap))
	p.doc.SetTextColor(int(t.Ink.R), int(t.Ink.G), int(t.Ink.B))
	if t.Angle == 0 {
		p.doc.Text(t.X, t.Y, t.Text)
		return p.doc.Error()
	}
	sin, cos := math.Sincos(t.Angle)
	p.buf = append(p.buf[:0], "q "...)
	p.nums("cm", 6, cos, sin, -sin, cos, t.X*ptPerMM, (p.h-t.Y)*ptPerMM)
	p.doc.RawWriteStr(string(p.buf))
	p.doc.Text(0, p.h, t.Text) // the origin of the turned axes
	p.doc.RawWriteStr("Q")
	return p.doc.Error()
}

// Finish implements Paper.
func (p *pdf) Finish(w io.Writer) error {
	if p.done || !p.paged {
		return fmt.Errorf("sheet: the document has no page or is finished already")
	}
	p.setLayer("")
	p.done = true
	if err := p.doc.Output(w); err != nil {
		return fmt.Errorf("sheet: writing the PDF file: %w", err)
	}
	return nil
}
