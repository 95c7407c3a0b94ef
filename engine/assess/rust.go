package assess

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// rust is what eats the steel of the container, and from when.
type rust struct {
	t     *tables.Set
	row   tables.Corrosion
	life  float64 // years that a layer keeps the ground off the steel
	sides float64 // 1, the soil side, or 2
	// under is the rate under water, where seasonal water stands against the
	// walls; nil where it does not.
	under *tables.LossRate
}

// immersed is the row of the table of loss rates for steel under water: the
// table of the ground has no row for ground that is wet.
const immersed = "atmosphere"

// soaked is the rust of what stands in seasonal water.
func (r rust) soaked() (rust, error) {
	row, ok := r.t.LossRate(immersed)
	if !ok {
		return r, fmt.Errorf("assess: row %q is not in the table of loss rates", immersed)
	}
	r.under = &row
	return r, nil
}

// coatingKind is the layer of the water defence that covers the steel on all sides.
const coatingKind = "coating"

// below is the rust of what stands free in the crawl space below the floor: it
// eats from both faces, and a membrane round the box keeps nothing off there, only
// a coating does.
func (r rust) below(p *model.Project) rust {
	r.sides, r.life = 2, 0
	for _, l := range p.Defence.Layers {
		if l.Kind == coatingKind {
			r.life = math.Max(r.life, l.Life)
		}
	}
	return r
}

// loss is what one side loses in some years, m: in the ground, or under water
// where that is more.
func (r *rust) loss(years float64) (loss float64, under bool, err error) {
	if loss, err = r.t.Loss(r.row.ID, years); err != nil || r.under == nil {
		return loss, false, err
	}
	wet, err := r.under.At(years)
	return math.Max(loss, wet), wet > loss, err
}

// rustOf reads what the project says of rust. Where it names no environment the
// box lies in fill that is not aggressive, compacted only where that is proven.
func rustOf(p *model.Project, t *tables.Set) (rust, error) {
	r := rust{t: t, sides: 1}
	id := p.Box.RustIn
	if id == "" {
		id = "fill"
		if p.Fill.Proven {
			id = "compacted-fill"
		}
	}
	var ok bool
	if r.row, ok = t.Corrosion(id); !ok {
		return r, model.Problem{Field: "box.rust_in", Value: fmt.Sprintf("%q", id), Allowed: "empty, or one of " + strings.Join(t.Environments(), ", "),
			Text: "the table of corrosion has no such ground"}
	}
	if p.Box.RustBoth {
		r.sides = 2
	}
	for _, l := range p.Defence.Layers {
		r.life = math.Max(r.life, l.Life)
	}
	return r, nil
}

// worn is a thickness after some years of rust.
type worn struct {
	by    *rust
	was   float64 // m, measured or as new
	years float64 // since the box was set
	eaten float64 // years that the ground could eat
	loss  float64 // m from one side
	under bool    // it is that under water
	left  float64 // m
	least float64 // m, less is nothing
	thin  bool    // what is left cannot be rated: it counts as nothing
}

// wear lets a thickness rust. Less than least is no sheet or bar any more: the
// error then wraps steel.ErrRustedThrough. Years beyond the table of corrosion
// are a model.Problem.
func (r *rust) wear(t, years, least float64) (worn, error) {
	w := worn{by: r, was: t, years: years, eaten: math.Max(0, years-r.life), left: t, least: least}
	var err error
	if w.loss, w.under, err = r.loss(w.eaten); err != nil {
		return w, model.Problem{Field: "stages.years", Value: fmt.Sprint(years), Allowed: fmt.Sprintf("0 to %g", lastYear+r.life), Text: err.Error()}
	}
	w.left = math.Max(0, t-r.sides*w.loss)
	if w.left < least {
		return w, fmt.Errorf("%s of steel are %w after %g years", quantity.Text(t, quantity.Thickness), steel.ErrRustedThrough, years)
	}
	return w, nil
}

// lastYear is the last age of the table of corrosion, years.
const lastYear = 100

// lasts is how many years go by until a thickness has shrunk to least.
func (r *rust) lasts(t, least float64) float64 {
	return r.life + bisect(0, lastYear, func(y float64) bool {
		loss, _, err := r.loss(y)
		return err == nil && t-r.sides*loss >= least
	})
}

// source names the row that a loss is by.
func (w worn) source() string {
	if w.under {
		return fmt.Sprintf("%s: %s (%s)", w.by.under.Src.Text, strings.ToLower(w.by.under.Name), w.by.under.Src.Mark)
	}
	return w.by.source()
}

