package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/check"
)

// mendPages are the pages on which something can be done about a check that is
// beyond its limits, by the id of the check; the likeliest stands first.
var mendPages = map[string][]string{
	"batter":            {"cut"},
	"spoil":             {"cut"},
	"trench-egress":     {"cut"},
	"sliding":           {"box", "fill", "water"}, // toe beam and ballast; proven fill; drained fill
	"overturning":       {"fill", "water", "box"},
	"resultant":         {"fill", "water", "box"},
	"flotation":         {"water", "box", "fill"},
	"pad-bearing":       {"box", "fill"},
	"settlement":        {"box", "soil", "fill"}, // wider pads, a thicker bed; what was found of the ground; less on the roof
	"tilt":              {"box", "soil", "fill"},
	"twist":             {"box", "soil", "fill"},
	"side-sheet":        {"strength", "fill", "water"},
	"end-sheet":         {"strength", "fill", "water"},
	"sheet-deflection":  {"strength", "fill", "water"},
	"header":            {"strength", "fill"},
	"sill":              {"box", "strength", "fill"},
	"wale":              {"strength", "fill"},
	"rib":               {"strength", "fill"},
	"purlin":            {"strength", "fill"},
	"top-rail":          {"strength", "fill"},
	"bottom-rail":       {"strength", "fill"},
	"cross-member":      {"box", "fill"},
	"roof-sheet":        {"strength", "fill"},
	"roof-deflection":   {"strength", "fill"},
	"crippling":         {"strength", "fill"},
	"roof-diaphragm":    {"strength", "fill"},
	"corner-post":       {"fill"},
	"end-frame":         {"strength", "fill"},
	"end-post":          {"strength", "fill"},
	"rib-deflection":    {"strength", "fill"},
	"wale-deflection":   {"strength", "fill"},
	"purlin-deflection": {"strength", "fill"},
	"strut":             {"strength", "fill"},
	"strut-sag":         {"strength", "fill"},
	"racking":           {"strength", "fill"},
	"girder":            {"strength", "fill", "box"},
	"sliding-across":    {"fill", "box", "water"}, // both sides together; ballast; drained fill
	"tipping-across":    {"fill", "box", "water"},
	"casting":           {"box", "fill"},
	"pad-concrete":      {"box", "fill"},
	"doors":             {"box", "water"},
	"opening":           {"box", "fill"},
	"stud":              {"strength", "fill"},
	"stud-deflection":   {"strength", "fill"},
	"skin-plywood":      {"strength", "fill"},
	"skin-footing":      {"strength", "fill"},
	"concrete-skin":     {"strength", "fill"},
	"pour":              {"strength", "fill"},
	"roof-slab":         {"strength", "fill"},
	"roof-slab-depth":   {"strength", "fill"},
	"roof-post":         {"strength", "fill"},
	"roof-edge-beam":    {"strength", "fill"},
	"roof-cross-beam":   {"strength", "fill"},
	"roof-deck":         {"strength", "fill"},
	"post-footing":      {"strength", "fill"},
	"roof-sway":         {"strength", "fill"},
	"roof-float":        {"strength", "fill"},
	"either-alone":      {"strength", "fill"},
	"inward-bow":        {"strength", "fill", "water"},
	"light-fill":        {"fill"},
	"cut-inflow":        {"cut", "water"},
	"slope":             {"soil", "cut", "fill", "water"},
	"slope-wet":         {"water", "soil", "fill"},
	"slope-quake":       {"soil", "fill"},
	"drain-pipe":        {"water"},
	"drain-velocity":    {"water"},
	"drain-fall":        {"water"},
	"drain-openings":    {"water", "soil"},
	"drain-rock":        {"fill", "water"},
	"drain-layout":      {"fill", "water"},
	"drain-outlet":      {"water", "box"},
	"drain-curtain":     {"water"},
	"interceptor-pipe":  {"water"},
	"filter-classic":    {"soil", "fill"},
	"filter-band":       {"soil", "fill", "water"}, // another stone, or a cloth between
	"filter-cloth":      {"water"},
	"sump":              {"water"},
	"pump-head":         {"water"},
	"pump-supply":       {"water"},
	"pump-stops":        {"water"},
	"swale":             {"water"},
	"membrane":          {"water"},
	"wing-height":       {"strength", "fill"},
	"wing-sliding":      {"strength", "fill", "water"},
	"wing-joint":        {"strength", "fill", "water"},
	"wing-overturning":  {"strength", "fill", "water"},
	"wing-resultant":    {"strength", "fill", "water"},
	"wing-bearing":      {"strength", "fill", "soil"},
	"wing-alone":        {"strength", "fill", "water"},
	"frost-bed":         {"box", "climate"}, // a toe beam; another bed
	"frost-fill":        {"fill", "soil"},
	"dew":               {"climate"},
	"mould":             {"climate"},
	"vapour":            {"climate"},
	"fresh-air":         {"climate"},
	"closed-air":        {"climate"},
	"moisture":          {"climate"},

	"roof-edge-beam-deflection":  {"strength", "fill"},
	"roof-cross-beam-deflection": {"strength", "fill"},
	"concrete-skin-deflection":   {"strength", "fill"},
	"skin-plywood-deflection":    {"strength", "fill"},
	"roof-deck-deflection":       {"strength", "fill"},
}

// mendRow are buttons to the pages where a check can be mended; nil for one
// that is within its limits or not made.
func (w *Window) mendRow(c *check.Check) fyne.CanvasObject {
	if c.Verdict() != check.Beyond {
		return nil
	}
	row := container.New(&wrapped{gap: 4})
	for _, key := range mendPages[c.ID] {
		for _, pg := range w.pages {
			if pg.about().key == key {
				row.Add(newChip("Change it on "+pg.about().name, func() { w.openPage(key) }))
			}
		}
	}
	return row
}
