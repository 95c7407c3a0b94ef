package scene

import (
	"math"
	"strings"

	"hillset/engine/section"
	"hillset/geom"
)

// sign is a small drawing in mm about its own centre.
type sign struct {
	parts  [][]geom.Vec
	hw, hh float64 // half of its width and height, mm
	cost   int     // segments
}

func makeSign(parts ...[]geom.Vec) sign {
	s := sign{parts: parts}
	for _, p := range parts {
		s.cost += len(p) - 1
		for _, v := range p {
			s.hw, s.hh = math.Max(s.hw, math.Abs(v[0])), math.Max(s.hh, math.Abs(v[1]))
		}
	}
	return s
}

// pattern is rows of signs, set brickwise. Sizes are mm on paper.
type pattern struct {
	row, step float64 // distance of rows, and of signs in a row
	signs     []sign  // taken in turn
	width     float64 // of the strokes
	tint      Role
	ink       Role
	shake     float64 // share of the step by which signs stray
}

// tall is half the height of the tallest sign, mm.
func (p *pattern) tall() float64 {
	h := 0.0
	for _, s := range p.signs {
		h = max(h, s.hh)
	}
	return h
}

func dash(l float64) sign { return makeSign([]geom.Vec{{-l / 2, 0}, {l / 2, 0}}) }

// dot is a stroke as long as it is wide: a square dot on every renderer.
func dot(d float64) sign { return makeSign([]geom.Vec{{-d / 2, 0}, {d / 2, 0}}) }

// stone is an open rounded outline, w wide and h high, turned a little.
func stone(w, h, turn float64) sign {
	const n = 6
	out := make([]geom.Vec, n+1)
	for i := range out {
		a := 2 * math.Pi * float64(i%n) / n
		r := 1.0
		if i%n%3 == 1 {
			r = 0.84
		}
		x, y := r*w/2*math.Cos(a), r*h/2*math.Sin(a)
		s, c := math.Sincos(turn)
		out[i] = geom.Vec{x*c - y*s, x*s + y*c}
	}
	return makeSign(out)
}

func triangle(w float64) sign {
	h := w * 0.87
	return makeSign([]geom.Vec{{-w / 2, -h / 2}, {w / 2, -h / 2}, {0, h / 2}, {-w / 2, -h / 2}})
}

// strokes are n slanting strokes, the mark of earth.
func strokes(n int, l, gap float64) sign {
	d := l / 2 * math.Sqrt2 / 2
	parts := make([][]geom.Vec, n)
	for i := range parts {
		x := (float64(i) - float64(n-1)/2) * gap
		parts[i] = []geom.Vec{{x - d, -d}, {x + d, d}}
	}
	return makeSign(parts...)
}

// tuft is a root sign: blades from one foot.
func tuft(h float64) sign {
	return makeSign([]geom.Vec{{0, -h / 2}, {0, h / 2}}, []geom.Vec{{0, -h / 2}, {-h * 0.4, h * 0.3}}, []geom.Vec{{0, -h / 2}, {h * 0.4, h * 0.3}})
}

// zigzag joins to its neighbours when set at steps of l.
func zigzag(l, h float64) sign {
	return makeSign([]geom.Vec{{-l / 2, -h / 2}, {0, h / 2}, {l / 2, -h / 2}})
}

func upright(h float64) sign { return makeSign([]geom.Vec{{0, -h / 2}, {0, h / 2}}) }

