package earth

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Lateral is the pressure of soil and water on a vertical face between the
// levels top and bottom. The surface may lie below top, and water may stand
// above the surface: the rows start at top all the same, with what acts there.
//
// At rest the coefficient is K0Slope of the layer at that depth; active it is
// the horizontal part of RankineKaSlope less cohesion by Bell, no tension,
// with the column's KFloor in soil with cohesion. Layers run parallel to the
// surface. Below the water level soil weighs GammaSat - GammaW, and the water
// presses in addition. Rows stand at every level where the line bends or
// jumps, so that linear interpolation between them is exact.
//
// Errors: what Validate finds, a layer that carries no surface as steep as
// Beta, a column that ends above bottom.
func (c Column) Lateral(st State, top, bottom float64) (Diagram, error) {
	met := 0
	for met < len(c.Layers) && c.Layers[met].Top > bottom {
		met++
	}
	// two rows a layer, the water, the face above the soil
	return c.lateral(make(Diagram, 0, 2*met+4), st, top, bottom)
}

// lateral is Lateral with its rows added to those given.
func (c *Column) lateral(rows Diagram, st State, top, bottom float64) (Diagram, error) {
	if err := c.Validate(); err != nil {
		return nil, err
	}
	if err := c.spans(top, bottom); err != nil {
		return nil, err
	}
	w := walk{c: c, top: top, bottom: bottom, rows: rows, crack: math.Inf(1)}
	w.above()
	for i := range c.Layers {
		if c.Layers[i].Top <= bottom {
			break
		}
		if err := w.layer(i, st); err != nil {
			return nil, limit.In(fmt.Sprintf("layers[%d]", i), err)
		}
	}
	if c.CrackWater && st == Active {
		w.fillCrack()
	}
	return w.rows, nil
}

// spans checks the levels of the face against the column.
func (c *Column) spans(top, bottom float64) error {
	err := limit.First(
		limit.Within("top", top, -maxLevel, maxLevel, quantity.Length),
		limit.Within("bottom", bottom, -maxLevel, maxLevel, quantity.Length))
	if err != nil {
		return err
	}
	if top <= bottom {
		return &limit.Error{Field: "top", Value: top, Lo: bottom, Hi: maxLevel, Kind: quantity.Length, Why: "the face must have height"}
	}
	if end := c.Layers[len(c.Layers)-1].Bottom; end > bottom+seam {
		return &limit.Error{Field: "bottom", Value: bottom, Lo: end, Hi: top, Kind: quantity.Length, Why: "the column of soil ends above it"}
	}
	return nil
}

// walk goes down a column and gathers the rows of a face.
type walk struct {
	c           *Column
	top, bottom float64
	rows        Diagram
	sv          float64 // effective vertical stress where the walk stands
	crack       float64 // level of the bottom of the tension crack; +Inf none found
	sound       bool    // soil in compression has been met: no crack below
}

// above adds the rows of a face that stands clear of the soil, with the water
// that may stand there.
func (w *walk) above() {
	s := w.c.Surface()
	if w.top <= s {
		return
	}
	end := math.Max(s, w.bottom)
	w.free(w.top)
	if w.c.Water < w.top && w.c.Water > end {
		w.free(w.c.Water)
	}
	w.free(end)
}

func (w *walk) free(z float64) {
	u := w.pore(z)
	w.add(Row{Level: z, Depth: w.c.Surface() - z, U: u, Total: u})
}

// pore is the water pressure at a level.
func (w *walk) pore(z float64) float64 { return w.c.water() * math.Max(0, w.c.Water-z) }

// water is how fast the water pressure grows downward, kN/m3.
func (c *Column) water() float64 {
	if c.Left == 0 {
		return GammaW
	}
	return GammaW * c.Left
}

// layer walks down one layer in the parts that the water level and the top of
// the face divide it into.
func (w *walk) layer(i int, st State) error {
	l := &w.c.Layers[i]
	start := l.Top
	if i == 0 {
		w.sv = w.c.Q
	} else {
		start = w.c.Layers[i-1].Bottom // the seam leaves the levels in order
	}
	end := math.Max(l.Bottom, w.bottom)
	if i == len(w.c.Layers)-1 {
		end = w.bottom // closes a gap no wider than the seam
	}
	inFace := end < w.top
	f := face{name: l.Name, floor: w.c.KFloor}
	if inFace || st == Active && w.c.CrackWater {
		var err error
		if f.k, f.drop, err = l.coefficients(st, w.c.Beta); err != nil {
			return err
		}
	}
	for z := start; z > end; {
		next, gamma := end, l.Gamma
		if w.c.Water >= z {
			gamma = l.GammaSat - w.c.water()
		} else if w.c.Water > end {
			next = w.c.Water
		}
		if w.top < z && w.top > next {
			next = w.top
		}
		w.part(f, z, next, gamma)
		z = next
	}
	return nil
}

// face turns vertical into horizontal effective stress within one layer.
type face struct {
	k, drop, floor float64
	name           string
}

// soil is the larger of what is left of the active pressure, nothing, and the
// floor; tension is not counted.
func (f face) soil(sv float64) float64 {
	if f.drop == 0 {
		return f.k * sv
	}
	return math.Max(f.k*sv-f.drop, f.floor*sv)
}

// part walks from level a down to b in one layer with one unit weight. Where
// the active line leaves zero or the floor a row is added between.
func (w *walk) part(f face, a, b, gamma float64) {
	sa, sb := w.sv, w.sv+gamma*(a-b)
	w.sv = sb
	w.crackIn(f, a, b, sa, sb)
	if b >= w.top {
		return
	}
	w.row(f, a, sa)
	if f.drop > 0 && f.k > f.floor {
		if bend := f.drop / (f.k - f.floor); bend > sa && bend < sb {
			w.row(f, a-(a-b)*(bend-sa)/(sb-sa), bend)
		}
	}
	w.row(f, b, sb)
}

// row adds the pressure at a level of the soil.
func (w *walk) row(f face, z, sv float64) {
	r := Row{Level: z, Depth: w.c.Surface() - z, SigmaV: sv, U: w.pore(z), K: f.k, Soil: f.soil(sv), Layer: f.name}
	r.Total = r.Soil + r.U
	w.add(r)
}

// add keeps a row unless it repeats the one above it.
func (w *walk) add(r Row) {
	if n := len(w.rows); n > 0 {
		p := &w.rows[n-1]
		if p.Level == r.Level && p.K == r.K && p.Total == r.Total && p.Layer == r.Layer && p.SigmaV == r.SigmaV {
			return
		}
	}
	w.rows = append(w.rows, r)
}
