package panel

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// drainOf is the drain of a project.
func drainOf(p *model.Project) *model.Drain { return &p.Defence.Drain }

func hasDrain(p *model.Project) bool       { return drainOf(p).Present }
func hasInterceptor(p *model.Project) bool { return drainOf(p).Uphill }
func hasPipe(p *model.Project) bool        { return hasDrain(p) || hasInterceptor(p) }

// Outlets of the drain as the file names them.
const (
	outletGravity = "gravity"
	outletSump    = "sump"
)

// drainRows are the drain round the box, the interceptor, and the cloth and
// stone round their pipes.
func (w *Window) drainRows() []row {
	rows := []row{
		head("Drains"),
		w.words("Drains lower the water only where it is computed."),
		w.tick("Drain round the box", func(p *model.Project) *bool { return &drainOf(p).Present }),
	}
	rows = append(rows, when(hasDrain,
		w.num("Invert below the formation", "", quantity.Length, func(p *model.Project) *float64 { return &drainOf(p).Depth }))...)
	rows = append(rows, w.tickBy("Interceptor drain uphill", hasInterceptor, func(p *model.Project, on bool) {
		drainOf(p).Uphill = on
		if on {
			startInterceptor(drainOf(p))
		}
	}))
	rows = append(rows, when(hasInterceptor,
		w.num("Interceptor, uphill of the cut's crest", "", quantity.Length, func(p *model.Project) *float64 { return &drainOf(p).UphillAway }),
		w.num("Interceptor, below the ground", "its invert below the ground as found", quantity.Length, func(p *model.Project) *float64 { return &drainOf(p).UphillDepth }))...)
	rows = append(rows, when(hasPipe,
		w.pipePick(),
		w.num("Pipe bore", "inside", quantity.Thickness, func(p *model.Project) *float64 { return &drainOf(p).Diameter }),
		w.num("Fall", "", quantity.Gradient, func(p *model.Project) *float64 { return &drainOf(p).Fall }),
		w.tick("Bed of the pipe set by laser", func(p *model.Project) *bool { return &drainOf(p).Laser }),
		w.tick("A pipe part full runs rougher", func(p *model.Project) *bool { return &drainOf(p).Camp }))...)
	rows = append(rows, w.outletPick())
	rows = append(rows, when(func(p *model.Project) bool { return drainOf(p).Outlet == outletGravity },
		w.num("Outlet pipe ends within", "downhill of the front of the box, such as at the boundary", quantity.Length, func(p *model.Project) *float64 { return &drainOf(p).Edge }).or("the ground drawn"))...)
	return append(rows, when(hasPipe, w.clothRows()...)...)
}

// Where an interceptor is put until something else is typed, m (common
// practice: clear of the crest, deep enough to cut off shallow water).
const (
	interceptorAway  = 1.5
	interceptorDepth = 1.5
)

func startInterceptor(d *model.Drain) {
	fillIn(&d.UphillAway, interceptorAway)
	fillIn(&d.UphillDepth, interceptorDepth)
	fillIn(&d.Diameter, 0.1) // m: the ordinary 4 in pipe
	fillIn(&d.Fall, 0.01)
}

// pipePick chooses a pipe of the table, which sets the bore.
func (w *Window) pipePick() row {
	pipes := func(*model.Project) (ids, names []string) {
		ids, names = []string{""}, []string{"not chosen"}
		for _, id := range w.tables.PipeIDs() {
			t, _ := w.tables.Pipe(id)
			ids, names = append(ids, id), append(names, t.Name)
		}
		return ids, names
	}
	return w.choose("Pipe", "it sets the bore", pipes, func(p *model.Project) string { return drainOf(p).Pipe },
		func(p *model.Project, id string) error {
			drainOf(p).Pipe = id
			if t, ok := w.tables.Pipe(id); ok {
				drainOf(p).Diameter = t.Bore
			}
			return nil
		})
}

// outletPick says how the water leaves. A sump gets its values at once.
func (w *Window) outletPick() row {
	return w.choose("Outlet", "", fixed("", "not chosen", outletGravity, "by gravity", outletSump, "sump and pump"),
		func(p *model.Project) string { return drainOf(p).Outlet },
		func(p *model.Project, id string) error {
			drainOf(p).Outlet = id
			if id == outletSump {
				w.startSump(p)
			}
			return nil
		})
}

// clothRows are the filter cloth and the stone round a pipe.
func (w *Window) clothRows() []row {
	c := func(p *model.Project) *model.Cloth { return &drainOf(p).Cloth }
	return []row{
		head("Cloth and stone round the pipes"),
		w.num("Cloth, opening size", "apparent opening size O95", quantity.Grain, func(p *model.Project) *float64 { return &c(p).AOS }).or("not known"),
		w.num("Cloth, permittivity", "", quantity.Permittivity, func(p *model.Project) *float64 { return &c(p).Permittivity }).or("not known"),
		w.num("Cloth, permeability", "", quantity.Permeability, func(p *model.Project) *float64 { return &c(p).K }).or("not known"),
		w.tick("Cloth is woven", func(p *model.Project) *bool { return &c(p).Woven }),
		w.tick("A designer answers for the cloth", func(p *model.Project) *bool { return &c(p).Signed }),
		w.tick("Stone is washed and of one size", func(p *model.Project) *bool { return &drainOf(p).Washed }),
	}
}

// coatRows are the layers on the steel.
func (w *Window) coatRows(p *model.Project) []row {
	rows := []row{
		head("Coats and sheets on the steel, from the steel out"),
		w.words(fmt.Sprintf("Under a membrane a sheet may bow by its span/%d, else by span/%d. No coat keeps water pressure off.", box.SagLimitLined, box.SagLimit)),
	}
	for i := range p.Defence.Layers {
		name := fmtIndex("Coat", i)
		rows = append(rows,
			w.text(name, "", func(p *model.Project) *string { return &p.Defence.Layers[i].Name }),
			w.pick(name+", kind", "", fixed("coating", "coating", "membrane", "membrane", "foam", "foam", "board", "board"), func(p *model.Project) *string { return &p.Defence.Layers[i].Kind }))
		rows = append(rows, when(func(p *model.Project) bool {
			return i < len(p.Defence.Layers) && p.Defence.Layers[i].Kind == "membrane"
		}, w.membranePick(name, i))...)
		rows = append(rows,
			w.num(name+", thickness", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Defence.Layers[i].Thickness }),
			w.num(name+", keeps the ground off for", "", quantity.Years, func(p *model.Project) *float64 { return &p.Defence.Layers[i].Life }).or("not counted"))
	}
	return append(rows, listButtons(w, "coat", "coat", func(p *model.Project) *[]model.DefenceLayer { return &p.Defence.Layers }, func([]model.DefenceLayer) model.DefenceLayer {
		return model.DefenceLayer{Kind: "coating", Name: "Bitumen coating", Thickness: 0.002}
	}))
}

// membranePick says what a membrane is made of.
func (w *Window) membranePick(name string, i int) row {
	kinds := func(*model.Project) (ids, names []string) {
		ids, names = []string{""}, []string{"not chosen"}
		for _, id := range w.tables.MembraneIDs() {
			m, _ := w.tables.Membrane(id)
			ids, names = append(ids, id), append(names, m.Name)
		}
		return ids, names
	}
	return w.choose(name+", of", "decides whether it holds against standing water", kinds,
		func(p *model.Project) string { return p.Defence.Layers[i].Row },
		func(p *model.Project, id string) error { p.Defence.Layers[i].Row = id; return nil })
}
