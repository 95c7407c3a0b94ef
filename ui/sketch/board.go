package sketch

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
)

var (
	_ fyne.Focusable     = (*Board)(nil)
	_ fyne.Tabbable      = (*Board)(nil)
	_ fyne.Shortcutable  = (*Board)(nil)
	_ fyne.Draggable     = (*Board)(nil)
	_ fyne.Scrollable    = (*Board)(nil)
	_ desktop.Keyable    = (*Board)(nil)
	_ desktop.Mouseable  = (*Board)(nil)
	_ desktop.Hoverable  = (*Board)(nil)
	_ desktop.Cursorable = (*Board)(nil)
)

// Options say how a board looks and whom it tells.
type Options struct {
	Palette scene.Palette // empty takes the light look
	Letters float64       // scale of letters and signs; 0 is 1
	// OnStatus gets the one line of help for what can be done now.
	OnStatus func(text string)
	// OnProblem gets what stands in the way, in words; "" when nothing does.
	OnProblem func(text string)
	// OnToolChanged follows the tool, however it was chosen.
	OnToolChanged func(Tool)
	// OnLetter gets a letter that the board has no use for.
	OnLetter func(rune)
	// OnSelected follows the selected handle; "" for none.
	OnSelected func(id string)
	// OnPointer follows the pointer over the section, m; inside is false when
	// it has left.
	OnPointer func(at geom.Vec, inside bool)
}

// Board shows a section and lets it be changed. Make one with New or NewBoard.
type Board struct {
	widget.BaseWidget
	src  Source
	kind Kind
	opts Options

	palette scene.Palette
	letters float64

	// What is shown.
	cam      camera
	camSet   bool    // the user has chosen the window; it no longer fits itself
	toWhole  bool    // fitted to the whole section, not to the works
	natural  bool    // fitted to the hill as found
	fitAt    float64 // station of the cross section last fitted
	view     *section.View
	viewErr  error
	project  *model.Project // that view and handles were made from
	handles  []Handle
	raster   *canvas.Raster
	pic      picture
	built    bool
	builtAt  float64 // mmPerM
	builtFor geom.Rect
	panning  bool
	moves    int
	overlay  *overlay

	// What is being done.
	tool      Tool
	stratum   string // id of the boundary that is being drawn
	soil      string // id of the soil for a new stratum
	selected  string // id of a handle
	hover     string
	nearby    uint64 // which handles the pointer is near to
	drag      *drag
	space     bool // the space bar is held: the pointer moves the paper
	pointer   fyne.Position
	inside    bool
	focused   bool
	clicked   string // handle of the last click, for double ones
	clickedAt time.Time
	entry     *entryPanel
	nudging   string // handle that arrow keys are moving
	nudge     string // names that step of undo
	gesture   int    // numbers gestures, so that two never merge

	onDesk *deskSource // nil for a board over another source
	close  func()

	// modifiers asks for the modifier keys held now; after runs a function
	// later on the goroutine of the user interface.
	modifiers func() fyne.KeyModifier
	after     func(time.Duration, func())
}

// New makes a board over any source.
func New(src Source, kind Kind, o Options) *Board {
	b := &Board{src: src, kind: kind, opts: o, palette: o.Palette, letters: o.Letters, modifiers: heldModifiers, after: afterOnUI}
	if len(b.palette) == 0 {
		b.palette = scene.Colours(scene.Light)
	}
	if b.letters <= 0 {
		b.letters = 1
	}
	b.raster = canvas.NewRaster(b.generate)
	b.overlay = newOverlay(b)
	b.ExtendBaseWidget(b)
	b.reload()
	return b
}

// heldModifiers asks the driver; events of the pointer do not tell.
func heldModifiers() fyne.KeyModifier {
	if a := fyne.CurrentApp(); a != nil {
		if d, ok := a.Driver().(desktop.Driver); ok {
			return d.CurrentKeyModifiers()
		}
	}
	return 0
}

// ModelChanged shows the project as it is now. Call it when the project, the
// stage, the station or the units changed.
func (b *Board) ModelChanged() {
	b.reload()
	b.Redraw()
}

// ResultReady shows the results as they are now: pressures and verdicts.
func (b *Board) ResultReady() { b.Redraw() }

// Redraw builds the scene anew: after a change of what the source draws, such
// as the layers shown.
func (b *Board) Redraw() {
	b.built = false
	b.repaint()
	b.overlay.place()
}

// SetPalette changes the colours.
func (b *Board) SetPalette(p scene.Palette) {
	b.palette, b.pic.fresh = p, false
	b.overlay.restyle()
	b.Redraw()
}

