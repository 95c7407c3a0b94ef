package scene

import (
	"math"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/water"
	"hillset/geom"
	"hillset/ui/units"
)

// Line widths in mm on paper, of the series of ISO 128 (references/site.md
// section 5).
const (
	wHair   = 0.13 // signs of hatches
	wThin   = 0.18 // leaders, dimension lines
	wNarrow = 0.25
	wMid    = 0.35
	wGround = 0.5
	wHeavy  = 0.7 // cut outline, box, membranes
)

// Heights of capitals in mm on paper.
const (
	hNote  = 2.5 // the least that is read on a sheet
	hTitle = 3.5
)

// Line types, mm on and off.
var (
	dashLong  = []float64{6, 2}
	dashShort = []float64{2, 1.2}
	dashChain = []float64{8, 1.5, 1, 1.5}
)

// Shell is what the drawing needs of the make of the box, in m.
type Shell struct {
	Wall, Roof, Floor   float64 // depth of wall, roof and floor build-up
	CastL, CastW, CastH float64 // corner casting
}

// NominalShell is a common steel box: corrugated walls 36 mm deep, a floor of
// cross members and boards 170 mm deep, corner castings of ISO 1161
// (178 x 162 x 118 mm).
func NominalShell() Shell {
	return Shell{Wall: 0.045, Roof: 0.04, Floor: 0.17, CastL: 0.178, CastW: 0.162, CastH: 0.118}
}

// Options say how a section is drawn.
type Options struct {
	MMPerM float64      // mm of paper per metre: 20 for 1:50
	Units  units.System // of all values written
	// Show are the layers drawn; nil draws all but the flow, the heads and the
	// mesh of the computed water, which only fill the drawing when asked for.
	Show map[Layer]bool
	// PressureMMPerKPa is the scale of pressure diagrams; 0 chooses one of the
	// series 1-2-5 that keeps the deepest diagram within about 25 mm.
	PressureMMPerKPa float64
	// Clip is the window of the drawing in m; everything lies in it. The empty
	// rectangle takes Window: the ground with margins for the dimensions.
	Clip geom.Rect
	// Land is the window of the ground, in m; the empty rectangle takes the
	// whole long section, and the works with a little beside them of a cross
	// section (see Land) unless Clip is given.
	Land geom.Rect
	// Soils finds a soil by its id; nil leaves the classes out of the names.
	Soils    func(id string) (model.Soil, bool)
	Selected string // part drawn as selected, by its name in the checks
	Shell    Shell  // the zero value takes NominalShell
	// Project gives what the view does not hold: bars inside the box, the drain,
	// the rock line, observed water. nil takes that of the result, if any.
	Project *model.Project
	// Bars finds a row of the bar table by its id, for the sizes of the bars
	// inside the box; nil draws all of them at a nominal size.
	Bars func(id string) (tables.Bar, bool)
	// Lumber finds a row of the lumber table by its id, for the studs of a skin;
	// nil draws them at a nominal size.
	Lumber func(id string) (tables.Lumber, bool)
	// Avoid are places, in m, that texts keep off where they can: handles.
	Avoid []geom.Vec
	// Advice is written in the middle, in the air above the ground where there
	// is some: what to do next.
	Advice []string
	// Portrait is what the steel does at the stage and station of the view; nil,
	// or one of another section, draws nothing. See assess.Shape.
	Portrait *assess.Portrait
	// Water is computed water that is newer than that of the result: it may be of
	// one stage and of the long section alone. nil takes that of the result.
	Water *water.Field
	// Keyed numbers the marks of the verdicts as KeysOf does, for a list that
	// stands elsewhere, instead of writing their words beside them.
	Keyed bool
	// CountLost writes at the foot how many texts found no place.
	CountLost bool
}

// Margins left round the ground when no window is given, in mm of paper.
const (
	marginSide   = 30.0
	marginTop    = 26.0
	marginBottom = 48.0
)

// Window is what Build draws of a view when neither Clip nor Land is given, in
// m: the ground with margins for caption, axis, dimensions and scale bar. An
// infinite mmPerM gives the ground alone.
func Window(v *section.View, mmPerM float64) geom.Rect {
	return Framed(Options{}.land(v), mmPerM)
}

