package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/frame"
	"hillset/engine/quantity"
)

var srcStill = "still water, " + quantity.Text(9.81, quantity.UnitWeight) + " (derived)"

// Sources of what presses, with how far each was seen.
const (
	srcK0      = "Jaky; Mayne and Kulhawy; UFC 3-220-20 Eq 4-2 (second-hand)"
	srcK0Slope = "EN 1997-1 9.5.2 (memory)"
	srcBroken  = "highway bridge rules, AASHTO LRFD Fig. 3.11.5.8.1-3 (memory)"
	srcOwn     = "weight of the column less pore pressure (derived)"
	srcLocked  = "Broms 1971, Ingold 1979 (memory)"
	srcSetback = "setback of the plant by NAVFAC DM-7.02 (memory)"
	srcElastic = "elastic half-space, doubled for a wall that does not give: strips and wheels Caltrans (second-hand), areas Holl 1940 (derived)"
	srcWood    = "Wood 1973, UFC 3-220-20 4-18 (second-hand); water UFC 3-220-20 4-19 (second-hand)"
	srcPrism   = "UFC 3-220-10 4-9 (second-hand)"
	srcFe      = "AASHTO LRFD 12.11.2.2.1, the embankment factor: form and cap 1.15 for compacted sides verified in a state manual, cap 1.40 otherwise (memory)"
	srcImpact  = "AASHTO LRFD 3.6.2.2 (second-hand)"
	srcSpread  = "elastic half-space under the footprints of the wheels, Boussinesq integrated (derived)"
	srcSnow    = "ground snow in full, as given for the site"
)

// pressureLines write how the pressure on a wall came about: the coefficient,
// and its parts at the foot of the sheet and where the pressure is largest.
func (j *job) pressureLines(w *wallLoad) []check.Line {
	pn := j.wallOf(w.face)
	cut := w.diagram.Slice(pn.zTop, pn.zBottom)
	if len(cut) == 0 {
		return nil
	}
	out := w.press.surfaceLines()
	foot := cut[len(cut)-1]
	rows := []earth.Row{foot}
	where := []string{"at the foot of the sheet"}
	if _, z := cut.MaxTotal(); z > foot.Level+sameStation {
		peak := cut.At(z)
		if above := cut.AtAbove(z); above.Total > peak.Total {
			peak = above
		}
		rows, where = append(rows, peak), append(where, "where the pressure is largest")
	}
	seen := ""
	for i := range rows {
		if rows[i].Layer != seen {
			out, seen = append(out, w.press.restLines(&rows[i])...), rows[i].Layer
		}
		out = append(out, j.rowLines(w, &rows[i], where[i])...)
	}
	return out
}

// surfaceLines write what surface the soil has that presses.
func (p *press) surfaceLines() []check.Line {
	beta := 0.0
	for i := range p.cols {
		beta = math.Max(beta, p.cols[i].Beta)
	}
	if beta == 0 {
		return nil
	}
	return []check.Line{{Text: "Slope of the surface: the straight line to the point at twice the height of fill", Formula: "tan β = Δz/(2·H)",
		Result: quantity.Of("β", beta, quantity.Angle), Source: srcBroken}}
}

// restLines write the coefficient of the soil of a row; none where no soil
// stands.
func (p *press) restLines(r *earth.Row) []check.Line {
	for i := range p.cols {
		c := &p.cols[i]
		for _, l := range c.Layers {
			k, err := earth.K0Slope(l.Phi, l.OCR, c.Beta)
			level, err2 := earth.K0(l.Phi, l.OCR)
			if err != nil || err2 != nil || l.Name != r.Layer || math.Abs(k-r.K) > tie {
				continue
			}
			out := []check.Line{{Text: "Coefficient at rest of " + l.Name + " below level ground", Formula: "K0 = (1 − sin φ')·OCR^sin φ'",
				Terms:  []quantity.Q{quantity.Of("φ'", l.Phi, quantity.Angle), quantity.Of("OCR", l.OCR, quantity.None)},
				Result: quantity.Of("K0", level, quantity.None), Source: srcK0}}
			if c.Beta > 0 {
				out = append(out, check.Line{Text: "The same below the slope", Formula: "K = K0·(1 + sin β)",
					Terms:  []quantity.Q{quantity.Of("K0", level, quantity.None), quantity.Of("β", c.Beta, quantity.Angle)},
					Result: quantity.Of("K", k, quantity.None), Source: srcK0Slope})
			}
			return out
		}
	}
	return nil
}

