package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
	"hillset/ui/units/foreign"
)

// statements lists what a tree of objects says, each paragraph whole.
func statements(o fyne.CanvasObject, say func(string)) {
	if !o.Visible() {
		return
	}
	switch o := o.(type) {
	case *flow:
		say(o.text)
	case *commitEntry:
		say(o.Text)
		say(o.PlaceHolder)
	case *widget.Entry:
		say(o.Text)
		say(o.PlaceHolder)
	case *canvas.Text:
		say(o.Text)
	case *fyne.Container:
		for _, c := range o.Objects {
			statements(c, say)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			statements(c, say)
		}
	}
}

// broken are projects that something is wrong with, for what is said of it.
var brokenProjects = map[string]func(p *model.Project){
	"box off the ground":  func(p *model.Project) { p.Box.Front = p.Site.Ground[len(p.Site.Ground)-1][0] - 1 },
	"box over the ground": func(p *model.Project) { p.Box.Level += 30 },
	"no water levels":     func(p *model.Project) { p.Site.Water.DesignHigh = nil },
	"opening too wide": func(p *model.Project) {
		p.Box.Openings = []model.Opening{{ID: "o", Wall: "left", From: 5, Width: 3, Sill: 1, Height: 0.6}}
	},
	"opening too high": func(p *model.Project) {
		p.Box.Openings = []model.Opening{{ID: "o", Wall: "left", From: 1, Width: 0.5, Sill: 1, Height: 3}}
	},
	"strut in the roof": func(p *model.Project) { p.Strengthening.Ribs.Struts = []model.Strut{{Height: 2.9, Section: "shs75x5"}} },
	"deep dents":        func(p *model.Project) { p.Box.SideDent, p.Box.EndDent = 60, 60 },
	"old": func(p *model.Project) {
		for i := range p.Stages {
			p.Stages[i].Years = 80
		}
	},
	"light soil": func(p *model.Project) { p.Site.Soils[0].GammaSat = 11 },
	"weak sizes": func(p *model.Project) {
		p.Bedding.Kind, p.Bedding.PadLength = model.PadBedding, 0
		p.Cut.Benches = []model.Bench{{Height: 2, Width: 1}, {Height: 1, Width: 1}}
	},
	"load without width": func(p *model.Project) {
		p.Site.Surcharges = append(p.Site.Surcharges, model.Surcharge{ID: "z", Kind: model.AreaLoad, X1: 12, X2: 11})
	},
	"skin": func(p *model.Project) {
		p.Strengthening.Cavity = model.Cavity{Width: 0.1, Fill: model.ConcreteFill, Fc: 25, Lift: 1.4, Propped: true}
		p.Strengthening.RoofSlab = model.RoofSlab{Thickness: 0.14, Fc: 25, Bar: 12, BarSpacing: 0.15, BarCover: 0.025, EdgeBeam: "shs100x6", Post: "shs100x6", Spacing: 1.2, Gap: 0.05, Footing: 0.4}
	},
	"gravel": func(p *model.Project) { p.Strengthening.Cavity = model.Cavity{Width: 0.15, Fill: model.GravelFill} },
	"seen higher": func(p *model.Project) {
		p.Site.Water.Observed = append(p.Site.Water.Observed, model.WaterPoint{Pos: model.Vec{20, 104.4}})
	},
	"full hill": func(p *model.Project) { z := 107.8; p.Site.Water.DesignHigh = &z },
}

// A builder who reads feet is told no metres, and the other way round: on no
// page, in no list, for no project that something is wrong with.
func TestEveryPageSpeaksTheReadersUnits(t *testing.T) {
	b := newBench(t, right)
	look := func(t *testing.T, where string, sys units.System) {
		t.Helper()
		known := namesOf(b)
		seen := map[string]bool{}
		say := func(text string) {
			if seen[text] || text == "" {
				return
			}
			seen[text] = true
			for _, f := range foreign.In(text, sys, known...) {
				t.Errorf("%s, %v: %s", where, sys, f)
			}
			if strings.Contains(text, "{") {
				t.Errorf("%s: a value that nobody wrote: %s", where, text)
			}
		}
		b.units(sys)
		for _, l := range strings.Split(b.report(), "\n") {
			if !strings.HasPrefix(l, "    ") { // sources
				say(l)
			}
		}
		for _, pg := range order {
			b.openPage(pg)
			statements(b.win.Content(), say)
		}
	}
	for _, file := range []string{drawn, right} {
		b.open(file)
		b.q.drain()
		b.assessed()
		for _, pg := range []string{"limits", "scenarios", "flows"} {
			b.worked(pg)
		}
		for _, sys := range []units.System{units.US, units.Metric} {
			look(t, file, sys)
		}
	}
	b.open(drawn)
	b.edit("still", func(p *model.Project) error { p.Site.Water.Computed = false; return nil }) // which is quicker
	b.q.drain()
	b.assessed()
	for _, sys := range []units.System{units.US, units.Metric} {
		b.units(sys)
		b.worked("advice")
		look(t, "advice", sys)
	}
	b.open(right)
	b.q.drain()
	p := b.project().Clone()
	for name, change := range brokenProjects {
		b.edit(name, func(q *model.Project) error { *q = *p.Clone(); change(q); return nil })
		b.q.drain()
		b.assessed()
		for _, sys := range []units.System{units.US, units.Metric} {
			look(t, name, sys)
		}
	}
}

// namesOf are names and sources, which may hold a size.
func namesOf(b *bench) []string {
	var out []string
	if r := b.desk.Result(); r != nil {
		for i := range r.Checks {
			c := &r.Checks[i]
			out = append(out, c.Source)
			for _, l := range c.Working {
				out = append(out, l.Source)
			}
		}
	}
	return append(out, foreign.Names(b.project())...)
}

// A refused value and what is allowed are said in the units of the field.
func TestRefusedValuesAreSaidInTheUnitsOfTheirField(t *testing.T) {
	b := newBench(t, right)
	p := crowded(t, b)
	if err := b.desk.Edit("crowd", "", func(q *model.Project) error { *q = *p.Clone(); return nil }); err != nil {
		t.Fatal(err)
	}
	refused := 0
	for _, sys := range []units.System{units.US, units.Metric} {
		b.units(sys)
		for _, pg := range typedPages(b) {
			for _, r := range pg.make(b.project()) {
				n, ok := r.(*number)
				if !ok {
					continue
				}
				n.show(b.project(), sys)
				n.take("99999999")
				says := n.fault.text
				if says == "" {
					b.undo() // no bounds in its way
					b.q.drain()
					continue
				}
				refused++
				unit := units.Unit(n.kind, sys)
				if n.kind == quantity.Length && sys == units.US && strings.ContainsAny(says, `'"`) || n.kind == quantity.Slope {
					unit = ""
				}
				if !strings.Contains(says, unit) || !strings.Contains(says, "(allowed: ") {
					t.Errorf("%s, %q in %q: %s", pg.key, n.label, unit, says)
				}
				if n.kind == quantity.Grain {
					continue // in mm for both
				}
				for _, f := range foreign.In(says, sys) {
					t.Errorf("%s, %q: %s", pg.key, n.label, f)
				}
			}
		}
	}
	if refused < 150 {
		t.Errorf("%d values were refused", refused)
	}
}
