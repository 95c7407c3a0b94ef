package scene

import (
	"math"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
)

// The views of the tests are made by hand, not by the engine: what is tested
// is the drawing, and it must not change when the engine learns something.

func rectRegion(x0, z0, x1, z1 float64) geom.Region {
	return geom.Rect{Min: geom.Vec{x0, z0}, Max: geom.Vec{x1, z1}}.ToRegion()
}

//	                                ____----  ground
//	downhill           ____-----\  |
//	         ____----            \_|  cut
//
// ----------       |____________|
var (
	hill   = geom.Polyline{{0, 98.2}, {6, 99.0}, {12, 100.8}, {18, 102.6}, {26, 104.2}}
	seam   = geom.Polyline{{0, 97.2}, {12, 99.2}, {26, 101.8}}
	boxes  = geom.Rect{Min: geom.Vec{7, 99}, Max: geom.Vec{13.058, 101.591}}
	formed = 98.75
)

// pit is the surface of the cut: apron, floor, a face of 0.75:1 to the ground.
func pit() (geom.Polyline, geom.Vec, geom.Vec) {
	toe := geom.Vec{13.958, formed}
	crest, _ := geom.RayHit(toe.Add(geom.Vec{1e-6, 1e-6}), geom.Vec{0.75, 1}, hill)
	line := geom.Polyline{{0, 98.2}, {4.125, 98.75}, toe, crest}
	for _, p := range hill {
		if p[0] > crest[0] {
			line = append(line, p)
		}
	}
	return line, toe, crest
}

func strata(dug geom.Polyline) []section.Zone {
	base := geom.Polyline{{0, 96.2}, {26, 96.2}}
	top := geom.Lower(hill, dug)
	return []section.Zone{
		{Kind: section.Natural, Name: "Lean clay", Soil: "clay", Hatch: "CL", Region: geom.Between(top, geom.Lower(seam, top), 0, 26)},
		{Kind: section.Natural, Name: "Silty gravel", Soil: "gravel", Hatch: "GM", Region: geom.Between(geom.Lower(seam, top), base, 0, 26)},
	}
}

func natural() *section.View {
	return &section.View{
		Stage: model.Stage{ID: "natural", Name: "Natural hill", Kind: model.StageNatural},
		Long:  true, Station: math.NaN(), Ground: hill, Finish: hill, Strata: strata(hill), Water: math.NaN(), Formation: formed,
	}
}

func cutOpen() *section.View {
	v := natural()
	line, toe, crest := pit()
	v.Stage = model.Stage{ID: "cut", Name: "Cut open", Kind: model.StageCut}
	v.CutLine, v.Toe, v.Crest, v.CutHeight = line, toe, crest, crest[1]-toe[1]
	v.Finish = geom.Lower(hill, line)
	v.Strata = strata(line)
	v.Excavated = geom.Between(hill, v.Finish, 0, 26)
	v.Batters = []section.Batter{{Foot: toe, Top: crest, N: 0.75, Stratum: "clay"}}
	return v
}

// bedding of pads on rock, seen along the box.
func bedding(x0, x1 float64) []section.Zone {
	pads := append(rectRegion(x0, 98.9, x0+0.5, 99), rectRegion(x1-0.5, 98.9, x1, 99)...)
	return []section.Zone{
		{Kind: section.Bed, Name: "Drain stone", Soil: "stone", Hatch: "drain-stone", Region: rectRegion(x0, formed, x1, 98.9)},
		{Kind: section.Pad, Name: "pads", Hatch: "concrete", Region: pads},
	}
}

// roofZones are the build-up over the roof between two edges.
func roofZones(x0, x1, z0, z1 float64) []section.Zone {
	r := boxes.Max[1]
	level := func(dz float64) geom.Polyline { return geom.Polyline{{x0, r + dz}, {x1, r + dz}} }
	top := geom.Polyline{{x0, z0}, {x1, z1}}
	soil := top.Translate(geom.Vec{0, -0.15})
	return []section.Zone{
		{Kind: section.RoofLay, Name: "sheet membrane", Hatch: "membrane", Region: geom.Between(level(0.004), level(0), x0, x1)},
		{Kind: section.RoofLay, Name: "foam board", Hatch: "foam", Region: geom.Between(level(0.054), level(0.004), x0, x1)},
		{Kind: section.Backfill, Name: "Silty sand", Soil: "sand", Hatch: "SM", Region: geom.Between(soil, level(0.054), x0, x1)},
		{Kind: section.Topsoil, Name: "Topsoil", Soil: "topsoil", Hatch: "topsoil", Region: geom.Between(top, soil, x0, x1)},
	}
}

