package panel

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/scene"
	"hillset/ui/sheet"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// climatePage is the winter and the room: what is given of them, and what comes
// out.
func (w *Window) climatePage() *page {
	pg := newPage("climate", "15 Air", "Climate and air: frost and air of the place, warmth, moisture and fresh air of the room. What comes out stands first, the inputs after it, the whole below.", func(*model.Project) []row {
		out := []row{w.climateShort()}
		for _, rows := range [][]row{w.winterRows(), w.roomRows(), w.insulationRows(), w.ventRows(), w.peopleRows()} {
			out = append(out, rows...)
		}
		return append(out, w.climateLong())
	})
	pg.live = true
	return pg
}

func climateOf(p *model.Project) *model.Climate { return &p.Site.Climate }

// winterRows are the air and the ground outside.
func (w *Window) winterRows() []row {
	return []row{
		head("Air and frost outside"),
		w.optional("Mean air over the year", "", quantity.Temperature, func(p *model.Project) **float64 { return &climateOf(p).AirMean }),
		w.num("Half the yearly range", "from the mean to that of the warmest month", quantity.Warmth, func(p *model.Project) *float64 { return &climateOf(p).AirSwing }).or("not given"),
		w.num("Coldest day of the year", "counted from 1 January", quantity.None, func(p *model.Project) *float64 { return &climateOf(p).ColdestDay }).or("not given"),
		w.num("Humidity of the air", "over the year", quantity.Share, func(p *model.Project) *float64 { return &climateOf(p).AirHumid }).or("not given"),
		w.num("Freezing index of a winter", "degree-days of the air, mean of the three coldest winters in thirty years; with it the depth of frost on page 1 is computed instead", quantity.FrostIndex,
			func(p *model.Project) *float64 { return &climateOf(p).FrostIndex }).or("not given"),
		w.num("Days of frost", "length of that winter", quantity.None, func(p *model.Project) *float64 { return &climateOf(p).FrostDays }).or("not given"),
		w.pick("Ground in winter", "", listed(w.tables.FrostCoverIDs(), func(id string) string { t, _ := w.tables.FrostCover(id); return t.Name }), func(p *model.Project) *string { return &climateOf(p).FrostCover }),
	}
}

// roomRows are what is wanted inside.
func (w *Window) roomRows() []row {
	return []row{
		head("Room"),
		w.optional("Temperature wanted", "", quantity.Temperature, func(p *model.Project) **float64 { return &p.Room.Temperature }),
		w.num("Humidity wanted", "", quantity.Share, func(p *model.Project) *float64 { return &p.Room.Humid }).or("not given"),
	}
}

// insulationRows are what keeps the steel warm.
func (w *Window) insulationRows() []row {
	in := func(p *model.Project) *model.Insulation { return &p.Room.Insulation }
	side := w.pick("Insulation", "on walls and roof; foam of the roof build-up counts too where it is thicker", fixed("", "none", model.OutsideSteel, "outside the steel", model.InsideSteel, "inside the steel"), func(p *model.Project) *string { return &in(p).Side })
	return append([]row{head("Insulation"), side}, when(func(p *model.Project) bool { return in(p).Side != "" },
		w.num("Its thickness", "", quantity.Thickness, func(p *model.Project) *float64 { return &in(p).Thickness }).or("not given"),
		w.num("Its conductivity", "sprayed foam "+like(0.024, quantity.Conductivity)+" to "+like(0.028, quantity.Conductivity)+", extruded board about "+like(0.033, quantity.Conductivity), quantity.Conductivity, func(p *model.Project) *float64 { return &in(p).K }).or("not given"),
		w.num("Its resistance to vapour µ", "times that of air; closed cells 60 to 150", quantity.None, func(p *model.Project) *float64 { return &in(p).Mu }).or("not given"),
		w.num("Sheet on the room side", "as a layer of air that lets as little vapour through; one US perm is "+like(3.5, quantity.Length), quantity.Length, func(p *model.Project) *float64 { return &in(p).Retarder }).or("none"),
		w.tick("The doors are insulated alike", func(p *model.Project) *bool { return &in(p).Doors }))...)
}

