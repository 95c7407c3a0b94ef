package panel

import (
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Sizes of the units that some fields are stored in, in SI.
const (
	mm     = 1e-3 // sheet thickness
	tonne  = 1e-3 // kg as t
	mpa    = 1e3  // MPa as kPa
	degree = 0.017453292519943295
)

// boxPage is the container and what it stands on.
func (w *Window) boxPage() *page {
	boxes := func(*model.Project) (ids, names []string) {
		for _, id := range w.tables.BoxIDs() {
			b, _ := w.tables.Box(id)
			ids, names = append(ids, id), append(names, b.Name)
		}
		return ids, names
	}
	return newPage("box", "4 Box", "Drag the box in the section, or type where it stands.", func(p *model.Project) []row {
		rows := []row{
			w.pick("Container", "", boxes, func(p *model.Project) *string { return &p.Box.Type }),
			w.pick("Set", "", fixed(model.EndOn, "end-on, doors downhill", model.Broadside, "broadside, along the contour"), func(p *model.Project) *string { return &p.Box.Orientation }),
			w.num("Front at distance", "", quantity.Length, func(p *model.Project) *float64 { return &p.Box.Front }),
			w.num("Level of the castings", "underside of the bottom corner castings", quantity.Length, func(p *model.Project) *float64 { return &p.Box.Level }).asLevel(),
			w.num("Fall towards the doors", "", quantity.Gradient, func(p *model.Project) *float64 { return &p.Box.DrainFall }),
			head("What was measured"),
			w.tick("Steel grade known from the maker", func(p *model.Project) *bool { return &p.Box.SteelKnown }),
			w.num("Yield strength", "", quantity.Stress, func(p *model.Project) *float64 { return &p.Box.Fy }).in(mpa).or("by grade").usually("yield"),
			w.num("Side sheet", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.SideT }).in(mm).or("as new").usually("side-sheet"),
			w.num("End sheet", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.EndT }).in(mm).or("as new").usually("end-sheet"),
			w.num("Roof sheet", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.RoofT }).in(mm).or("as new").usually("roof-sheet"),
			w.num("Deepest roof dent", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.RoofDent }).in(mm),
			w.num("Deepest side dent", "the deepest dent of a long wall", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.SideDent }).in(mm),
			w.num("Deepest end dent", "the deepest dent of the blind end", quantity.Thickness, func(p *model.Project) *float64 { return &p.Box.EndDent }).in(mm),
			w.tick("Sheets patched or straightened", func(p *model.Project) *bool { return &p.Box.Patched }),
			w.num("Empty weight", "", quantity.Mass, func(p *model.Project) *float64 { return &p.Box.Tare }).in(tonne).or("by type"),
			w.num("Gross rating on the plate", "", quantity.Mass, func(p *model.Project) *float64 { return &p.Box.PlateRating }).in(tonne).or("not read"),
			w.num("Ballast that stays inside", "a concrete floor or fixed weights; counts against floating and sliding", quantity.Mass, func(p *model.Project) *float64 { return &p.Box.Ballast }).in(tonne).or("none"),
			w.tick("Plywood floor taken out or rotten", func(p *model.Project) *bool { return &p.Box.NoFloor }),
			head("Rust and earth on the steel"),
			w.pick("Rusts in", "Years of rust are given by stage, on page 8.", w.environments, func(p *model.Project) *string { return &p.Box.RustIn }),
			w.tick("Room side rusts as fast as the outside", func(p *model.Project) *bool { return &p.Box.RustBoth }),
			w.num("Earth against the doors", "how high above the underside of the box; doors are gasketed leaves, made for weather", quantity.Length, func(p *model.Project) *float64 { return &p.Box.DoorFill }).or("none"),
			head("What it stands on"),
			w.pick("Bedding", "", fixed(model.PadBedding, "pads under the corners", model.RockBedding, "rock bed", model.SlabBedding, "concrete slab"), func(p *model.Project) *string { return &p.Bedding.Kind }),
			w.num("Pad, along the box", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.PadLength }),
			w.num("Pad, across", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.PadWidth }),
			w.num("Pad or slab thickness", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.PadThickness }),
			w.num("Concrete of pads or slab, strength", "of cylinders at 28 days", quantity.Stress, func(p *model.Project) *float64 { return &p.Bedding.PadFc }).in(mpa).or("not given"),
		}
		rows = append(rows, w.slabBars()...)
		rows = append(rows,
			w.num("Rock bed thickness", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.RockThickness }),
			w.pickSoil("Bed rock", "", func(p *model.Project) *string { return &p.Bedding.RockSoil }, "crushed-base", "drain-stone"),
			w.tick("Bed rock is graded, not of one size", func(p *model.Project) *bool { return &p.Bedding.Graded }),
			w.num("Settlement allowed", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Bedding.MaxSettle }).in(mm).limited("settlement", "of the pad that goes down most"),
			w.num("Tilt allowed", "", quantity.Gradient, func(p *model.Project) *float64 { return &p.Bedding.MaxTilt }).limited("tilt", "along or across, as the box settles"),
			w.num("Twist allowed", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Bedding.MaxTwist }).in(mm).limited("twist", "one corner out of the plane of the others: the doors bind"),
			w.num("Toe beam, depth", "concrete beam under the front sill", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.Toe.Depth }),
			w.num("Toe beam, width", "", quantity.Length, func(p *model.Project) *float64 { return &p.Bedding.Toe.Width }))
		return append(rows, w.openings(p)...)
	}).listing(func(p *model.Project) string { return count(len(p.Box.Openings)) })
}