// SetLetters changes the scale of letters and signs on the screen.
func (b *Board) SetLetters(k float64) {
	if k > 0 {
		b.letters = k
		b.Redraw()
	}
}

// reload takes view and handles from the source.
func (b *Board) reload() {
	p := b.src.Project()
	had := b.view != nil
	b.project = p
	b.view, b.viewErr = b.src.View()
	if b.viewErr != nil {
		b.view = nil
	}
	b.takeHandles()
	if !b.camSet && (had != (b.view != nil) || b.view != nil && b.strange(b.view)) {
		b.fit()
	}
}

// takeHandles lists what can be taken hold of with the tool in hand.
func (b *Board) takeHandles() {
	if b.kind == LongSection {
		b.handles = LongHandles(b.project, b.view)
		if !b.tool.OnLong() {
			b.handles = outsideBox(b.handles, b.view)
		}
	} else {
		b.handles = CrossHandles(b.project, b.view)
	}
	if b.selected != "" && b.handle(b.selected) == nil {
		b.choose("")
	}
}

// strange tells whether a view is so unlike the one last fitted that it would
// not lie in the window: the bare hill, or another station, where the cut is
// wider or narrower.
func (b *Board) strange(v *section.View) bool {
	return b.natural != isNatural(v) || b.kind == CrossSection && b.fitAt != v.Station
}

// handle finds a handle by its id.
func (b *Board) handle(id string) *Handle {
	for i := range b.handles {
		if b.handles[i].ID == id {
			return &b.handles[i]
		}
	}
	return nil
}

// Handles are what can be taken hold of now.
func (b *Board) Handles() []Handle { return b.handles }

// Selected is the id of the selected handle, "" for none.
func (b *Board) Selected() string { return b.selected }

// Select chooses a handle by its id; an unknown id chooses none.
func (b *Board) Select(id string) {
	if b.handle(id) == nil {
		id = ""
	}
	b.choose(id)
	b.overlay.place()
}

func (b *Board) choose(id string) {
	if id == b.selected {
		return
	}
	b.selected = id
	if b.opts.OnSelected != nil {
		b.opts.OnSelected(id)
	}
	b.status()
}

// Drawn lays out what the board shows now.
func (b *Board) Drawn() (*scene.Scene, error) {
	return b.sceneFor(b.cam.scale/(unitsPerMM*b.letters), b.cam.window(b.Size()))
}

// Why says what keeps the section from being drawn; nil when it is drawn.
func (b *Board) Why() error { return b.viewErr }

func (b *Board) problem(err error) {
	if b.opts.OnProblem == nil {
		return
	}
	if err == nil {
		b.opts.OnProblem("")
		return
	}
	b.opts.OnProblem(b.src.Explain(err))
}

func (b *Board) status() {
	if b.opts.OnStatus != nil {
		b.opts.OnStatus(b.Help())
	}
}

// edit changes the project and shows it at once; what goes wrong is told and
// changes nothing.
func (b *Board) edit(what, merge string, change func(*model.Project) error) bool {
	if err := b.src.Edit(what, merge, change); err != nil {
		b.problem(err)
		return false
	}
	b.problem(nil)
	b.follows()
	return true
}

// follows shows the project after an edit of the board's own, unless the news
// of it has come already.
func (b *Board) follows() {
	if b.src.Project() != b.project {
		b.ModelChanged()
	}
}

// MinSize leaves room for a drawing that can still be read.
func (b *Board) MinSize() fyne.Size {
	b.ExtendBaseWidget(b)
	return fyne.NewSize(240, 180)
}

// Resize keeps the drawing in the window until the user has chosen another
// part of it; then its upper left corner stays.
func (b *Board) Resize(s fyne.Size) {
	if s == b.Size() {
		return
	}
	b.BaseWidget.Resize(s)
	if !b.camSet {
		b.fit()
	}
	b.overlay.place()
}

// CreateRenderer is called by the toolkit.
func (b *Board) CreateRenderer() fyne.WidgetRenderer { return &boardRenderer{b} }

type boardRenderer struct{ b *Board }

func (r *boardRenderer) Layout(s fyne.Size) {
	r.b.raster.Resize(s)
	r.b.overlay.place()
}
func (r *boardRenderer) MinSize() fyne.Size { return fyne.NewSize(240, 180) }
func (r *boardRenderer) Refresh()           { r.b.Redraw() }
func (r *boardRenderer) Destroy()           {}
func (r *boardRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.b.raster}, r.b.overlay.objects...)
}
