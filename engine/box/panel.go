package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Panel is an upright corrugated sheet loaded in its own plane: the end sheet
// between its posts, or a long wall between its corners.
type Panel struct {
	Profile steel.Profile
	Steel   Material
	Height  float64 // m, along the corrugations, between the bars they end on
	Dent    float64 // m, depth of the deepest dent: all of it counts as dented so
}

// PanelStrength is the nominal shear strength of a panel, kN per m of its
// length.
type PanelStrength struct {
	Flat  float64 // yield, or buckling of its widest flat or slope
	Whole float64 // buckling of the whole sheet
}

// Strength finds the shear strength of a panel.
func (p Panel) Strength() (PanelStrength, error) {
	for _, err := range []error{p.Steel.check(), quantity.Within("panel height", p.Height, minHeight, maxHeight, quantity.Length)} {
		if err != nil {
			return PanelStrength{}, err
		}
	}
	g, err := p.Profile.Props()
	if err != nil {
		return PanelStrength{}, err
	}
	dented, err := p.Profile.Dented(p.Dent)
	if err != nil {
		return PanelStrength{}, err
	}
	bent, err := dented.Props()
	if err != nil {
		return PanelStrength{}, err
	}
	t := p.Profile.T
	wide := math.Max(g.SlopeLen, math.Max(p.Profile.A, p.Profile.B))
	return PanelStrength{
		Flat:  flatShear(p.Steel.Fy, wide/t) * t,
		Whole: wholeSheet(dented, bent, p.Height),
	}, nil
}

// kFlat is the shear buckling coefficient of a long flat held at both edges.
const kFlat = 5.34

// flatShear is the shear stress that a flat of the given width over thickness
// takes: yield, or buckling (form of AISI S100 G2.1, memory), kPa.
func flatShear(fy, wt float64) float64 {
	edge := math.Sqrt(steel.EAISI * kFlat / fy)
	switch {
	case wt <= edge:
		return 0.60 * fy
	case wt <= 1.51*edge:
		return 0.60 * math.Sqrt(steel.EAISI*kFlat*fy) / wt
	}
	return 0.60 * 1.51 * steel.EAISI * kFlat / (wt * wt)
}

// wholeSheet is the shear flow at which a corrugated sheet buckles as a whole,
// kN/m, its corrugations span m long (Easley, memory).
func wholeSheet(p steel.Profile, g steel.SheetProps, span float64) float64 {
	line := p.A + p.B + 2*g.SlopeLen
	weak := steel.EAISI * math.Pow(p.T, 3) / 12 * g.Pitch / line
	strong := steel.EAISI * g.Inertia
	return easleyBeta * math.Pow(weak, 0.25) * math.Pow(strong, 0.75) / (span * span)
}

// Available is the shear flow within limits, service and factored, kN/m.
func (s PanelStrength) Available() Pair {
	return Pair{
		math.Min(s.Flat/steel.OmegaShear, s.Whole/omegaDeck),
		math.Min(s.Flat*steel.PhiShear, s.Whole*phiDeck),
	}
}

// Together is the ratio of a sheet that carries the shear flow v in its own
// plane, kN/m, and has used the share bend of its strength across it. Yield
// and the buckling of flats go together as on a circle (form of AISI S100 H2,
// memory); buckling of the whole sheet adds in full, since a sheet near it has
// no stiffness left to bend with (linear, the more severe: derived).
func (s PanelStrength) Together(v, bend Pair) Pair {
	return Pair{s.used(&asdForm, v.ASD, bend.ASD), s.used(&lrfdForm, v.LRFD, bend.LRFD)}
}

// used is Together in one form of strength.
func (s PanelStrength) used(form *strengthForm, v, bend float64) float64 {
	flat, whole := s.Flat*form.panel, s.Whole*form.deck
	return math.Max(math.Hypot(v/flat, bend), v/whole+bend)
}

// told says what a dent does to the check of a panel.
func (p Panel) told(c *check.Check) {
	if p.Dent > 0 {
		c.Assumptions = append(c.Assumptions, "All of the sheet counts as dented as deep as its deepest dent where it may buckle as a whole: our own model, on the careful side.")
	}
}