// ventRows are the ways of the air.
func (w *Window) ventRows() []row {
	v := func(p *model.Project) *model.Vents { return &p.Room.Vents }
	is := func(kinds ...string) func(p *model.Project) bool {
		return func(p *model.Project) bool {
			for _, k := range kinds {
				if v(p).Kind == k {
					return true
				}
			}
			return false
		}
	}
	rows := []row{head("Vents"), w.pick("Vents", "one low, one high", fixed("", "not given", model.OpeningVents, "two openings", model.PipeVents, "two pipes"), func(p *model.Project) *string { return &v(p).Kind })}
	rows = append(rows, when(is(model.OpeningVents, model.PipeVents),
		w.num("Height between them", "", quantity.Length, func(p *model.Project) *float64 { return &v(p).Apart }).or("not given"))...)
	rows = append(rows, when(is(model.OpeningVents),
		w.num("Low opening, net area", "what screens leave free", quantity.Area, func(p *model.Project) *float64 { return &v(p).Low }).or("not given"),
		w.num("High opening, net area", "", quantity.Area, func(p *model.Project) *float64 { return &v(p).High }).or("not given"))...)
	return append(rows, when(is(model.PipeVents),
		w.num("Bore of the pipes", "", quantity.Thickness, func(p *model.Project) *float64 { return &v(p).Bore }).or("not given"),
		w.num("Low pipe, length", "", quantity.Length, func(p *model.Project) *float64 { return &v(p).LowLen }).or("not given"),
		w.num("High pipe, length", "", quantity.Length, func(p *model.Project) *float64 { return &v(p).HighLen }).or("not given"),
		w.num("Loss of one pipe", "sum of the coefficients of screen, bends, way in and out: about 3", quantity.None, func(p *model.Project) *float64 { return &v(p).Fittings }).or("not given"))...)
}

// mostPeople is the longest list of people offered.
const mostPeople = 60

// peopleRows are who may be inside.
func (w *Window) peopleRows() []row {
	r := func(p *model.Project) *model.Room { return &p.Room }
	return []row{
		head("People"),
		w.whole("People inside together", 0, mostPeople, func(p *model.Project) *int { return &r(p).People }).called("0", "not given"),
		w.pick("What they do", "", listed(w.tables.PersonIDs(), func(id string) string { t, _ := w.tables.Person(id); return t.Name }), func(p *model.Project) *string { return &r(p).Activity }),
		w.num("Everything closed for", "", quantity.Hours, func(p *model.Project) *float64 { return &r(p).Hours }).or("not given"),
	}
}

// fromResult is a row made anew from each result.
type fromResult struct {
	condition
	w     *Window
	box   *fyne.Container
	drawn string
	make  func() []fyne.CanvasObject
}

func (w *Window) fromResult(make func() []fyne.CanvasObject) row {
	return &fromResult{w: w, box: container.New(&column{gap: 6}), make: make}
}

func (r *fromResult) object() fyne.CanvasObject { return r.box }

// show makes it anew where it would say something else.
func (r *fromResult) show(_ *model.Project, sys units.System) {
	sig := fmt.Sprintf("%p %v %v %v", r.w.desk.Result(), sys, r.w.set.Look, r.w.set.Letters)
	if sig == r.drawn {
		return
	}
	r.drawn = sig
	r.box.Objects = r.make()
	r.w.followFocus(r.box)
	r.w.relay()
}

// climateShort is what matters most of what comes out.
func (w *Window) climateShort() row {
	return w.fromResult(func() []fyne.CanvasObject {
		objs := []fyne.CanvasObject{newFlow("What comes out").strong()}
		for _, line := range sheet.ClimateShort(w.desk.Result(), w.tables, w.desk.Units()) {
			objs = append(objs, newFlow(line))
		}
		return []fyne.CanvasObject{card(objs...)}
	})
}

// climateLong is all of it: the chart, the words, the checks.
func (w *Window) climateLong() row {
	return w.fromResult(func() []fyne.CanvasObject {
		r := w.desk.Result()
		var out []fyne.CanvasObject
		if g, ok := sheet.GroundTempsOf(r); ok {
			sys := w.desk.Units()
			out = append(out, card(newFlow(g.Title).strong(), sketch.NewChart(func(width, height float64) (*scene.Scene, error) {
				return scene.BuildGroundTemps(g, scene.CurveOptions{Width: width, Height: height, Units: sys})
			}, w.look.palette, float64(w.set.Letters), fyne.NewSize(120, chartHeight*letters()))))
		}
		for _, p := range sheet.ClimateWords(r, w.tables, w.desk.Units()) {
			objs := []fyne.CanvasObject{newFlow(p.Title).strong()}
			for _, line := range p.Lines {
				objs = append(objs, newFlow(line))
			}
			out = append(out, card(objs...))
		}
		if r == nil {
			return out
		}
		return append(out, w.checkList("Checks of frost and air", sheet.ClimateChecks(r))...)
	})
}