// source names the row of the corrosion table.
func (r *rust) source() string {
	return fmt.Sprintf("%s: %s (%s)", r.row.Src.Text, strings.ToLower(r.row.Name), r.row.Src.Mark)
}

// words say what was assumed of rust.
func (r *rust) words() []string {
	where := "on the soil side only"
	if r.sides == 2 {
		where = "on both sides"
	}
	out := []string{
		fmt.Sprintf("Rust eats the sheets and rails of the box %s, evenly, as bare steel in: %s (%s, %s). Pits go through long before.", where, strings.ToLower(r.row.Name), r.row.Src.Text, r.row.Src.Mark),
		"Weathering steel gets no benefit: it needs to be wet and dry in turn, and buried it is never dry (memory).",
		"The floor cross members, open channels, rust on both faces of their steel from the crawl space below the floor, as fast as the walls from the ground; only a coating holds that off.",
	}
	if r.under != nil {
		out = append(out, fmt.Sprintf("Seasonal water stands against the walls in service, or it cannot be told: sheets, rails and posts lose what steel loses under water, %s a year on each side that rusts (%s, %s), where that is more than in the ground. The roof does so only where the water stands over it.", quantity.Brief.Text(r.under.K, quantity.Thickness), r.under.Src.Text, r.under.Src.Mark))
	}
	if r.life > 0 {
		return append(out, fmt.Sprintf("The longest-lived layer of the water defence keeps the ground off the steel for %g years, as you gave it.", r.life))
	}
	return append(out, "No layer of the water defence has a life: the ground eats from the first day.")
}

// lines write how the thickness left came about, nothing where no years have
// gone by.
func (w worn) lines() []check.Line {
	if w.years <= 0 {
		return nil
	}
	mm := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Thickness) }
	years := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Years) }
	terms := []quantity.Q{years("ye", w.eaten)}
	loss, how := "Loss of one side in that time", "s from the table, straight between its ages"
	if w.under {
		loss = "Loss of one side in that time: seasonal water stands against the walls, and the rate under water is more than that in the ground"
		how, terms = "s = k·ye, k the loss of a year", append(terms, mm("k", w.by.under.K))
	}
	return []check.Line{{
		Text: "Years that the ground eats the steel: those since the box was set, less the life of the coating or membrane", Formula: "ye = y − ym, not below 0",
		Terms: []quantity.Q{years("y", w.years), years("ym", w.by.life)}, Result: years("ye", w.eaten), Source: "as given",
	}, {
		Text: loss, Formula: how,
		Terms: terms, Result: mm("s", w.loss), Source: w.source(),
	}, {
		Text: "Thickness left of what was measured, or of the new steel", Formula: "t = t0 − n·s, n sides",
		Terms:  []quantity.Q{mm("t0", w.was), quantity.Of("n", w.by.sides, quantity.None), mm("s", w.loss)},
		Result: mm("t", w.left), Source: "derived",
	}}
}

// through is the check of a part that has rusted away: it
// has no strength, whatever presses on it.
func (w worn) through(id, title string) check.Check {
	gone := "Rusted through: nothing is left that could carry, so no strength is counted."
	if w.thin {
		gone = "Rust has made its walls too thin for the formulas of their strength: they buckle, and no strength is counted."
	}
	until := quantity.Of("", w.by.lasts(w.was, w.least), quantity.Years)
	return check.Check{
		ID: id, Title: title, Method: "Thickness left after rust", Source: w.source(),
		Demand:   quantity.Of("n·s", w.by.sides*w.loss, quantity.Thickness),
		Capacity: quantity.Of("t0 − tmin", w.was-w.least, quantity.Thickness),
		Ratio:    math.Inf(1), RatioLRFD: math.Inf(1),
		Assumptions: []string{
			gone,
			"What presses on the bars along its edges is worked out as if it were still there.",
		},
		Validity: "Even loss of thickness. Pits go through long before.",
		Remedy:   "Rust has taken it by year {0}, coating or membrane included. A membrane that lasts longer, bare steel kept out of this ground and water, or a skin outside that takes the earth without it.",
		RemedyQ:  []quantity.Q{until},
		Working: append(w.lines(), check.Line{
			Text: "Years until so little is left that it counts for nothing", Formula: "n·s(y − ym) = t0 − tmin",
			Terms:  []quantity.Q{quantity.Of("tmin", w.least, quantity.Thickness)},
			Result: quantity.Of("y", until.Val, quantity.Years), Source: w.source(),
		}),
	}
}