// service is the finished store in the long section, with water standing.
func service() *section.View {
	v := cutOpen()
	v.Stage = model.Stage{ID: "high", Name: "In service, high water", Kind: model.StageService, FillTo: 1, Cover: true, Water: model.WaterHigh}
	v.HasBox, v.Box, v.Doors, v.Water = true, boxes, true, 99.9
	v.Bedding = bedding(boxes.Min[0], boxes.Max[0])
	back := boxes.Max[0]
	line := geom.Polyline{{back, 102.2}, {26, 102.2 + 0.08*(26-back)}}
	body := geom.Upper(line, v.Finish)
	meet := geom.Intersections(line, v.Finish)[0]
	under := geom.Upper(line.Translate(geom.Vec{0, -0.15}), v.Finish)
	flat := geom.Polyline{{0, 101.4}, {26, 101.4}}
	v.Fill = append([]section.Zone{
		{Kind: section.Rock, Name: "Drain stone", Soil: "stone", Hatch: "drain-stone", Region: geom.Between(geom.Lower(under, flat), v.Finish, back, back+0.3)},
		{Kind: section.Backfill, Name: "Silty sand", Soil: "sand", Hatch: "SM",
			Region: append(geom.Between(under, v.Finish, back+0.3, meet[0]), geom.Between(under, flat, back, back+0.3)...)},
		{Kind: section.Topsoil, Name: "Topsoil", Soil: "topsoil", Hatch: "topsoil", Region: geom.Between(body, under, back, meet[0])},
	}, roofZones(boxes.Min[0], back, 101.9, 102.2)...)
	finish := append(append(geom.Polyline(nil), v.Finish.ClipX(0, boxes.Min[0])...),
		geom.Vec{boxes.Min[0] + 1e-6, 101.9}, geom.Vec{back, 102.2}, meet)
	for _, p := range hill {
		if p[0] > meet[0] {
			finish = append(finish, p)
		}
	}
	v.Finish = finish
	return v
}

// across is the finished store in the cross section, the right side higher.
func across() *section.View {
	ground := geom.Polyline{{-7, 100.6}, {7, 101.2}}
	w := 1.219
	cut := geom.Polyline{{-7, 100.6}, {-3.45, 100.752}, {-1.95, formed}, {1.95, formed}, {3.7, 101.0586}, {7, 101.2}}
	v := &section.View{
		Stage:   model.Stage{ID: "high", Name: "In service, high water", Kind: model.StageService, FillTo: 1, Cover: true, Water: model.WaterHigh},
		Station: 10, Ground: ground, Water: 99.9, Formation: formed, CutLine: cut, HasBox: true,
		Box:    geom.Rect{Min: geom.Vec{-w, 99}, Max: geom.Vec{w, 101.591}},
		Toe:    geom.Vec{1.95, formed},
		Crest:  geom.Vec{3.7, 101.0586},
		Finish: geom.Polyline{{-7, 100.6}, {-5.1, 100.6814}, {-2.2, 102.05}, {2.2, 102.05}, {4.2, 101.08}, {7, 101.2}},
		Batters: []section.Batter{{Foot: geom.Vec{1.95, formed}, Top: geom.Vec{3.7, 101.0586}, N: 0.758},
			{Foot: geom.Vec{-1.95, formed}, Top: geom.Vec{-3.45, 100.752}, N: 0.749}},
	}
	v.CutHeight = v.Crest[1] - v.Toe[1]
	dug := geom.Lower(ground, cut)
	base := geom.Polyline{{-7, 97.2}, {7, 97.2}}
	v.Excavated = geom.Between(ground, dug, -7, 7)
	v.Strata = []section.Zone{{Kind: section.Natural, Name: "Lean clay", Soil: "clay", Hatch: "CL", Region: geom.Between(dug, base, -7, 7)}}
	v.Bedding = bedding(-w, w)
	for _, s := range []float64{-1, 1} {
		x0, x1 := math.Min(s*w, s*7), math.Max(s*w, s*7)
		r0, r1 := math.Min(s*w, s*(w+0.3)), math.Max(s*w, s*(w+0.3))
		f0, f1 := math.Min(s*(w+0.3), s*7), math.Max(s*(w+0.3), s*7)
		surface := geom.Upper(v.Finish, dug)
		under := geom.Upper(surface.Translate(geom.Vec{0, -0.15}), dug)
		flat := geom.Polyline{{-7, 101.4}, {7, 101.4}}
		v.Fill = append(v.Fill,
			section.Zone{Kind: section.Rock, Name: "Drain stone", Soil: "stone", Hatch: "drain-stone", Region: geom.Between(geom.Lower(under, flat), dug, r0, r1)},
			section.Zone{Kind: section.Backfill, Name: "Silty sand", Soil: "sand", Hatch: "SM", Region: geom.Between(under, dug, f0, f1)},
			section.Zone{Kind: section.Topsoil, Name: "Topsoil", Soil: "topsoil", Hatch: "topsoil", Region: geom.Between(surface, under, x0, x1)})
	}
	v.Fill = append(v.Fill, roofZones(-w, w, 102.05, 102.05)...)
	return v
}