// slabBars asks for the bars of a slab.
func (w *Window) slabBars() []row {
	b := func(p *model.Project) *model.Bedding { return &p.Bedding }
	slab := func(p *model.Project) bool { return b(p).Kind == model.SlabBedding }
	rows := when(slab, w.num("Slab bars, diameter", "both ways, near the underside", quantity.Thickness, func(p *model.Project) *float64 { return &b(p).SlabBar }).in(mm).or("plain").
		then(func(p *model.Project) {
			if b(p).SlabBar > 0 {
				fillIn(&b(p).SlabBarSpacing, slabGap)
				fillIn(&b(p).SlabBarCover, groundCover)
			}
		}))
	return append(rows, when(func(p *model.Project) bool { return slab(p) && b(p).SlabBar > 0 },
		w.num("Slab bars, spacing", "", quantity.Length, func(p *model.Project) *float64 { return &b(p).SlabBarSpacing }).or("not given"),
		w.num("Slab bars, cover", "clear, on the ground side", quantity.Length, func(p *model.Project) *float64 { return &b(p).SlabBarCover }).or("not given"))...)
}

// environments are what the steel may rust in.
func (w *Window) environments(*model.Project) (ids, names []string) {
	ids, names = []string{""}, []string{"fill, by how its compaction is proven"}
	for _, id := range w.tables.Environments() {
		c, _ := w.tables.Corrosion(id)
		ids, names = append(ids, id), append(names, c.Name)
	}
	return ids, names
}

// frameBar frames an opening until another bar is chosen.
const frameBar = "shs60x4"

// openings are the holes cut in walls and roof.
func (w *Window) openings(p *model.Project) []row {
	rows := []row{head("Openings cut in walls or roof"), w.words("What is beside them, or the frame round them, is checked. What closes them is not.")}
	for i := range p.Box.Openings {
		at := func(p *model.Project) *model.Opening { return &p.Box.Openings[i] }
		name := fmtIndex("Opening", i)
		rows = append(rows,
			w.pick(name+", in the", "", fixed("left", "left wall", "right", "right wall", "back", "back wall", "roof", "roof"), func(p *model.Project) *string { return &at(p).Wall }),
			w.num(name+", begins at", "from the front, or from the left in the back wall", quantity.Length, func(p *model.Project) *float64 { return &at(p).From }),
			w.num(name+", width", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).Width }),
			w.num(name+", sill", "above the floor line", quantity.Length, func(p *model.Project) *float64 { return &at(p).Sill }),
			w.num(name+", height", "", quantity.Length, func(p *model.Project) *float64 { return &at(p).Height }),
			w.tickBy(name+" has a frame", func(p *model.Project) bool { return at(p).Framed }, func(p *model.Project, on bool) {
				at(p).Framed = on
				if on && at(p).Bar == "" {
					at(p).Bar = frameBar
				}
			}))
		rows = append(rows, when(func(p *model.Project) bool { return i < len(p.Box.Openings) && at(p).Framed },
			w.pick(name+", frame of", "", w.bars, func(p *model.Project) *string { return &at(p).Bar }))...)
	}
	return append(rows, listButtons(w, "opening", "opening", func(p *model.Project) *[]model.Opening { return &p.Box.Openings }, func(l []model.Opening) model.Opening {
		id := freeID("opening", func(id string) bool {
			return slices.ContainsFunc(l, func(o model.Opening) bool { return o.ID == id })
		})
		return model.Opening{ID: id, Wall: "right", From: 1, Width: 0.9, Sill: 1, Height: 0.6} // a small window
	}))
}
