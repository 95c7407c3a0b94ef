package sketch

import "fmt"

// Tool is what the pointer does.
type Tool int

// The tools.
const (
	Select      Tool = iota // take hold of things and move them
	DrawGround              // add points to the ground line
	DrawStratum             // add points to the top of a soil
	AddWater                // note where water was seen
	PlaceBox                // put the box in its place
	PanTool                 // move the paper
)

// toolInfo is how a tool is called, its key and what the status line says.
type toolInfo struct {
	name string
	key  rune
	help string
}

var toolInfos = [...]toolInfo{
	Select:      {"Select and move", 's', "Drag a handle or the box; drag the paper to move it; Tab goes through the handles."},
	DrawGround:  {"Draw ground", 'g', "Click to add ground points, drag to move them; Backspace takes the last back, Enter or Esc ends."},
	DrawStratum: {"Draw soil boundary", 'b', "Click along the top of the lower soil, drag to move points; Backspace takes the last back, Enter or Esc ends."},
	AddWater:    {"Add observed water", 'w', "Click where water was seen; drag to move; Enter or Esc ends."},
	PlaceBox:    {"Place box", 'c', "Press where the front foot of the box shall stand and drag; Shift keeps it level or plumb; Enter or Esc ends."},
	PanTool:     {"Move the paper", 'p', "Drag to move the paper; the wheel zooms; Esc ends."},
}

// Tools lists all tools in the order of a toolbar.
func Tools() []Tool {
	out := make([]Tool, len(toolInfos))
	for i := range out {
		out[i] = Tool(i)
	}
	return out
}

// String is the name of the tool in words.
func (t Tool) String() string {
	if t < 0 || int(t) >= len(toolInfos) {
		return fmt.Sprintf("tool %d", int(t))
	}
	return toolInfos[t].name
}

// Key is the letter that chooses the tool while a board has the focus.
func (t Tool) Key() rune { return toolInfos[t].key }

// OnLong says whether the tool works on the long section only: the site is
// drawn there and the cross section follows from it.
func (t Tool) OnLong() bool {
	return t == DrawGround || t == DrawStratum || t == AddWater
}

// Tool is the tool in hand.
func (b *Board) Tool() Tool { return b.tool }

// SetTool takes another tool in hand. A tool of the long section leaves the
// cross section with Select, and says so.
func (b *Board) SetTool(t Tool) {
	if t < 0 || int(t) >= len(toolInfos) {
		panic(fmt.Sprintf("sketch: no tool %d", int(t)))
	}
	if b.kind != LongSection && t.OnLong() {
		b.problem(fmt.Errorf("%s: the site is drawn in the long section; the cross section follows from it", t))
		t = Select
	}
	b.cancel()
	b.stratum = ""
	changed := t != b.tool
	b.tool = t
	if changed && b.project != nil {
		b.takeHandles()
	}
	if changed && b.opts.OnToolChanged != nil {
		b.opts.OnToolChanged(t)
	}
	b.status()
	b.overlay.place()
}

// SetSoil chooses the soil under the next boundary that is drawn, by its id;
// "" takes the first soil that no stratum uses yet.
func (b *Board) SetSoil(id string) { b.soil = id }

// ContinueStratum takes the tool for boundaries in hand to add points to the
// top of a stratum that is there, by its id.
func (b *Board) ContinueStratum(id string) {
	b.SetTool(DrawStratum)
	b.stratum = id
}

// Help is the one line that says what can be done now.
func (b *Board) Help() string {
	h := b.handle(b.selected)
	if b.tool != Select || h == nil {
		return b.tool.String() + ": " + toolInfos[b.tool].help + " Alt or Ctrl: no snapping. Wheel, + and - or Page keys zoom, F fits."
	}
	text := h.Label + ": " + b.numbers(h) + ". Arrows move it (Shift: ten times), Enter types a value"
	if h.Removable() {
		text += ", Delete removes it"
	}
	return text + ", Tab goes to the next, Esc lets go."
}

// numbers writes what a handle stands for.
func (b *Board) numbers(h *Handle) string {
	text := ""
	for i, v := range h.Values {
		if i > 0 {
			text += ", "
		}
		if len(h.Values) > 1 {
			text += lower(v.Label) + " "
		}
		text += b.src.Format(v.Now, v.Kind)
	}
	return text
}
