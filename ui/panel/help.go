package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"hillset/ui/sheet"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// containerOf is a container with a layout.
func containerOf(l fyne.Layout, objs ...fyne.CanvasObject) *fyne.Container {
	return container.New(l, objs...)
}

// tellText shows a long text with headings.
func (w *Window) tellText(title string, parts []part) {
	body := container.New(&column{gap: 5})
	for _, p := range parts {
		body.Add(p.object())
	}
	scroll := container.NewVScroll(container.New(&barRoom{}, body))
	d := dialog.NewCustomWithoutButtons(title, container.New(&scrolled{scroll}, scroll), w.win)
	shut := w.newReply("Close", true, d.Hide)
	d.SetButtons([]fyne.CanvasObject{shut})
	d.Resize(fyne.NewSize(min(680, w.win.Canvas().Size().Width-60), w.win.Canvas().Size().Height-80))
	w.present(d)
	w.win.Canvas().Focus(shut)
}

// keysDialog lists the keys.
func (w *Window) keysDialog() {
	var tools []string
	for _, t := range sketch.Tools() {
		tools = append(tools, strings.ToUpper(string(t.Key()))+": "+lowerFirst(t.String()))
	}
	w.tellText("Keys", []part{
		{head: true, text: "On the drawing"},
		{text: strings.Join(tools, "\n")},
		{text: strings.Join([]string{
			"F: fit the whole section; once more: the works alone", "+, −, wheel: zoom",
			"Space and drag, or another button of the mouse: move the paper",
			"D, M, T: deformed shape, moments, thrusts of the steel", "Arrows: move what is selected (with Shift ten times as far), else the paper",
			"Tab, Home, End: go through the handles", "Enter or a digit: type the value of the selected handle",
			"Delete: remove it; Backspace: take back the last point drawn",
			"Alt or Ctrl while drawing: no snapping; Shift: level or plumb",
			"Esc: take back the drag, end the tool, let go", "F6: leave the drawing"}, "\n")},
		{head: true, text: "Everywhere"},
		{text: strings.Join([]string{
			"Ctrl+1 to Ctrl+9, Ctrl+0: pages 1 to 10, with the keys in their first field; Ctrl+L: limits; Ctrl+D: advice; Ctrl+F: flows; Ctrl+I: what if; Ctrl+K: climate and air", "On page 9, Up and Down go through the checks, PageUp and PageDown through the working", "Ctrl+G: to the next step that the strip on top names", "Ctrl+PageUp, Ctrl+PageDown: stage before, stage after",
			"Ctrl+Z: undo; Ctrl+Y or Ctrl+Shift+Z: redo", "Alt+1: both sections; Alt+2: the long one alone; Alt+3: the cross section alone; Alt+4: the box folded flat", "Ctrl+U: metres or feet", "Ctrl+. and Ctrl+,: larger or smaller letters",
			"Ctrl+N: new; Ctrl+O: open; Ctrl+S: save; Ctrl+Shift+S: save as", "Ctrl+E: export the PDF; Ctrl+Q: quit",
			"Tab, Shift+Tab: next and previous field; Alt: the menus"}, "\n")},
		{head: true, text: "In a field"},
		{text: "Enter or leaving the field takes the value (Shift+Enter in a table); Esc takes it back. Any unit may be typed: 1.93 m, 193 cm, 6'4\", 76 in, 1.5:1, 34°, 2 %."},
	})
}

// cautions are what everybody who uses the program should have read.
var cautions = []string{
	"A shipping container is built to be carried by its corners and stacked. Its walls and roof are thin sheets that were never meant to hold earth: a bare box under earth or water is beyond its limits in most soils.",
	"The program checks what it lists on page 9 and nothing else. What is not checked may still fail. Within limits means that the checks that were made hold for the numbers you gave.",
	"Values of soils are tables, not your hill. A soil that was not dug up and looked at is a guess.",
	"The water level is the one you give. One wet winter or one blocked drain can raise it.",
	"Open cuts kill. Keep out of a cut that is steeper than the law allows, and out from under an unsupported face.",
	sheet.Status + ".",
}

// aboutDialog says what the program is, with its cautions and limits.
func (w *Window) aboutDialog() {
	parts := []part{{head: true, text: Version}, {text: "A sketcher for letting a steel shipping container into a hillside, with the checks that go with it. It works without a network and keeps everything on this computer."}, {head: true, text: "Cautions"}}
	for _, c := range cautions {
		parts = append(parts, part{text: "• " + c})
	}
	if r := w.desk.Result(); r != nil && len(r.Assumed) > 0 {
		parts = append(parts, part{head: true, text: "Taken for granted in this project"})
		for _, a := range units.SayAll(r.Assumed, w.desk.Units()) {
			parts = append(parts, part{text: "• " + a})
		}
	}
	w.tellText("About Hillset", parts)
}

// otherUnits switches between metres and feet.
func (w *Window) otherUnits() { w.desk.SetUnits(1 - w.desk.Units()) }
