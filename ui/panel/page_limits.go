package panel

import (
	"context"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/assess"
	"hillset/ui/scene"
	"hillset/ui/sheet"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// limitsPage answers how far each thing may go, with a chart of the largest
// ratio against it.
func (w *Window) limitsPage() *workedPage {
	pg := newWorkedPage(w, "limits", "11 Limits", "How far each thing may go, the rest kept as drawn: the whole assessment is run over and over with one value changed. The line of each chart is the largest ratio; 1.00 is the limit. "+assess.CurvesCount)
	var curves []assess.Curve
	pg.clear = func() { curves = nil }
	pg.work = func(ctx context.Context, r *assess.Result, show func(func())) error {
		for _, id := range assess.CurveIDs() {
			c, err := assess.CurveOf(ctx, r, w.tables, id)
			if err != nil {
				return err
			}
			show(func() { curves = append(curves, c) })
		}
		return nil
	}
	pg.says = func() string { return "Limits of this project" }
	pg.make = func() []fyne.CanvasObject {
		var out []fyne.CanvasObject
		for i := range curves {
			out = append(out, w.curveCard(&curves[i]))
		}
		return out
	}
	return pg
}

// chartHeight is how tall a chart is, in units at the first size of letters.
const chartHeight = 210

// curveCard shows the answer to one question.
func (w *Window) curveCard(c *assess.Curve) fyne.CanvasObject {
	first, second := sheet.CurveWords(c, w.desk.Result(), w.desk.Units())
	objs := []fyne.CanvasObject{newFlow(c.Question).strong(), newFlow(first)}
	if second != "" {
		objs = append(objs, newFlow(second))
	}
	bare, gaps := sheet.ChartOf(c)
	if drawable(c) {
		sys := w.desk.Units()
		objs = append(objs, sketch.NewChart(func(width, height float64) (*scene.Scene, error) {
			return scene.BuildCurve(bare, scene.CurveOptions{Width: width, Height: height, Units: sys})
		}, w.look.palette, float64(w.set.Letters), fyne.NewSize(120, chartHeight*letters())))
	}
	if gaps != "" {
		objs = append(objs, newFlow(units.Say(gaps, w.desk.Units())).caption())
	}
	objs = append(objs, newFlow(units.Say(c.Held, w.desk.Units())).caption())
	text := ""
	for _, o := range objs {
		text += said(o)
	}
	return card(append(objs, container.New(&wrapped{gap: 4}, newChip("Copy this as text", func() { w.copyText(text) })))...)
}

// drawable tells whether a curve has a line: two values that gave a ratio.
func drawable(c *assess.Curve) bool {
	n := 0
	for _, p := range c.Points {
		if !math.IsNaN(p.Ratio) {
			n++
		}
	}
	return n > 1
}