// Framed adds the margins of Window to any piece of ground, in m.
func Framed(land geom.Rect, mmPerM float64) geom.Rect {
	m := 1 / mmPerM
	return geom.Rect{
		Min: land.Min.Sub(geom.Vec{marginSide * m, marginBottom * m}),
		Max: land.Max.Add(geom.Vec{marginSide * m, marginTop * m}),
	}
}

// Land is the ground that is worth drawing: the works and beyond m on each
// side, with what lies above them, and as deep as the view goes there. A view
// without works, or a beyond that is not above 0, takes the whole ground.
func Land(v *section.View, beyond float64) geom.Rect {
	all := content(v)
	r := v.Excavated.Bounds()
	for _, zs := range [][]section.Zone{v.Bedding, v.Fill} {
		for _, z := range zs {
			r = r.Union(z.Region.Bounds())
		}
	}
	if v.HasBox {
		r = r.Union(v.Box)
	}
	for i := range v.Wings {
		r = r.Union(v.Wings[i].Bounds())
	}
	if r.Empty() || !(beyond > 0) {
		return all
	}
	const under = 1.5 // m of ground below the lowest thing
	x0, x1 := max(all.Min[0], r.Min[0]-beyond), min(all.Max[0], r.Max[0]+beyond)
	low, high := r.Min[1], r.Max[1]
	for _, l := range []geom.Polyline{v.Ground, v.Finish} {
		for _, p := range l.ClipX(x0, x1) {
			low, high = min(low, p[1]), max(high, p[1])
		}
	}
	return geom.Rect{Min: geom.Vec{x0, max(all.Min[1], low-under)}, Max: geom.Vec{x1, high}}
}

// besideWorks is the ground shown on each side of the works in a cross
// section when nothing else is asked, m: the ground there is only assumed.
const besideWorks = 2.5

// land is the window of the ground that the options ask for.
func (o Options) land(v *section.View) geom.Rect {
	switch {
	case !o.Land.Empty():
		return overlap(content(v), o.Land)
	case v.Long || !o.Clip.Empty():
		return content(v)
	}
	return Land(v, besideWorks)
}

// content is the room of ground and works.
func content(v *section.View) geom.Rect {
	r := v.Ground.Bounds().Union(v.Finish.Bounds())
	for _, zs := range [][]section.Zone{v.Strata, v.Bedding, v.Fill} {
		for _, z := range zs {
			r = r.Union(z.Region.Bounds())
		}
	}
	if v.HasBox {
		r = r.Union(v.Box)
	}
	return r
}

// builder draws one scene. Areas come first, then lines, then texts, so that
// the cleared ground behind letters is never drawn over.
type builder struct {
	v       *section.View
	r       *assess.Result
	o       Options
	mm      float64   // m of the section per mm of paper
	land    geom.Rect // window of the ground
	paths   []*Path
	text    []*Label
	ink     arena
	at      placer
	lost    []string // labels that found no place
	left    int      // hatch segments still allowed
	mats    []body   // the materials drawn
	scan    scanner
	upright scanner // a second one, at right angles to scan
	spans   []float64

	top []*Path // signs drawn over everything but the texts

	axisX float64   // the level axis
	strip geom.Rect // of the level axis; empty where it is not drawn
	bar   geom.Vec  // end of the scale bar
	kPa   float64   // m of the section per kPa in diagrams; 0 where there is none

	kPaNote string // says that scale

	wet       *wetGround // computed water; nil where there is none
	headLines []headLine
	headGap   float64      // m between them; 0 where there are none
	flowShare float64      // m2/s between flow lines; 0 where there are none
	lift      [][2]float64 // see uplift
	lifted    bool

	// Scales of the portrait: movements, and for sheets and bars moments and
	// thrusts.
	moveScale   float64
	bent, thick [2]figure
}

// project is where the things come from that a view does not hold; nil where
// nobody gave it.
func (b *builder) project() *model.Project {
	if b.o.Project == nil && b.r != nil {
		return b.r.Project
	}
	return b.o.Project
}

// Build draws a section. r may be nil: then there are no pressures and no
// verdicts. It fails on an option or a view that cannot be drawn, naming it.
func Build(v *section.View, r *assess.Result, o Options) (*Scene, error) {
	b, err := begin(v, r, o)
	if err != nil {
		return nil, err
	}
	b.wet = b.wetGround()
	return b.draw(), nil
}

