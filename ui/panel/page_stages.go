package panel

import (
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// stagesPage is the order of work, what acts in each stage, and the loads on
// the ground.
func (w *Window) stagesPage() *page {
	return newPage("stages", "8 Stages", "The order of work. Every check is made at every stage; choose one to look at it and to change it.", func(p *model.Project) []row {
		var rows []row
		for i := range p.Stages {
			rows = append(rows, w.stageRow(i))
		}
		rows = append(rows, w.stageEditor(p)...)
		rows = append(rows, head("Loads on the ground"))
		for i := range p.Site.Surcharges {
			rows = append(rows, w.surchargeRows(p, i)...)
		}
		return append(rows, w.surchargeButtons())
	}).listing(func(p *model.Project) string {
		var b strings.Builder
		for _, s := range p.Stages {
			b.WriteString(s.ID + "/" + s.Kind + ",")
		}
		for _, s := range p.Site.Surcharges {
			b.WriteString(s.ID + "/" + s.Kind + ",")
		}
		return b.String() + w.desk.StageID()
	})
}

// stageLine is a stage with what acts in it, in words; a press looks at it.
type stageLine struct {
	heading
	w    *Window
	i    int
	name *pressLine
}

func (w *Window) stageRow(i int) row {
	r := &stageLine{w: w, i: i}
	r.name = newPressLine(func() { w.lookAt(i) })
	w.followFocus(r.name)
	r.box = r.name
	return r
}

func (r *stageLine) show(p *model.Project, sys units.System) {
	if r.i >= len(p.Stages) {
		return
	}
	st := p.Stages[r.i]
	r.name.set(numbered(r.i, st.Name), actsIn(p, st), st.ID == r.w.desk.StageID())
}

// actsIn says in words what acts in a stage.
func actsIn(p *model.Project, st model.Stage) string {
	var out []string
	add := func(on bool, s string) {
		if on {
			out = append(out, s)
		}
	}
	add(st.Kind == model.StageBackfill, "fill to "+units.Number(100*st.FillTo, 0)+" %")
	add(st.OneSide, "one side ahead")
	add(st.Compacting, "compacting")
	add(st.Water == model.WaterSeasonal, "seasonal water")
	add(st.Water == model.WaterHigh, "high water")
	add(st.Blocked && st.Water != "" && st.Water != model.WaterNone, "drains take nothing")
	add(st.Snow, "snow")
	add(st.Quake, "earthquake")
	for _, s := range p.Site.Surcharges {
		add(slices.Contains(st.Surcharges, s.ID), lowerFirst(s.Name))
	}
	add(st.Years > 0, units.Number(st.Years, 0)+" years of rust")
	if len(out) == 0 {
		return "no loads of its own"
	}
	return strings.Join(out, ", ")
}

// here is the stage that is looked at, in a copy of the project.
func (w *Window) here(p *model.Project) *model.Stage {
	id := w.desk.StageID()
	for i := range p.Stages {
		if p.Stages[i].ID == id {
			return &p.Stages[i]
		}
	}
	return &model.Stage{}
}

// stageEditor changes the stage that is looked at.
func (w *Window) stageEditor(p *model.Project) []row {
	if len(p.Stages) == 0 {
		return []row{w.stageButtons()}
	}
	st := w.here(p)
	rows := []row{
		w.stageButtons(),
		head("This stage"),
		w.text("Name", "", func(p *model.Project) *string { return &w.here(p).Name }),
		w.pick("What stands", "", fixed(model.StageNatural, "the natural hill", model.StageCut, "the cut is open", model.StageSet, "the box is set",
			model.StageBackfill, "fill part way up", model.StageService, "finished"), func(p *model.Project) *string { return &w.here(p).Kind }),
	}
	if st.Kind == model.StageBackfill || st.Kind == model.StageService {
		rows = append(rows,
			w.num("Fill beside the wall", "share of its full height, 0 to 1", quantity.None, func(p *model.Project) *float64 { return &w.here(p).FillTo }),
			w.tick("One side ahead", func(p *model.Project) *bool { return &w.here(p).OneSide }),
			w.tick("Plant compacts beside the wall", func(p *model.Project) *bool { return &w.here(p).Compacting }),
			w.tick("Cover on the roof", func(p *model.Project) *bool { return &w.here(p).Cover }),
			w.pick("Water", "", fixed("", "not given", model.WaterNone, "none", model.WaterSeasonal, "seasonal", model.WaterHigh, "high"), func(p *model.Project) *string { return &w.here(p).Water }),
			w.blockedRow(),
			w.tick("Snow", func(p *model.Project) *bool { return &w.here(p).Snow }),
			w.tick("Earthquake", func(p *model.Project) *bool { return &w.here(p).Quake }),
			w.num("Years of rust", "", quantity.Years, func(p *model.Project) *float64 { return &w.here(p).Years }))
		for _, s := range p.Site.Surcharges {
			rows = append(rows, w.actsRow(s))
		}
	}
	return rows
}

// blockedRow says that the drains fail in the stage that is looked at. It
// matters only where the flow is computed: still water knows no drain.
func (w *Window) blockedRow() row {
	return when(func(p *model.Project) bool {
		st := w.here(p)
		return computedWater(p) && (st.Blocked || st.Water == model.WaterSeasonal || st.Water == model.WaterHigh)
	}, w.tick("Drains blocked, or the pump dead", func(p *model.Project) *bool { return &w.here(p).Blocked }))[0]
}

// actsRow says whether a load acts in the stage that is looked at.
func (w *Window) actsRow(s model.Surcharge) row {
	return w.tickBy("Load: "+s.Name,
		func(p *model.Project) bool { return slices.Contains(w.here(p).Surcharges, s.ID) },
		func(p *model.Project, on bool) {
			st := w.here(p)
			st.Surcharges = slices.DeleteFunc(st.Surcharges, func(id string) bool { return id == s.ID })
			if on {
				st.Surcharges = append(st.Surcharges, s.ID)
			}
		})
}

// stageButtons add, remove and move the stage that is looked at.
func (w *Window) stageButtons() row {
	move := func(d int) func() {
		return func() {
			w.edit("Move stage", func(p *model.Project) error {
				i := w.stageIndex()
				if j := i + d; i >= 0 && j >= 0 && j < len(p.Stages) {
					p.Stages[i], p.Stages[j] = p.Stages[j], p.Stages[i]
				}
				return nil
			})
		}
	}
	return buttons(
		w.button("Copy", w.copyStage),
		w.button("Remove", func() {
			w.edit("Remove stage", func(p *model.Project) error {
				if i := w.stageIndex(); i >= 0 {
					p.Stages = slices.Delete(p.Stages, i, i+1)
				}
				return nil
			})
		}),
		w.button("Earlier", move(-1)), w.button("Later", move(1)))
}

// copyStage adds a stage after the one looked at, alike but for its name.
func (w *Window) copyStage() {
	id := ""
	w.edit("Add stage", func(p *model.Project) error {
		i := w.stageIndex()
		st := model.Stage{Name: "New stage", Kind: model.StageService, FillTo: 1, Cover: true}
		if i >= 0 {
			st = p.Stages[i]
			st.Surcharges = slices.Clone(st.Surcharges)
			st.Name += ", copy"
		}
		st.ID = freeID("stage", func(id string) bool {
			return slices.ContainsFunc(p.Stages, func(s model.Stage) bool { return s.ID == id })
		})
		id = st.ID
		p.Stages = slices.Insert(p.Stages, i+1, st)
		return nil
	})
	if err := w.desk.SetStage(id); err != nil {
		w.problem(w.explain(err))
	}
}