// The hatches, after the public drawing standards listed in references/site.md
// section 5: gravel as open rounded outlines, sand as dots, silt as dashes and
// dots, clay as dashes, concrete as dots and triangles, foam as a zig-zag,
// fill as groups of slanting strokes.
var (
	gravelHatch   = pattern{row: 5, step: 7, signs: []sign{stone(2.6, 1.7, 0.2), stone(1.6, 1.1, -0.4), stone(2.2, 1.6, 0.6)}, width: wHair, tint: Gravel, ink: HatchSoil, shake: 0.16}
	siltyGravel   = pattern{row: 5, step: 6.4, signs: []sign{stone(2.4, 1.6, 0.2), dash(1.6), dot(0.35), stone(1.7, 1.2, -0.4)}, width: wHair, tint: Gravel, ink: HatchSoil, shake: 0.14}
	clayeyGravel  = pattern{row: 5, step: 6.4, signs: []sign{stone(2.4, 1.6, 0.2), dash(3), stone(1.7, 1.2, -0.4)}, width: wHair, tint: Gravel, ink: HatchSoil, shake: 0.12}
	sandHatch     = pattern{row: 2.7, step: 3.4, signs: []sign{dot(0.38)}, width: 0.38, tint: Sand, ink: HatchSoil, shake: 0.3}
	siltySand     = pattern{row: 2.9, step: 3.6, signs: []sign{dot(0.35), dot(0.35), dash(1.5)}, width: 0.25, tint: Sand, ink: HatchSoil, shake: 0.2}
	clayeySand    = pattern{row: 2.9, step: 3.9, signs: []sign{dot(0.35), dash(2.4), dot(0.35)}, width: 0.25, tint: Sand, ink: HatchSoil, shake: 0.15}
	siltHatch     = pattern{row: 3.0, step: 3.4, signs: []sign{dash(1.9), dot(0.3)}, width: wThin, tint: Silt, ink: HatchSoil}
	elasticSilt   = pattern{row: 2.5, step: 3.0, signs: []sign{dash(1.7), upright(1.1)}, width: wThin, tint: Silt, ink: HatchSoil}
	clayHatch     = pattern{row: 3.2, step: 6.0, signs: []sign{dash(3.6)}, width: wThin, tint: Clay, ink: HatchSoil}
	fatClay       = pattern{row: 2.3, step: 6.4, signs: []sign{dash(5.2)}, width: wThin, tint: Clay, ink: HatchSoil}
	organicHatch  = pattern{row: 3.6, step: 4.6, signs: []sign{dash(2.6), tuft(1.7)}, width: wThin, tint: Organic, ink: HatchSoil}
	peatHatch     = pattern{row: 3.4, step: 4.0, signs: []sign{tuft(2)}, width: wThin, tint: Organic, ink: HatchSoil, shake: 0.15}
	rockHatch     = pattern{row: 5, step: 7, signs: []sign{makeSign([]geom.Vec{{-2.4, 1.2}, {0, -1.2}, {1.1, 0.2}, {2.4, -0.9}})}, width: wThin, tint: Bedrock, ink: HatchSoil, shake: 0.1}
	stoneHatch    = pattern{row: 2.5, step: 2.8, signs: []sign{stone(2.3, 1.8, 0.3), stone(1.9, 1.6, -0.5), stone(2.1, 1.9, 1.2)}, width: wThin, tint: StoneTint, ink: HatchFill, shake: 0.06}
	fillHatch     = pattern{row: 4.2, step: 5.4, signs: []sign{strokes(3, 2.6, 1.0)}, width: wThin, tint: FillTint, ink: HatchFill}
	concreteHatch = pattern{row: 2.2, step: 2.7, signs: []sign{dot(0.3), triangle(1.2), dot(0.3)}, width: wThin, tint: Concrete, ink: HatchFill, shake: 0.2}
	foamHatch     = pattern{row: 2.4, step: 2.0, signs: []sign{zigzag(2, 1.5)}, width: wThin, tint: FoamTint, ink: HatchFill}
	boardHatch    = pattern{row: 1.2, step: 9, signs: []sign{dash(7.5)}, width: wThin, tint: Gravel, ink: HatchFill}
	lightHatch    = pattern{row: 3, step: 3.4, signs: []sign{stone(1.9, 1.9, 0)}, width: wHair, tint: Paper, ink: HatchFill}
	plainHatch    = pattern{row: 5, step: 7, signs: []sign{strokes(2, 2.2, 1.1)}, width: wHair, tint: Paper, ink: HatchSoil}
)

// byClass finds the hatch of a soil class or material by its name in capitals.
var byClass = map[string]*pattern{
	"GW": &gravelHatch, "GP": &gravelHatch, "GM": &siltyGravel, "GC": &clayeyGravel,
	"SW": &sandHatch, "SP": &sandHatch, "SM": &siltySand, "SC": &clayeySand,
	"ML": &siltHatch, "MH": &elasticSilt, "CL": &clayHatch, "CH": &fatClay,
	"OL": &organicHatch, "OH": &organicHatch, "PT": &peatHatch, "TOPSOIL": &peatHatch,
	"DRAIN-STONE": &stoneHatch, "PEA-GRAVEL": &stoneHatch, "CRUSHED-BASE": &stoneHatch,
	"ROCK": &rockHatch, "CONCRETE": &concreteHatch, "FOAM": &foamHatch, "BOARD": &boardHatch,
	"MEMBRANE": &boardHatch, "LIGHTFILL": &lightHatch,
}

// hatchOf chooses the hatch of a zone: by what it is for where the kind has a
// sign of its own, else by soil class. A soil of two classes takes the first.
func hatchOf(z *section.Zone) *pattern {
	name := strings.ToUpper(strings.TrimSpace(z.Hatch))
	switch z.Kind {
	case section.Rock, section.Bed:
		return &stoneHatch
	case section.Backfill:
		if byClass[name] == &stoneHatch {
			return &stoneHatch
		}
		return &fillHatch
	case section.Topsoil:
		return &peatHatch
	case section.Pad, section.Slab, section.Toe:
		return &concreteHatch
	case section.BedRock:
		return &rockHatch
	}
	if z.Kind == section.RoofLay && strings.EqualFold(z.Hatch, "rock") {
		return &stoneHatch
	}
	if p := byClass[name]; p != nil {
		return p
	}
	first, _, _ := strings.Cut(name, "-")
	if p := byClass[first]; p != nil {
		return p
	}
	return &plainHatch
}
