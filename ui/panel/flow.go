package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// flow is a text that breaks into lines at the width it is given and is then
// exactly as tall as its lines: no padding, so that it stands where it is put.
type flow struct {
	widget.BaseWidget
	text   string
	size   fyne.ThemeSizeName
	colour fyne.ThemeColorName
	style  fyne.TextStyle
	most   int // lines shown; 0 is all. The last one ends in an ellipsis.

	lines []string
	width float32 // that lines were broken for
	shown []*canvas.Text
}

func newFlow(text string) *flow {
	f := &flow{text: text, size: theme.SizeNameText, colour: theme.ColorNameForeground}
	f.ExtendBaseWidget(f)
	return f
}

// caption makes the text small and quiet.
func (f *flow) caption() *flow {
	f.size, f.colour = theme.SizeNameCaptionText, theme.ColorNamePlaceHolder
	return f
}

// strong makes the text bold.
func (f *flow) strong() *flow { f.style.Bold = true; return f }

// sized takes a size of the theme.
func (f *flow) sized(n fyne.ThemeSizeName) *flow { f.size = n; return f }

// atMost keeps the text within n lines.
func (f *flow) atMost(n int) *flow { f.most = n; return f }

// set changes the text; it is true when that changed the number of lines.
func (f *flow) set(text string) bool {
	if text == f.text {
		return false
	}
	n := len(f.lines)
	f.text = text
	f.lay()
	f.Refresh()
	return len(f.lines) != n
}

// paint changes the colour.
func (f *flow) paint(n fyne.ThemeColorName) {
	if f.colour != n {
		f.colour = n
		f.Refresh()
	}
}

// pitch is the height of a line.
func (f *flow) pitch() float32 {
	return fyne.MeasureText("Ag", theme.Size(f.size), f.style).Height
}

// lay breaks the text for the present width.
func (f *flow) lay() {
	f.lines = broken(f.text, f.width, theme.Size(f.size), f.style)
	if f.most > 0 && len(f.lines) > f.most {
		last := strings.Join(f.lines[f.most-1:], " ")
		f.lines = append(f.lines[:f.most-1:f.most-1], fitted(last, f.width, theme.Size(f.size), f.style))
	}
}

// Resize breaks the text for the new width.
func (f *flow) Resize(s fyne.Size) {
	if s.Width != f.width {
		f.width = s.Width
		f.lay()
		f.BaseWidget.Resize(s)
		f.Refresh()
		return
	}
	f.BaseWidget.Resize(s)
}

// MinSize is the height of the lines at the present width.
func (f *flow) MinSize() fyne.Size {
	if f.text == "" {
		return fyne.NewSize(1, 0)
	}
	return fyne.NewSize(1, f.pitch()*float32(max(1, len(f.lines))))
}

// CreateRenderer is called by the toolkit.
func (f *flow) CreateRenderer() fyne.WidgetRenderer { return &flowRenderer{f} }

type flowRenderer struct{ f *flow }

func (r *flowRenderer) Layout(fyne.Size)   { r.place() }
func (r *flowRenderer) MinSize() fyne.Size { return r.f.MinSize() }
func (r *flowRenderer) Destroy()           {}
func (r *flowRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(r.f.shown))
	for i, t := range r.f.shown {
		out[i] = t
	}
	return out
}

// Refresh takes text, size and colour of the theme as they are now.
func (r *flowRenderer) Refresh() {
	r.f.lay()
	r.place()
	canvas.Refresh(r.f)
}

func (r *flowRenderer) place() {
	f := r.f
	for len(f.shown) < len(f.lines) {
		f.shown = append(f.shown, canvas.NewText("", nil))
	}
	f.shown = f.shown[:len(f.lines)]
	colour, size, pitch := theme.Color(f.colour), theme.Size(f.size), f.pitch()
	for i, line := range f.lines {
		t := f.shown[i]
		t.Text, t.Color, t.TextSize, t.TextStyle = line, colour, size, f.style
		t.Move(fyne.NewPos(0, float32(i)*pitch))
		t.Resize(fyne.NewSize(f.width, pitch))
		t.Refresh()
	}
}

// broken breaks a text into lines of at most width: at spaces where it can,
// else within the word. Lines of their own in the text stay so.
func broken(text string, width, size float32, style fyne.TextStyle) []string {
	wide := func(s string) bool { return fyne.MeasureText(s, size, style).Width > width }
	var out []string
	for _, para := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(para) {
			if line != "" && wide(line+" "+word) {
				out = append(out, line)
				line = ""
			}
			if line != "" {
				line += " "
			}
			line += word
			for width > 0 && wide(line) && len([]rune(line)) > 1 {
				n := whatFits(line, wide)
				out = append(out, string([]rune(line)[:n]))
				line = string([]rune(line)[n:])
			}
		}
		out = append(out, line)
	}
	return out
}

// whatFits is how many letters of a text are not too wide, at least one.
func whatFits(text string, wide func(string) bool) int {
	r := []rune(text)
	lo, hi := 1, len(r)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if wide(string(r[:mid])) {
			hi = mid - 1
		} else {
			lo = mid
		}
	}
	return lo
}

// fitted cuts a text short with an ellipsis where it is wider than width.
func fitted(text string, width, size float32, style fyne.TextStyle) string {
	wide := func(s string) bool { return fyne.MeasureText(s, size, style).Width > width }
	if !wide(text) || text == "" {
		return text
	}
	n := whatFits(text, func(s string) bool { return wide(s + "…") })
	return strings.TrimRight(string([]rune(text)[:n]), " ,;") + "…"
}
