package sheet

import (
	"math"

	"hillset/engine/check"
	"hillset/ui/scene"
)

// climate draws the sheets of frost, warmth and air after sheet n: the ground
// over the year beside what was worked out, and the checks. None where nothing
// of it is given.
func (d *document) climate(b *board, n int) {
	s := d.c.o.Structure
	if s == nil || s.Climate == nil || b.err != nil {
		return
	}
	n++
	f := d.fresh(b, n)
	left := d.c.climateTables(s.Climate)
	chart := f
	if d.size.Large {
		half := f
		half.w = 0.5*f.w - gutter/2
		chart.w, chart.h = half.w, chartShare*half.w
		d.groundChart(b, chart)
		half.y, half.h = half.y+chart.h+gutter, half.h-chart.h-gutter
		if left, _ = flow(b, half, left, capLeast, f.h); len(left) > 0 {
			half.x, half.y, half.h = f.x+0.5*f.w+gutter/2, f.y, f.h
			left, _ = flow(b, half, left, capLeast, f.h)
		}
	} else {
		chart.h = math.Min(0.35*f.h, chartShare*f.w)
		d.groundChart(b, chart)
		f.y, f.h = f.y+chart.h+gutter, f.h-chart.h-gutter
		left, _ = flow(b, f, left, capLeast, f.h)
	}
	d.furtherTables(b, n, left)
}

// groundChart draws the temperature of the ground over depth.
func (d *document) groundChart(b *board, f box) {
	f = heading(b, "groundtemp", ClimateTitle+": temperature of the ground over depth, four times a year", f)
	g, ok := GroundTempsOf(d.c.r)
	if !ok {
		d.excuse(b, "groundtemp", "the air over the year is not given", f)
		return
	}
	sc, err := scene.BuildGroundTemps(g, scene.CurveOptions{Width: f.w, Height: f.h, Units: d.c.o.Units})
	if err != nil {
		d.excuse(b, "groundtemp", err.Error(), f)
		return
	}
	b.lay(sc, f)
}

// climateTables are what was worked out, and the checks.
func (c *content) climateTables(words []WaterPart) queue {
	var out queue
	for _, p := range words {
		t := paragraphs("climate-words", p.Title, p.Lines)
		t.least = len(p.Lines) // each part stands together
		out = append(out, t)
	}
	var made, open []string
	for _, k := range ClimateChecks(c.r) {
		if k.Verdict() == check.NotChecked {
			open = append(open, k.Title+": "+Unmade(k, c.o.Units)+".")
			continue
		}
		made = append(made, c.workedLine(k))
	}
	if len(made) > 0 {
		out = append(out, paragraphs("climate-checks", "Checks of frost and air", made))
	}
	if len(open) > 0 {
		out = append(out, paragraphs("climate-unchecked", "Of frost and air, not checked", open))
	}
	return out
}