func soils(id string) (model.Soil, bool) {
	s, ok := map[string]model.Soil{
		"clay": {ID: "clay", Name: "Lean clay", USCS: "CL"}, "gravel": {ID: "gravel", Name: "Silty gravel", USCS: "GM"},
		"sand": {ID: "sand", Name: "Silty sand", USCS: "SM"}, "stone": {ID: "stone", Name: "Drain stone", USCS: "drain-stone"},
		"topsoil": {ID: "topsoil", Name: "Topsoil", USCS: "topsoil"},
	}[id]
	return s, ok
}

// diagram is at-rest pressure in two layers with water at 99.9.
func diagram(top, foot, k float64) earth.Diagram {
	row := func(level, soil float64) earth.Row {
		u := math.Max(0, 9.81*(99.9-level))
		return earth.Row{Level: level, Soil: soil, U: u, Total: soil + u}
	}
	mid := (top + foot) / 2
	d := earth.Diagram{row(top, k*2), row(mid, k*12), row(mid, k*15)}
	if mid > 99.9 && foot < 99.9 {
		d = append(d, row(99.9, k*20))
	}
	return append(d, row(foot, k*24))
}

// result is a made-up result with every verdict in it.
func result() *assess.Result {
	r := &assess.Result{Project: &model.Project{}}
	r.Project.Site.Water.Observed = []model.WaterPoint{{Pos: geom.Vec{17, 100.6}, Season: "wet season"}, {Pos: geom.Vec{20, 100.9}, Season: "dry season"}}
	r.Project.Site.Benchmark = model.Benchmark{Pos: geom.Vec{1.5, 98.6}, Description: "gate post"}
	for f, k := range map[section.Face]float64{section.Back: 1, section.Left: 0.7, section.Right: 1.1} {
		r.Loads = append(r.Loads, assess.Load{Stage: "high", Face: f, Station: 10, Diagram: diagram(101.591, 99, k), Thrust: 38.2 * k, Level: 99.82})
	}
	for i, x := range []float64{7, 9, 11, 13.058} {
		r.Roofs = append(r.Roofs, assess.RoofLoad{Stage: "high", Station: x, Total: 7 + 2.2*float64(i)})
	}
	add := func(part, title string, ratio float64) {
		r.Checks = append(r.Checks, check.Check{ID: title, Title: title, Part: part, Stage: "high", Ratio: ratio, RatioLRFD: math.NaN()})
	}
	add("right side wall", "Side sheet in bending", 1.8)
	add("left side wall", "Side sheet in bending", 1.313)
	add("back wall", "End sheet in bending", 1.004)
	add("roof", "Roof sheet in bending", 0.62)
	add("left top rail", "Top rail in bending", 0.93)
	add("right top rail", "Top rail in bending", 1.2)
	add("back header", "Header in bending", 0.4)
	add("bottom rails", "Bottom rails in bending", 0.55)
	add("box", "Flotation", 0.71)
	add("pads", "Bearing under the pads", 0.48)
	add("cut face", "Legal batter", 0.9)
	r.Checks = append(r.Checks, check.Unchecked("stud-skin", "Stud skin", "left side wall", "no species given"))
	r.Checks = append(r.Checks, check.Unchecked("ribs", "Ribs", "ribs", "no ribs given"))
	return r
}

// named are the views that most tests go through.
func named() map[string]*section.View {
	return map[string]*section.View{"natural": natural(), "cut": cutOpen(), "service": service(), "across": across()}
}
