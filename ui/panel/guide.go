package panel

import (
	"errors"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"hillset/engine/model"
	"hillset/ui/sketch"
)

// step is what the user does next: in words, the page where, the tool that does
// it on the drawing, if one does, and the words beside the field that does it.
type step struct {
	words, page string
	tool        sketch.Tool
	row         string
}

// steps says for fields that are still empty what to do about them.
var steps = map[string]step{
	"site.ground":                        {"draw the ground line with the tool above (G), or type its points on page 1", "hill", sketch.DrawGround, ""},
	"site.strata":                        {"choose what the ground is made of on page 2", "soil", sketch.Select, ""},
	"site.strata[].soil":                 {"choose the soil of each layer on page 2", "soil", sketch.Select, ""},
	"site.strata[].top":                  {"draw or type the top of the lower layer on page 2", "soil", sketch.Select, ""},
	"site.water.design_high":             {"give the design high water level on page 3", "water", sketch.Select, ""},
	"site.soils[].kx":                    {"give the permeability of that soil on page 2", "soil", sketch.Select, ""},
	"site.water.seasonal":                {"give the seasonal water level on page 3", "water", sketch.Select, ""},
	"box.type":                           {"choose the container on page 4", "box", sketch.Select, ""},
	"box.front":                          {"place the box in the hill (C), or type its distance on page 4", "box", sketch.PlaceBox, ""},
	"box.level":                          {"set the level of the box lower, on page 4", "box", sketch.Select, ""},
	"cut.batter":                         {"the cut never meets the ground: draw the hill further up (G), or make the batter steeper on page 5", "cut", sketch.DrawGround, ""},
	"fill.back_slope":                    {"the fill never meets the ground: draw the hill further up (G), or change the rise of its surface on page 6", "fill", sketch.DrawGround, ""},
	"bedding.rock_soil":                  {"choose the rock under the box on page 4", "box", sketch.Select, ""},
	"fill.backfill":                      {"choose the soil of the backfill on page 6", "fill", sketch.Select, ""},
	"fill.plant":                         {"choose the compaction plant on page 6", "fill", sketch.Select, ""},
	"fill.rock_soil":                     {"choose the drainage rock on page 6", "fill", sketch.Select, ""},
	"fill.cap_soil":                      {"choose the soil of the clay cap on page 6", "fill", sketch.Select, ""},
	"fill.topsoil_soil":                  {"choose the topsoil on page 6", "fill", sketch.Select, ""},
	"stages":                             {"add a stage of the work on page 8", "stages", sketch.Select, ""},
	"site.surcharges[].vehicle":          {"choose the machine on page 8", "stages", sketch.Select, ""},
	"site.surcharges[].heading":          {"choose which way the machine points on page 8", "stages", sketch.Select, ""},
	"site.surcharges[].q":                {"give the load on the area on page 8", "stages", sketch.Select, ""},
	"strengthening.ribs.post":            {"choose the posts of the ribs on page 7", "strength", sketch.Select, ""},
	"strengthening.ribs.roof_beam":       {"choose the roof beam of the ribs on page 7", "strength", sketch.Select, ""},
	"strengthening.ribs.floor_tie":       {"choose the floor tie of the ribs on page 7", "strength", sketch.Select, ""},
	"strengthening.back_wales[].section": {"choose the bars of the wales on page 7", "strength", sketch.Select, ""},
	"strengthening.ribs.purlin":          {"choose the bar of the purlins on page 7", "strength", sketch.Select, ""},
	"strengthening.wales[].section":      {"choose the bars of the wales on page 7", "strength", sketch.Select, ""},
}

