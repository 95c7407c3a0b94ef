// Package sheet puts the sections of a project on paper: the same scenes as
// the screen shows, at one standard scale, with title block, levels, legend,
// check summary and cautions.
//
// Lengths on paper are millimetres from the top left corner of the sheet, y
// down. The library that writes the file is known to one source file only;
// everything else draws through Paper.
package sheet

import (
	"errors"
	"fmt"
	"image/color"
	"io"
	"math"

	"hillset/geom"
	"hillset/ui/face"
)

// Paper takes a drawing, item by item. Every item carries its whole style and
// its layer, so that nothing depends on what was drawn before it.
type Paper interface {
	// Page starts a page of the given width and height, mm.
	Page(w, h float64) error
	// Path draws lines or areas on the page.
	Path(p Path) error
	// Text draws one line of text on the page.
	Text(t Text) error
	// Finish ends the document and writes it. Nothing can be drawn after it.
	Finish(w io.Writer) error
}

// Path is lines, or areas filled by the even-odd rule, with one style.
type Path struct {
	Tag    string // what it is, named in errors
	Layer  string // layer of the document; empty for none
	Parts  []geom.Polyline
	Closed bool       // parts are rings
	Fill   color.RGBA // alpha 0 is no fill
	Stroke color.RGBA // alpha 0 is no line
	Width  float64    // of the line, mm
	Dash   []float64  // mm on, mm off, ...; nil for a full line
}

// Text is one line of text from its baseline start.
type Text struct {
	Tag   string
	Layer string
	X, Y  float64 // baseline start, mm
	Text  string
	Cap   float64 // height of a capital, mm
	Bold  bool
	Angle float64 // rad, anticlockwise as seen on the sheet
	Ink   color.RGBA
}

// ptPerMM is the number of PostScript points in a millimetre.
const ptPerMM = 72 / 25.4

// FontPoints is the body size, in points, whose capitals are capMM
// millimetres high.
func FontPoints(capMM float64) float64 { return capMM / face.CapPerEm * ptPerMM }

// check refuses numbers that no page can hold, naming the item.
func (p Path) check() error {
	if !finite(p.Width) || p.Width < 0 {
		return fmt.Errorf("sheet: path %q: line width is %g mm", p.Tag, p.Width)
	}
	if err := errors.Join(checkDash(p.Dash), checkInk(p.Fill, p.Stroke)); err != nil {
		return fmt.Errorf("sheet: path %q: %w", p.Tag, err)
	}
	for i, part := range p.Parts {
		for j, v := range part {
			if !finite(v[0]) || !finite(v[1]) {
				return fmt.Errorf("sheet: path %q: point %d of part %d is (%g, %g)", p.Tag, j, i, v[0], v[1])
			}
		}
	}
	return nil
}

func checkDash(dash []float64) error {
	sum := 0.0
	for _, d := range dash {
		if !finite(d) || d < 0 {
			return fmt.Errorf("dash is %g mm", d)
		}
		sum += d
	}
	if len(dash) > 0 && sum == 0 {
		return fmt.Errorf("dashes have no length")
	}
	return nil
}

func (t Text) check() error {
	if !finite(t.X) || !finite(t.Y) || !finite(t.Angle) {
		return fmt.Errorf("sheet: text %q %q: placed at (%g, %g), angle %g", t.Tag, t.Text, t.X, t.Y, t.Angle)
	}
	if !finite(t.Cap) || t.Cap <= 0 {
		return fmt.Errorf("sheet: text %q %q: capital height is %g mm", t.Tag, t.Text, t.Cap)
	}
	if err := checkInk(t.Ink); err != nil {
		return fmt.Errorf("sheet: text %q %q: %w", t.Tag, t.Text, err)
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// checkInk refuses half-transparent ink: old printers turn such pages into
// coarse pictures.
func checkInk(inks ...color.RGBA) error {
	for _, c := range inks {
		if c.A != 0 && c.A != 255 {
			return fmt.Errorf("ink %v is half transparent", c)
		}
	}
	return nil
}
