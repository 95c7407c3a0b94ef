package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"hillset/ui/scene"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// toolRow is the row of tools above the drawing, with undo, units and look,
// and below it the layers.
type toolRow struct {
	w          *Window
	tools      map[sketch.Tool]*chip
	undo, redo *chip
	units      [2]*chip
	looks      map[scene.Look]*chip
	shown      map[showing]*chip
	layers     []*widget.Check
	lines      map[scene.Layer]*widget.Check // of what the steel does
	water      map[scene.Layer]*widget.Check // of the computed water
	box        *fyne.Container
}

// shortNames are what stands on the buttons of the tools; the status line says
// the rest.
var shortNames = map[sketch.Tool]string{
	sketch.Select: "Select", sketch.DrawGround: "Ground", sketch.DrawStratum: "Soil line",
	sketch.AddWater: "Water", sketch.PlaceBox: "Box", sketch.PanTool: "Paper",
}

// layer is one layer with its name on the toggle.
type layer struct {
	of   scene.Layer
	name string
}

// offered are the layers that can be hidden; ground, box and frame always
// show.
var offered = []layer{
	{scene.Fills, "Fill"}, {scene.Water, "Water"}, {scene.Pressures, "Pressures"}, {scene.Dims, "Dimensions"},
	{scene.Levels, "Levels"}, {scene.Slopes, "Batters"}, {scene.Callouts, "Callouts"}, {scene.Verdicts, "Verdicts"},
	{scene.SlipLine, "Slip line"},
}

// steelLines are the layers of what the steel does, which are off at first, each
// with its letter.
var steelLines = []struct {
	layer
	key rune
}{
	{layer{scene.Deformed, "Deformed D"}, 'd'}, {layer{scene.MomentLines, "Moments M"}, 'm'}, {layer{scene.ThrustLines, "Thrusts T"}, 't'},
}

// waterLines are the layers of the computed water, which are off at first: they
// fill the ground.
var waterLines = []layer{{scene.Flow, "Flow lines"}, {scene.Heads, "Heads"}, {scene.Mesh, "Mesh"}}

// allLayers shows everything that is not asked for by name.
func allLayers() map[scene.Layer]bool {
	on := map[scene.Layer]bool{scene.Ground: true, scene.BoxLayer: true, scene.Frame: true}
	for _, l := range offered {
		on[l.of] = true
	}
	return on
}

func newToolRow(w *Window) *toolRow {
	t := &toolRow{w: w, tools: map[sketch.Tool]*chip{}, looks: map[scene.Look]*chip{}, shown: map[showing]*chip{}, lines: map[scene.Layer]*widget.Check{}, water: map[scene.Layer]*widget.Check{}}
	var tools []fyne.CanvasObject
	for _, tool := range sketch.Tools() {
		c := newChip(shortNames[tool]+" "+strings.ToUpper(string(tool.Key())), func() { w.takeTool(tool) })
		t.tools[tool] = c
		tools = append(tools, c)
	}
	t.undo, t.redo = newChip("Undo", w.undo), newChip("Redo", w.redo)
	view := []fyne.CanvasObject{
		newChip("Fit F", func() { w.inView().Fit() }), newChip("+", func() { w.inView().ZoomIn() }), newChip("−", func() { w.inView().ZoomOut() }),
		t.undo, t.redo,
	}
	top := append(append(tools, spacer()), append(view, t.switches()...)...)
	var below []fyne.CanvasObject
	for _, l := range offered {
		c := widget.NewCheck(l.name, func(on bool) { w.showLayer(l.of, on) })
		c.Checked = true
		t.layers = append(t.layers, c)
		below = append(below, c)
	}
	for _, l := range waterLines {
		c := widget.NewCheck(l.name, func(on bool) { w.showLayer(l.of, on) })
		t.water[l.of] = c
		below = append(below, c)
	}
	for _, l := range steelLines {
		c := widget.NewCheck(l.name, func(on bool) { w.showLayer(l.of, on); w.portraits(); w.helpAgain() })
		t.lines[l.of] = c
		below = append(below, c)
	}
	below = append(below, spacer())
	for _, s := range shownWays {
		t.shown[s.of] = newChip(s.name, func() { w.showSections(s.of) })
		below = append(below, t.shown[s.of])
	}
	t.box = container.New(&inset{6, 3}, container.New(&column{gap: 2},
		container.New(&wrapped{gap: 3}, top...), container.New(&wrapped{gap: 0}, below...)))
	return t
}