// rowOf says which words stand beside the field on its page.
var rowOf = map[string]string{
	"site.strata": "The ground is made of", "site.water.design_high": "Design high water", "site.water.seasonal": "Seasonal water",
	"box.type": "Container", "box.level": "Level of the castings", "bedding.rock_soil": "Bed rock",
	"bedding.pad_length": "Pad, along the box", "bedding.pad_width": "Pad, across", "bedding.pad_thickness": "Pad or slab thickness", "bedding.pad_fc": "Concrete of pads or slab, strength",
	"bedding.slab_bar": "Slab bars, diameter", "bedding.slab_bar_spacing": "Slab bars, spacing", "bedding.slab_bar_cover": "Slab bars, cover",
	"bedding.toe_beam.width": "Toe beam, width", "fill.backfill": "Backfill soil", "fill.side_slope": "Side slope of the mound",
	"fill.plant": "Compaction plant", "fill.rock_soil": "Rock", "fill.cap_soil": "Cap soil", "fill.topsoil_soil": "Topsoil soil",
	"strengthening.ribs.post": "Posts", "strengthening.ribs.roof_beam": "Roof beam", "strengthening.ribs.floor_tie": "Floor tie",
	"strengthening.ribs.purlin": "Purlin", "strengthening.stud_skin.species": "Studs, species", "strengthening.stud_skin.size": "Studs, size",
	"strengthening.stud_skin.plywood": "Sheathing", "strengthening.cavity.fill": "Cavity, filled with", "strengthening.cavity.fc": "Concrete, strength",
	"strengthening.cavity.lift": "Height of one pour", "strengthening.cavity.bar_spacing": "Upright bars, spacing", "strengthening.cavity.bar_cover": "Upright bars, cover",
	"strengthening.roof_slab.fc": "Slab, strength of the concrete", "strengthening.roof_slab.bar": "Bottom bars across, diameter",
	"strengthening.roof_slab.bar_spacing": "Bottom bars, spacing", "strengthening.roof_slab.bar_cover": "Bottom bars, cover",
	"strengthening.roof_slab.cross_spacing": "Beams, spacing", "strengthening.roof_slab.deck": "Deck", "strengthening.roof_slab.edge_beam": "Edge beams",
	"strengthening.roof_slab.post": "Posts outside", "strengthening.roof_slab.spacing": "Posts outside, spacing", "strengthening.roof_slab.footing": "Footings, side of the square", "site.cross_slope": "Cross slope",
}

// pageOf names the page on which a field is found, by the start of its path.
var pageOf = []struct{ start, page string }{
	{"site.ground", "hill"}, {"site.cross", "hill"}, {"site.bench", "hill"}, {"site.climate.ground_snow", "hill"}, {"site.climate.frost_depth", "hill"}, {"site.climate.kh", "hill"}, {"site.climate.design_rain", "hill"},
	{"site.climate", "climate"}, {"room", "climate"}, {"site.water", "water"},
	{"site.surcharges", "stages"}, {"site", "soil"}, {"box", "box"}, {"bedding", "box"}, {"cut", "cut"}, {"fill", "fill"},
	{"strengthening", "strength"}, {"wing_walls", "strength"}, {"prices", "sheet"}, {"invented", "sheet"}, {"water_defence", "water"}, {"stages", "stages"}, {"sheet", "sheet"}, {"title", "hill"},
}

var indices = regexp.MustCompile(`\[[0-9]+\]`)

// pathPattern leaves the numbers of list items out of a path.
func pathPattern(path string) string { return indices.ReplaceAllString(path, "[]") }

// nextStep turns a problem of the project into what to do about it.
func (w *Window) nextStep(p model.Problem) step {
	page := ""
	for _, q := range pageOf {
		if strings.HasPrefix(p.Field, q.start) {
			page = q.page
			break
		}
	}
	s, known := steps[pathPattern(p.Field)]
	s.row = rowOf[pathPattern(p.Field)]
	if known && (!p.Ranged || p.Field != "site.ground") {
		return s
	}
	p.Allowed = "" // too long for the strip; the page of the field says it
	return step{words: w.problemText(p), page: page, row: s.row}
}