// begin lays out the window of a scene.
func begin(v *section.View, r *assess.Result, o Options) (*builder, error) {
	if err := checkOptions(v, o); err != nil {
		return nil, err
	}
	if err := checkResult(v, r); err != nil {
		return nil, err
	}
	if o.Shell == (Shell{}) {
		o.Shell = NominalShell()
	}
	b := &builder{v: v, r: r, o: o, mm: 1 / o.MMPerM, left: maxHatch}
	b.land, b.at.win = o.land(v), o.Clip
	if o.Clip.Empty() {
		b.at.win = Framed(b.land, o.MMPerM)
	}
	b.land = overlap(b.land, b.at.win)
	b.layStrip()
	b.avoid()
	return b, nil
}

func (b *builder) draw() *Scene {
	b.shapes()
	b.texts()
	return b.scene()
}

// shapes draws what is there, so that texts know what they would cover.
func (b *builder) shapes() {
	b.zones()
	b.rockLine()
	b.groundLines()
	b.seepage()
	b.wings()
	b.box()
	b.drain()
	b.outlet()
	loads, roofs := b.loads(), b.roofs()
	b.pressures(loads, roofs)
	b.defence()
	b.portrait()
	b.frame()
	b.water()
	b.waterTable()
	b.slipLines()
}

// texts writes what the section says, the weightiest first: what comes last
// goes without a place first.
func (b *builder) texts() {
	loads, roofs := b.loads(), b.roofs()
	b.advice()
	b.verdicts()
	b.slipTexts()
	b.waterText()
	b.seepageNotes()
	b.drainTexts()
	b.waterTableText()
	b.levels()
	b.pressureTexts(loads, roofs)
	b.upliftText()
	b.portraitTexts()
	b.surfaces()
	b.dimensions()
	b.observations()
	b.slopes()
	b.headTexts()
	b.callouts()
	b.countLost()
}

// overlap is the rectangle that two share; the empty one where they are apart.
func overlap(a, b geom.Rect) geom.Rect {
	r := geom.Rect{
		Min: geom.Vec{math.Max(a.Min[0], b.Min[0]), math.Max(a.Min[1], b.Min[1])},
		Max: geom.Vec{math.Min(a.Max[0], b.Max[0]), math.Min(a.Max[1], b.Max[1])},
	}
	if r.Min[0] >= r.Max[0] || r.Min[1] >= r.Max[1] {
		return geom.Rect{}
	}
	return r
}

// show tells whether a layer is drawn.
func (b *builder) show(l Layer) bool {
	if b.o.Show == nil {
		return l != Flow && l != Heads && l != Mesh
	}
	return b.o.Show[l]
}

// scene collects what was drawn.
func (b *builder) scene() *Scene {
	s := &Scene{MMPerM: b.o.MMPerM, Caption: b.caption(), Lost: b.lost, Axis: b.strip}
	b.paths = append(b.paths, b.top...)
	s.Items = make([]Item, 0, len(b.paths)+len(b.text))
	lo, hi := geom.Vec{math.Inf(1), math.Inf(1)}, geom.Vec{math.Inf(-1), math.Inf(-1)}
	grow := func(p geom.Vec) {
		lo = geom.Vec{min(lo[0], p[0]), min(lo[1], p[1])}
		hi = geom.Vec{max(hi[0], p[0]), max(hi[1], p[1])}
	}
	for _, p := range b.paths {
		s.Items = append(s.Items, Item{Path: p})
		for _, c := range p.Parts {
			for _, q := range c {
				grow(q)
			}
		}
	}
	for _, l := range b.text {
		s.Items = append(s.Items, Item{Label: l})
		for _, q := range LabelCorners(l, b.o.MMPerM) {
			grow(q)
		}
	}
	if len(s.Items) > 0 {
		s.Bounds = geom.Rect{Min: lo, Max: hi}
	}
	return s
}

// caption says what the section is and at which stage.
func (b *builder) caption() string {
	stage := b.v.Stage.Name
	if stage != "" {
		stage = ": " + stage
	}
	if b.v.Long {
		return "Long section" + stage
	}
	return "Cross section at " + b.length(b.v.Station) + stage
}