// rowLines write the pressure at one level, part by part; parts that are
// nothing are left out.
func (j *job) rowLines(w *wallLoad, r *earth.Row, where string) []check.Line {
	var out []check.Line
	kPa := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Pressure) }
	part := func(text, formula, sym string, v float64, source string, terms ...quantity.Q) {
		if v != 0 {
			out = append(out, check.Line{Text: text + " " + where, Formula: formula, Terms: terms, Result: kPa(sym, v), Source: source})
		}
	}
	wide := w.press.cols[0].Q
	part("Effective vertical stress", "σ'v = Σ γ·h + q − u", "σ'v", r.SigmaV, srcOwn,
		quantity.Of("level", r.Level, quantity.Length), quantity.Of("depth", r.Depth, quantity.Length), kPa("q", wide))
	part("Pressure of the soil", "σ'h = K·σ'v", "σ'h", r.Soil, srcK0, quantity.Of("K", r.K, quantity.None), kPa("σ'v", r.SigmaV))
	part("Pressure of the water", "u = γw·hw", "u", r.U, srcStill, quantity.Of("hw", r.U/earth.GammaW, quantity.Length))
	if r.Compaction != 0 {
		part("What compaction has locked in beyond that", "pc = √(2·p·γ/π)·L/(a + L) − σ'h", "pc", r.Compaction, srcLocked+"; "+srcSetback, j.plantTerms()...)
	}
	part("Pressure of the loads on the surface", "ph = 2·σx", "ph", r.Surcharge, srcElastic)
	part("Pressure of the earthquake", "ΔP = kh·γ·H², with the water swinging 0.875·kh·γw·√(h·z)", "pE", r.Quake, srcWood,
		quantity.Of("kh", j.p.Site.Climate.Kh, quantity.None))
	part("Pressure in all", "p = σ'h + u + pc + ph + pE", "p", r.Total, "sum of the parts (derived)")
	return out
}

// plantTerms are the machine that compacts and its distance from the wall.
func (j *job) plantTerms() []quantity.Q {
	plant, _ := j.t.Plant(j.p.Fill.Plant)
	return []quantity.Q{quantity.Of("p", plant.P, quantity.LineLoad), quantity.Of("L", plant.Width, quantity.Length),
		quantity.Of("a", j.p.Fill.PlantSetback, quantity.Length), quantity.Of("pmax", j.lock.Max, quantity.Pressure)}
}

// roofLines write how the load on a metre of roof came about; parts that are
// nothing are left out.
func (j *job) roofLines(s *roofSheet) []check.Line {
	var out []check.Line
	r, l := s.at, &s.at.load
	kPa := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Pressure) }
	length := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Length) }
	add := func(text, formula string, result quantity.Q, source string, terms ...quantity.Q) {
		if result.Val != 0 {
			out = append(out, check.Line{Text: text, Formula: formula, Terms: terms, Result: result, Source: source})
		}
	}
	add("Prism of soil over the roof, saturated below water", "w = Σ γ·h", kPa("w", r.prism), srcPrism, length("h", l.Cover))
	add("The soil beside settles more and hangs on to it", "Fe = 1 + 0.20·h/Bc, at most the cap", quantity.Of("Fe", r.fe, quantity.None), srcFe,
		length("h", l.Cover), length("Bc", j.box.W), quantity.Of("cap", j.feCap(), quantity.None))
	add("Pressure of the soil", "ws = Fe·w", kPa("ws", l.Soil), srcFe, quantity.Of("Fe", r.fe, quantity.None), kPa("w", r.prism))
	add("Build-up on the roof", "wl = Σ γ·t", kPa("wl", l.Layers), "layers as given")
	add("Water standing above the cover", "ww = γw·h", kPa("ww", l.Water), srcStill, length("h", l.Water/earth.GammaW))
	add("Snow", "S", kPa("S", l.Snow), srcSnow)
	add("Loads on areas above", "q", kPa("q", l.Area), "as given, not spread")
	if len(r.wheels) > 0 {
		add("Wheels: growth for impact under the cover", "IM = 0.33·(1 − 0.125·D), D in units of {length 0.3048 typed}", quantity.Of("IM", r.impact, quantity.None), srcImpact, length("D", r.depth))
		add("Wheels: largest pressure on this line across the roof, impact included", "w = (1 + IM)·Σ σz", kPa("w max", mostOf(r.wheels)), srcSpread)
		add("Wheels: the even pressure that stands for them on posts and drawing; the sheet takes them as they lie", "we = max(8·M/L², W/L)", kPa("we", l.Live), srcSpread, length("L", j.roofSpan()))
	}
	return out
}

// feCap is what the embankment factor of a very deep cover is.
func (j *job) feCap() float64 {
	most, err := earth.EmbankmentFactor(100*j.box.W, j.box.W, j.p.Fill.Proven)
	if err != nil {
		panic("assess: embankment factor of a box: " + err.Error())
	}
	return most
}

// mostOf is the largest pressure of a load.
func mostOf(load frame.Load) float64 {
	most := 0.0
	for _, p := range load {
		most = math.Max(most, p.P)
	}
	return most
}