// order is the working order of the pages; what stands first is to be done
// first.
var order = []string{"hill", "soil", "water", "box", "cut", "fill", "strength", "stages", "checks", "sheet", "limits", "advice", "flows", "scenarios", "climate"}

// firstThing is what to do next: what keeps the long section from being drawn,
// else the first problem of the project.
func (w *Window) firstThing(ps []model.Problem) (step, bool) {
	var p model.Problem
	if errors.As(w.long.Why(), &p) {
		return w.nextStep(p), true
	}
	return w.firstStep(ps)
}

// firstStep is the first thing to do of a list of problems, in working order.
func (w *Window) firstStep(ps []model.Problem) (step, bool) {
	for _, page := range append(order, "") {
		for _, p := range ps {
			if s := w.nextStep(p); s.page == page {
				return s, true
			}
		}
	}
	return step{}, false
}

// fieldNames calls fields of the file as the pages do.
var fieldNames = map[string]string{
	"site.ground": "ground line", "site.cross_slope": "cross slope", "site.strata": "layers of the ground", "site.water.design_high": "design high water",
	"site.water.seasonal": "seasonal water", "site.climate.ground_snow": "ground snow", "box.front": "front of the box", "box.level": "level of the box",
	"box.type": "container", "fill.front_top": "cover at the front edge", "fill.back_top": "cover at the back edge", "fill.backfill": "backfill",
	"fill.plant": "compaction plant", "fill.rock_soil": "drainage rock", "fill.cap_soil": "soil of the cap", "fill.topsoil_soil": "topsoil",
	"bedding.rock_soil": "rock under the box", "box.fy": "yield strength", "strengthening.ribs.spacing": "spacing of the ribs",
	"strengthening.stud_skin.species": "species of the studs", "strengthening.stud_skin.size": "size of the studs", "strengthening.stud_skin.plywood": "sheathing of the studs",
	"strengthening.cavity.fill": "filling of the cavity", "strengthening.cavity.fc": "strength of the concrete in the cavity", "strengthening.cavity.lift": "height of one pour in the cavity",
	"strengthening.cavity.bar_spacing": "spacing of the bars in the cavity", "strengthening.cavity.bar_cover": "cover of the bars in the cavity",
	"strengthening.roof_slab.fc": "strength of the concrete of the roof slab", "strengthening.roof_slab.bar": "bars of the roof slab", "strengthening.roof_slab.bar_spacing": "spacing of the bars of the roof slab",
	"strengthening.roof_slab.bar_cover": "cover of the bars of the roof slab", "strengthening.roof_slab.cross_spacing": "spacing of the roof's beams", "strengthening.roof_slab.deck": "deck of the roof",
	"strengthening.roof_slab.edge_beam": "edge beams of the roof", "strengthening.roof_slab.post": "posts outside", "strengthening.roof_slab.spacing": "spacing of the posts outside", "strengthening.roof_slab.footing": "footings of the posts outside",
	"strengthening.ribs.struts[].section": "bar of a strut", "box.openings[].bar": "frame of an opening", "fill.roof[].grade": "grade of the light fill",
	"fill.back_slope": "rise of the surface behind", "site.soils[].phi": "friction angle", "site.soils[].gamma": "moist unit weight", "site.soils[].gamma_sat": "saturated unit weight",
	"site.strata[].top": "top of a layer", "site.ground[]": "ground line", "sheet.date": "date of the sheet", "project": "project",
}

// fieldName calls a field as the pages do, or by the last part of its path.
func fieldName(path string) string {
	pat := pathPattern(path)
	if n, ok := fieldNames[pat]; ok {
		return n
	}
	if strings.HasPrefix(pat, "stages.") {
		return "stage"
	}
	parts := strings.Split(strings.ReplaceAll(pat, "[]", ""), ".")
	return strings.ReplaceAll(parts[len(parts)-1], "_", " ")
}

// sentence begins a text with a capital.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
