package panel

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Bars that are taken until others are chosen.
const (
	ribBar   = "shs100x5"
	strutBar = "shs75x5"
	waleBar  = "shs75x5"
)

// bars lists the rows of the bar table.
func (w *Window) bars(*model.Project) (ids, names []string) {
	for _, id := range w.tables.BarIDs() {
		b, _ := w.tables.Bar(id)
		ids, names = append(ids, id), append(names, b.Name)
	}
	return ids, names
}

// barsOrNone lists them after the words for leaving the bar out.
func (w *Window) barsOrNone(none string) options {
	return func(p *model.Project) (ids, names []string) {
		ids, names = w.bars(p)
		return append([]string{""}, ids...), append([]string{none}, names...)
	}
}

// strengthPage is what is built in so that the box holds.
func (w *Window) strengthPage() *page {
	return newPage("strength", "7 Brace", "What is built so that the box holds. Inside, in steel: wales halve the span of the sheet, ribs carry the wales, purlins carry the roof. Outside: timber, concrete, or a roof on its own posts.", func(p *model.Project) []row {
		rows := w.ribs(p)
		rows = append(rows, w.wales("Wales of the long walls", p.Strengthening.Wales, func(p *model.Project) *[]model.Wale { return &p.Strengthening.Wales })...)
		rows = append(rows, w.wales("Wales of the back wall", p.Strengthening.BackWales, func(p *model.Project) *[]model.Wale { return &p.Strengthening.BackWales })...)
		return append(append(rows, w.outside()...), w.wingWalls()...)
	}).listing(func(p *model.Project) string {
		s := &p.Strengthening
		return count(len(s.Wales)) + "," + count(len(s.BackWales)) + "," + count(len(s.Ribs.Struts))
	})
}

// ribs are the sets of bars inside the box.
func (w *Window) ribs(p *model.Project) []row {
	r := func(p *model.Project) *model.Ribs { return &p.Strengthening.Ribs }
	rows := []row{
		head("Ribs: posts, roof beam, floor tie"),
		w.num("Spacing", "", quantity.Length, func(p *model.Project) *float64 { return &r(p).Spacing }).or("no ribs").then(func(p *model.Project) { startRibs(r(p)) }),
		w.posts(),
		w.pick("Roof beam", "", w.barsOrNone("none"), func(p *model.Project) *string { return &r(p).RoofBeam }),
		w.pick("Floor tie", "", w.barsOrNone("none"), func(p *model.Project) *string { return &r(p).FloorTie }),
	}
	rows = append(rows, when(func(p *model.Project) bool { return r(p).Spacing > 0 },
		w.pick("Joints", "", fixed("", "welded where all bars are given", model.RigidJoints, "welded to full strength: a portal", model.PinnedJoints, "pinned: each bar spans alone"), func(p *model.Project) *string { return &r(p).Joints }))...)
	rows = append(rows, w.purlins(), w.pick("Purlin", "", w.bars, func(p *model.Project) *string { return &r(p).Purlin }))
	rows = append(rows, head("Cross struts, wall to wall, at every rib"))
	for i := range p.Strengthening.Ribs.Struts {
		rows = append(rows,
			w.num(fmtIndex("Strut", i)+", height", "above the bottom rail", quantity.Length, func(p *model.Project) *float64 { return &r(p).Struts[i].Height }),
			w.pick(fmtIndex("Strut", i)+", bar", "", w.bars, func(p *model.Project) *string { return &r(p).Struts[i].Section }))
	}
	return append(rows, listButtons(w, "strut", "strut", func(p *model.Project) *[]model.Strut { return &r(p).Struts }, func(l []model.Strut) model.Strut {
		if n := len(l); n > 0 {
			return model.Strut{Height: l[n-1].Height + 0.5, Section: l[n-1].Section}
		}
		return model.Strut{Height: 1.2, Section: strutBar} // about where the push of the earth is strongest and a head passes above
	}))
}

// startRibs gives ribs their bars when a spacing is typed and none is chosen
// yet.
func startRibs(r *model.Ribs) {
	if r.Spacing > 0 && r.Post == "" {
		r.Post = ribBar
		fillIn(&r.RoofBeam, ribBar)
		fillIn(&r.FloorTie, ribBar)
	}
}

// fillIn gives a value that is still empty.
func fillIn[T comparable](v *T, to T) {
	var empty T
	if *v == empty {
		*v = to
	}
}

// posts chooses the bar of the posts. Roof beam and floor tie are of the same
// bar at first.
func (w *Window) posts() row {
	return w.choose("Posts", "", w.bars, func(p *model.Project) string { return p.Strengthening.Ribs.Post },
		func(p *model.Project, id string) error {
			r := &p.Strengthening.Ribs
			if r.Post == "" {
				fillIn(&r.RoofBeam, id)
				fillIn(&r.FloorTie, id)
			}
			r.Post = id
			return nil
		})
}

// purlins chooses their number from a short list.
func (w *Window) purlins() row {
	return w.whole("Purlins across the roof", 0, 6, func(p *model.Project) *int { return &p.Strengthening.Ribs.Purlins })
}

// wales are the rows of one set of wales.
func (w *Window) wales(title string, now []model.Wale, ref func(p *model.Project) *[]model.Wale) []row {
	rows := []row{head(title)}
	for i := range now {
		rows = append(rows,
			w.num(fmtIndex("Wale", i)+", height", "", quantity.Length, func(p *model.Project) *float64 { return &(*ref(p))[i].Height }),
			w.pick(fmtIndex("Wale", i)+", bar", "", w.bars, func(p *model.Project) *string { return &(*ref(p))[i].Section }))
	}
	return append(rows, listButtons(w, "wale", "wale", ref, func(l []model.Wale) model.Wale {
		if n := len(l); n > 0 {
			return model.Wale{Height: l[n-1].Height + 0.5, Section: l[n-1].Section}
		}
		return model.Wale{Height: 1, Section: waleBar}
	}))
}

// wingWalls are the block walls beside the doors.
func (w *Window) wingWalls() []row {
	at := func(p *model.Project) *model.WingWalls { return &p.Wings }
	return []row{
		head("Wing walls beside the doors"),
		w.words("Dry-stacked blocks, one thick, stepped down outwards with the fill behind them. Page 9 holds them against sliding, tipping and the ground below. The wider the blocks, the more they hold."),
		w.whole("Courses", 0, 50, func(p *model.Project) *int { return &at(p).Courses }).called("0", "no wing walls"),
		w.num("Block, length", "along the wall", quantity.Length, func(p *model.Project) *float64 { return &at(p).BlockLength }).or("not given"),
		w.num("Block, width", "from face to back", quantity.Length, func(p *model.Project) *float64 { return &at(p).BlockWidth }).or("not given"),
		w.num("Block, height", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).BlockHeight }).or("not given"),
		w.num("Splay in plan", "from the line of the front", quantity.Angle, func(p *model.Project) *float64 { return &at(p).Splay }).in(degree),
		w.num("Wall, length", "each side", quantity.Length, func(p *model.Project) *float64 { return &at(p).Length }).or("not given"),
		w.num("Wall, leans back by", "", quantity.Angle, func(p *model.Project) *float64 { return &at(p).Batter }).in(degree),
		w.num("Lowest course, below the formation", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).Embed }),
		w.num("Base rock under it", "the rock of the bed", quantity.Length, func(p *model.Project) *float64 { return &at(p).BaseRock }),
	}
}
