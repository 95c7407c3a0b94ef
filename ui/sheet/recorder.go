package sheet

import (
	"fmt"
	"image/color"
	"io"
	"strings"

	"hillset/geom"
)

// Recorder is a Paper that keeps what is drawn, for measuring and for tests.
// Finish writes the display list as text, one item per line.
type Recorder struct {
	Pages []RecordedPage
}

// RecordedPage is one page of a Recorder.
type RecordedPage struct {
	W, H  float64 // mm
	Paths []Path
	Texts []Text
	list  []string
}

// Page implements Paper.
func (r *Recorder) Page(w, h float64) error {
	if !finite(w) || !finite(h) || w <= 0 || h <= 0 {
		return fmt.Errorf("sheet: page of %g by %g mm", w, h)
	}
	r.Pages = append(r.Pages, RecordedPage{W: w, H: h})
	return nil
}

// Path implements Paper.
func (r *Recorder) Path(p Path) error {
	if err := p.check(); err != nil {
		return err
	}
	if len(r.Pages) == 0 {
		return fmt.Errorf("sheet: path %q before the first page", p.Tag)
	}
	pg := &r.Pages[len(r.Pages)-1]
	pg.Paths = append(pg.Paths, p)
	pg.list = append(pg.list, p.String())
	return nil
}

// Text implements Paper.
func (r *Recorder) Text(t Text) error {
	if err := t.check(); err != nil {
		return err
	}
	if len(r.Pages) == 0 {
		return fmt.Errorf("sheet: text %q before the first page", t.Tag)
	}
	pg := &r.Pages[len(r.Pages)-1]
	pg.Texts = append(pg.Texts, t)
	pg.list = append(pg.list, t.String())
	return nil
}

// Finish implements Paper.
func (r *Recorder) Finish(w io.Writer) error {
	for i, pg := range r.Pages {
		if _, err := fmt.Fprintf(w, "page %d %.1f x %.1f\n%s\n", i+1, pg.W, pg.H, strings.Join(pg.list, "\n")); err != nil {
			return fmt.Errorf("sheet: display list: %w", err)
		}
	}
	return nil
}

// String is the path as one line of a display list.
func (p Path) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "path %s layer=%q", p.Tag, p.Layer)
	if p.Fill.A > 0 {
		fmt.Fprintf(&b, " fill=%s", hex(p.Fill))
	}
	if p.Stroke.A > 0 {
		fmt.Fprintf(&b, " stroke=%s width=%.2f", hex(p.Stroke), p.Width)
	}
	if len(p.Dash) > 0 {
		fmt.Fprintf(&b, " dash=%v", p.Dash)
	}
	for _, part := range p.Parts {
		b.WriteString(partString(part, p.Closed))
	}
	return b.String()
}

func partString(part geom.Polyline, closed bool) string {
	var b strings.Builder
	b.WriteString(" [")
	for i, v := range part {
		if i > 0 {
			b.WriteByte(' ')
		}
		fmt.Fprintf(&b, "%.2f,%.2f", v[0], v[1])
	}
	if closed {
		b.WriteString(" z")
	}
	b.WriteByte(']')
	return b.String()
}

// String is the text as one line of a display list.
func (t Text) String() string {
	s := fmt.Sprintf("text %s layer=%q at=%.2f,%.2f cap=%.2f ink=%s", t.Tag, t.Layer, t.X, t.Y, t.Cap, hex(t.Ink))
	if t.Bold {
		s += " bold"
	}
	if t.Angle != 0 {
		s += fmt.Sprintf(" angle=%.4f", t.Angle)
	}
	return s + fmt.Sprintf(" %q", t.Text)
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
