package model

// New is the start of a project: the ordinary box and an ordinary way of
// building it in, but no hill. Ground, strata, soils and water are left empty,
// as nobody but the user knows them; until they are given, Validate says what
// is missing and nothing is computed. The design values are common practice
// unless said otherwise, and every one of them is the user's to change.
func New() *Project {
	return &Project{
		Format:  Format,
		Title:   "Untitled",
		Sheet:   Sheet{Size: "A3", Revision: "A"},
		Display: Display{Units: Metric},
		Box:     newBox(),
		Bedding: newBedding(),
		Cut:     newCut(),
		Fill:    newFill(),
		Defence: Defence{Drain: Drain{
			Present:  true,
			Diameter: 0.100, // the ordinary 4 in perforated pipe
			Depth:    0.15,  // invert below the formation, so that the bed drains into it
			Fall:     0.01,  // 1 in 100
			Outlet:   "gravity",
		}},
		Stages: DefaultStages(),
	}
}

// newBox is the 20 ft box of standard height, end-on, of unknown steel.
func newBox() Box {
	return Box{
		Type:        "20std",
		Orientation: EndOn,
		DrainFall:   0.01, // 1 in 100 towards the doors
	}
}

// newBedding is pads under the four corner castings on about 1 in of clean
// crushed rock, which leaves an air space under the cross members; a pad of
// 0.6 m square is about the size of a hand-laid slab.
func newBedding() Bedding {
	return Bedding{
		Kind:          PadBedding,
		PadLength:     0.6,
		PadWidth:      0.6,
		PadThickness:  0.15,
		RockThickness: 0.025,
	}
}

// newCut leaves room to work behind and beside the box, and takes the slope
// that needs no classification of the soil: 1.5 H:V (29 CFR 1926.652(b)(1)).
func newCut() Cut {
	return Cut{
		WorkBack:   0.6, // a person with a hand plate, and drainage rock
		WorkSide:   0.6,
		Apron:      3.0, // the doors open outwards and somebody loads
		Batter:     1.5,
		SideBatter: 1.5,
		HoursOpen:  240,                              // ten days: longer than any rule for cuts open briefly
		Spoil:      Spoil{Setback: 1.0, Height: 1.5}, // setback beyond the 0.61 m (2 ft) of 29 CFR 1926.651(j)
	}
}

// newFill covers the roof by 0.3 m, sloping back to the hill, and compacts by
// hand plate in thin lifts.
func newFill() Fill {
	return Fill{
		FrontTop:         0.3,
		BackTop:          0.3,
		Shoulder:         0.6,
		SideSlope:        2.0,     // 2 H:V: a permanent slope that can be mown
		LiftHeight:       0.15,    // 6 in loose by tampers at structures
		MaxAhead:         0.3,     // least of the usual 0.3 to 0.6 m
		Plant:            "plate", // a hand plate
		RockWidth:        0.3,
		RockTop:          0.3,
		CapThickness:     0.15,
		TopsoilThickness: 0.15,
	}
}