// turnOn shows a layer that is off at first; false when there is none.
func (t *toolRow) turnOn(l scene.Layer) bool {
	c := t.lines[l]
	if c == nil {
		c = t.water[l]
	}
	if c == nil {
		return false
	}
	c.SetChecked(true)
	return true
}

// switches are the buttons for units and look.
func (t *toolRow) switches() []fyne.CanvasObject {
	w := t.w
	out := []fyne.CanvasObject{spacer()}
	for i, name := range []string{"m", "ft"} {
		t.units[i] = newChip(name, func() { w.desk.SetUnits(units.System(i)) })
		out = append(out, t.units[i])
	}
	out = append(out, spacer())
	for _, l := range shownLooks {
		t.looks[l] = newChip(sentence(string(l)), func() { w.setLook(l) })
		out = append(out, t.looks[l])
	}
	return out
}

// shownLooks are the looks that a screen can have.
var shownLooks = []scene.Look{scene.Light, scene.Dark, scene.Daylight}

// spacer keeps groups apart.
func spacer() fyne.CanvasObject { return container.New(&exactly{5}, widget.NewLabel("")) }

func (t *toolRow) object() fyne.CanvasObject { return t.box }

// show brings the buttons up to the desk.
func (t *toolRow) show() {
	d := t.w.desk
	for tool, c := range t.tools {
		c.press(tool == t.w.active.Tool())
	}
	_, can := d.CanUndo()
	t.undo.enable(can)
	_, can = d.CanRedo()
	t.redo.enable(can)
	for i, c := range t.units {
		c.press(d.Units() == units.System(i))
	}
	for s, c := range t.shown {
		c.press(s == t.w.set.Sections)
	}
	for l, c := range t.looks {
		c.press(l == t.w.set.Look)
	}
}

// takeTool takes a tool in hand on both boards, or on the long section alone
// when it works only there.
func (w *Window) takeTool(t sketch.Tool) {
	b := w.active
	if t.OnLong() {
		b = w.long
		if w.set.Sections == crossOnly {
			w.showSections(bothSections)
		}
	}
	if w.set.Sections == panelsOnly {
		w.showSections(bothSections)
	}
	b.SetTool(t)
	w.active = b
	w.win.Canvas().Focus(b)
	w.tools.show()
}

// toolChanged carries a tool over to the other board; the tools of the site
// stay on the long section.
func (w *Window) toolChanged(b *sketch.Board, t sketch.Tool) {
	if w.carrying || b == nil || w.tools == nil {
		return
	}
	other := w.long
	if b == w.long {
		other = w.cross
	}
	if other == w.cross && t.OnLong() {
		t = sketch.Select
	}
	w.carrying = true
	other.SetTool(t)
	w.carrying = false
	w.active = b
	w.status.help(b.Help())
	w.tools.show()
}

// showLayer shows or hides a layer in both sections.
func (w *Window) showLayer(l scene.Layer, on bool) {
	w.layers[l] = on
	for _, b := range []*sketch.Board{w.long, w.cross} {
		b.SetLayers(w.layers)
	}
}

// undo takes the last edit back and says what it was.
func (w *Window) undo() { w.stepBack(w.desk.Undo, "Undone: ", "There is nothing to undo.") }

// redo makes it again.
func (w *Window) redo() { w.stepBack(w.desk.Redo, "Done again: ", "There is nothing to redo.") }

func (w *Window) stepBack(f func() (string, bool), done, nothing string) {
	what, ok := f()
	if !ok {
		w.status.say(nothing)
		return
	}
	w.problem("")
	w.status.say(done + lowerFirst(what))
}