// panelLines write the strength of a panel.
func panelLines(p Panel, s PanelStrength) []check.Line {
	var out []check.Line
	if p.Dent > 0 {
		out = append(out, dentLine(p.Profile, p.Dent))
	}
	return append(out, []check.Line{{
		Text: "Shear yield of the sheet, or buckling of its widest flat if less", Formula: "vy ≤ 0.6·Fy·t",
		Terms: []quantity.Q{
			quantity.Of("Fy", p.Steel.Fy, quantity.Stress), quantity.Of("t", p.Profile.T, quantity.Thickness),
		},
		Result: quantity.Of("vy", s.Flat, quantity.LineLoad), Source: srcShear,
	}, {
		Text: "Shear buckling of the whole sheet", Formula: "vcr = 36·Dx^¼·Dy^¾/h²",
		Terms:  []quantity.Q{quantity.Of("h", p.Height, quantity.Length)},
		Result: quantity.Of("vcr", s.Whole, quantity.LineLoad), Source: srcEasley,
	}}...)
}

const (
	srcEasley   = "Easley (memory), Ω 2.00, φ 0.80"
	srcTogether = "circle with yield (form of AISI S100 H2, memory), sum with buckling of the whole sheet (derived, the more severe)"
	srcCombos   = "load combinations of the building code form (verified)"
	srcH1       = "AISC 360 H1-1 (memory)"
)

// bedShare is the share of the stiffness of a sheet that is counted to hold a
// rail along its edge: between its last bend and the rail a sheet is flat plate
// (common practice, no source).
const bedShare = 0.1

// RailBed is how stiffly a roof sheet, folded across the box, holds a top rail
// sideways, kN/m per m of rail: its strip from the rail to the middle of the
// roof, of which a tenth is counted.
func RailBed(roof steel.Profile, m Material, width float64) (float64, error) {
	g, err := roof.Props()
	if err != nil {
		return 0, err
	}
	for _, err := range []error{m.check(), quantity.Within("roof width", width, 0.5, 6, quantity.Length)} {
		if err != nil {
			return 0, err
		}
	}
	return bedShare * m.E * g.Area / (width / 2), nil
}

// bedded is a rail in compression that a sheet holds all along: a strut on an
// elastic bed buckles at 2·√(k·E·I), with the column curve.
// Where the sheet is cut it buckles sooner: see gapLoad.
type bedded struct {
	Pcr, Pn float64 // kN
	Loose   float64 // m, that counts as held by nothing; 0 where the sheet is whole
}

// bed is what holds a rail of a length sideways.
type bed struct {
	Stiff  float64 // RailBed
	Cuts   []RoofCut
	Length float64 // m, of the rail
}

func beddedStrut(b steel.Bar, m Material, on bed) (bedded, error) {
	if err := quantity.Range("stiffness of the sheet beside the rail", on.Stiff, 1, 1e9); err != nil {
		return bedded{}, err
	}
	if err := checkCuts(on.Cuts, on.Length); err != nil {
		return bedded{}, err
	}
	ei := m.E * math.Min(b.Ix, b.Iy)
	out := bedded{Loose: looseLength(on.Cuts, on.Length, endlessBed(ei, on.Stiff))}
	out.Pcr = gapLoad(ei, on.Stiff, out.Loose)
	klr := math.Pi * math.Sqrt(m.E*b.Area/out.Pcr)
	fn, _, err := steel.ColumnStress(m.Fy, m.E, klr)
	out.Pn = b.Area * fn
	return out, err
}

// lines write the strength of such a strut.
func (s bedded) lines(b steel.Bar, m Material, bed float64) []check.Line {
	first := check.Line{
		Text: "Top rail as a strut, held sideways by the roof sheet all along", Formula: "Pcr = 2·√(k·E·I)",
		Terms: []quantity.Q{
			quantity.Of("k", bed, quantity.Pressure), quantity.Of("E", m.E, quantity.Stress),
			quantity.Of("I", math.Min(b.Ix, b.Iy), quantity.SecondMoment),
		},
		Result: quantity.Of("Pcr", s.Pcr, quantity.Force), Source: "strut on an elastic bed (derived)",
	}
	if s.Loose > 0 {
		first.Text = "Top rail as a strut, held sideways by the roof sheet, but not along a cut in it"
		first.Formula = "m·cot(m·g/2) = (m² − S)/√(2S − m²), Pcr = m²·E·I, S = √(k/(E·I))"
		first.Terms = append(first.Terms, quantity.Of("g", s.Loose, quantity.Length))
	}
	return []check.Line{first, {
		Text: "Strength of that strut", Formula: "Pn = A·Fn",
		Terms: []quantity.Q{
			quantity.Of("A", b.Area, quantity.Area), quantity.Of("Fn", s.Pn/b.Area, quantity.Stress),
		},
		Result: quantity.Of("Pn", s.Pn, quantity.Force), Source: srcColumn,
	}}
}

const bedAssume = "The roof sheet, folded across the box, holds the top rails sideways all along, with a tenth of its stiffness, and the side sheets hold them up and down. Along a cut in the roof, framed or not, nothing holds them sideways."
