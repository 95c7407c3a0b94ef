package panel

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// hillPage is the site: the ground line as drawn or typed, the bench mark.
func (w *Window) hillPage() *page {
	return newPage("hill", "1 Hill", "Draw the ground with the tool above, or type it here: x runs into the hill.", func(*model.Project) []row {
		return []row{
			w.text("Project", "", func(p *model.Project) *string { return &p.Title }),
			head("Ground line"),
			w.lineTable("Ground line", "Distance and level, one point a line; paste from a spreadsheet works. Shift+Enter takes it.", 8, func(p *model.Project) *[]model.Vec { return &p.Site.Ground }),
			buttons(
				w.button("Measured shots…", w.shotsDialog),
				w.button("Import file…", w.importGround),
			),
			w.num("Cross slope", "rise for the way to the right, looking into the hill", quantity.Gradient, func(p *model.Project) *float64 { return &p.Site.CrossSlope }),
			head("Bench mark"),
			w.text("Description", "", func(p *model.Project) *string { return &p.Site.Benchmark.Description }),
			w.num("Its distance", "", quantity.Length, func(p *model.Project) *float64 { return &p.Site.Benchmark.Pos[0] }),
			w.num("Its level", "", quantity.Length, func(p *model.Project) *float64 { return &p.Site.Benchmark.Pos[1] }).asLevel(),
			head("Climate"),
			w.num("Ground snow", "", quantity.Pressure, func(p *model.Project) *float64 { return &p.Site.Climate.GroundSnow }),
			w.num("Frost depth", "as the building office gives it; page 15 computes it from the freezing index", quantity.Length, func(p *model.Project) *float64 { return &p.Site.Climate.FrostDepth }),
			w.num("Design rain", "how hard the design storm rains; page 3 says how long a storm to look up for the swale", quantity.Rate, func(p *model.Project) *float64 { return &p.Site.Climate.DesignRain }).in(mm / 3600),
			w.words("Temperatures, frost and the air inside are on page 15."),
			w.num("Earthquake kh", "share of gravity; acts in stages with earthquake", quantity.None, func(p *model.Project) *float64 { return &p.Site.Climate.Kh }),
		}
	})
}
