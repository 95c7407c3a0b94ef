package tables

import "io/fs"

// Pipe is one drain pipe.
type Pipe struct {
	ID, Name     string
	Kind         string  // smooth, corrugated
	Bore         float64 // inside diameter, m
	NLow, N      float64 // Manning's n, s/m^(1/3): low end and design
	NHigh        float64
	Opening      string  // none, hole, slot
	OpeningWidth float64 // diameter of the hole or width of the slot, mm; 0 none
	Src          Source
}

// PumpPipe is one pipe from a pump.
type PumpPipe struct {
	ID, Name  string
	Bore      float64 // inside diameter, m
	CNew      float64 // Hazen-Williams C
	CAged     float64
	Roughness float64 // m
	Src       Source
}

// Lining is the greatest velocity that a cover of grass stands, m/s, by the
// grade of the ditch: up to 5 %, up to 10 %, above. Zero means not used.
type Lining struct {
	ID, Name string
	Resist   [3]float64 // on soil that resists erosion
	Erode    [3]float64 // on soil that erodes easily
	Src      Source
}

// Runoff is the runoff coefficient C of one surface in a 10-year storm.
type Runoff struct {
	ID, Name       string
	CLow, C, CHigh float64
	Src            Source
}

// CurveNumber is the curve number of one cover on the soil groups A, B, C and
// D, in ordinary wetness.
type CurveNumber struct {
	ID, Name string
	CN       [4]float64
	Src      Source
}

// Overland is Kerby's retardance of one surface.
type Overland struct {
	ID, Name string
	N        float64
	Src      Source
}

// ClothRow is what a drainage cloth must be by the fines of the soil, without
// a design for the site.
type ClothRow struct {
	FinesTo      float64 // share finer than 0.075 mm up to which the row holds
	Permittivity float64 // at least, 1/s
	AOS          float64 // apparent opening size at most, mm
	Src          Source
}

// DrainRule is one measure that a drain must have at least, or at most.
type DrainRule struct {
	ID, Name string
	Value    float64 // m, or a share
	Src      Source
}

// Membrane is one kind of layer that keeps water off the steel.
type Membrane struct {
	ID, Name string
	Least    float64 // thickness, m; 0 none given
	Head     bool    // holds against standing water
	Src      Source
}

// Texture is one class of ground by its grains, with the means of its retention
// curve (van Genuchten).
type Texture struct {
	ID, Name       string
	ThetaR, ThetaS float64 // water content by volume, residual and saturated
	Alpha          float64 // 1/m
	N              float64
	Ks             float64 // m/s
	Src            Source
}

// Node is one point of a curve in straight pieces, or the end of one step.
type Node struct {
	X, Y float64
	Src  Source
}

func parsePipe(r *row) Pipe {
	p := Pipe{
		ID: r.text("id"), Name: r.text("name"), Kind: r.oneOf("kind", "smooth", "corrugated"),
		Bore: r.num("bore_mm", mm, 25, 1000),
		NLow: r.num("n_low", 1, 0.008, 0.05), N: r.num("n", 1, 0.008, 0.05), NHigh: r.num("n_high", 1, 0.008, 0.05),
		Opening: r.oneOf("opening", "none", "hole", "slot"), OpeningWidth: r.num("opening_mm", 1, 0, 30), Src: r.source(),
	}
	switch {
	case r.err != nil:
	case p.N < p.NLow || p.N > p.NHigh:
		r.fail("n", r.raw("n"), "is outside its low and high end")
	case (p.Opening == "none") != (p.OpeningWidth == 0):
		r.fail("opening_mm", r.raw("opening_mm"), "does not go with the opening")
	}
	return p
}

func parsePumpPipe(r *row) PumpPipe {
	p := PumpPipe{
		ID: r.text("id"), Name: r.text("name"), Bore: r.num("bore_mm", mm, 10, 300),
		CNew: r.num("c_new", 1, 60, 160), CAged: r.num("c_aged", 1, 60, 160), Roughness: r.num("roughness_mm", mm, 0.0005, 3),
		Src: r.source(),
	}
	if r.err == nil && p.CAged > p.CNew {
		r.fail("c_aged", r.raw("c_aged"), "is smoother than new")
	}
	return p
}

func parseLining(r *row) Lining {
	l := Lining{ID: r.text("id"), Name: r.text("name")}
	for i, grade := range [3]string{"to5", "to10", "over10"} {
		l.Resist[i] = r.num("resist_"+grade+"_fps", foot, 0, 20)
		l.Erode[i] = r.num("erode_"+grade+"_fps", foot, 0, 20)
		switch {
		case r.err != nil:
		case l.Erode[i] > l.Resist[i] || (l.Erode[i] == 0) != (l.Resist[i] == 0):
			r.fail("erode_"+grade+"_fps", r.raw("erode_"+grade+"_fps"), "does not go with the soil that resists")
		case i > 0 && l.Resist[i] > l.Resist[i-1]:
			r.fail("resist_"+grade+"_fps", r.raw("resist_"+grade+"_fps"), "is above that of a flatter ditch")
		}
	}
	l.Src = r.source()
	return l
}

func parseRunoff(r *row) Runoff {
	c := Runoff{
		ID: r.text("id"), Name: r.text("name"),
		CLow: r.num("c_low", 1, 0, 1), C: r.num("c", 1, 0, 1), CHigh: r.num("c_high", 1, 0, 1), Src: r.source(),
	}
	if r.err == nil && (c.C < c.CLow || c.C > c.CHigh) {
		r.fail("c", r.raw("c"), "is outside its low and high end")
	}
	return c
}

func parseCurveNumber(r *row) CurveNumber {
	c := CurveNumber{ID: r.text("id"), Name: r.text("name"), Src: r.source()}
	for i, group := range [4]string{"a", "b", "c", "d"} {
		c.CN[i] = r.num(group, 1, 20, 100)
		if r.err == nil && i > 0 && c.CN[i] < c.CN[i-1] {
			r.fail(group, r.raw(group), "is below that of a looser soil")
		}
	}
	return c
}

func parseOverland(r *row) Overland {
	return Overland{ID: r.text("id"), Name: r.text("name"), N: r.num("n", 1, 0.01, 1), Src: r.source()}
}

func parseDrainRule(r *row) DrainRule {
	d := DrainRule{ID: r.text("id"), Name: r.text("name"), Value: r.num("value", 1, 0.001, 500), Src: r.source()}
	if r.oneOf("unit", "m", "share") == "share" && r.err == nil && d.Value > 1 {
		r.fail("value", r.raw("value"), "is more than all")
	}
	return d
}

// perCM turns one over centimetres into one over metres, and cmDay centimetres
// a day into m/s.
const (
	perCM = 100.0
	cmDay = 0.01 / 86400
)

func parseTexture(r *row) Texture {
	t := Texture{
		ID: r.text("id"), Name: r.text("name"), ThetaR: r.num("theta_r", 1, 0, 0.3), ThetaS: r.num("theta_s", 1, 0.2, 0.8),
		Alpha: r.num("alpha_per_cm", perCM, 0.001, 1), N: r.num("n", 1, 1.01, 10), Ks: r.num("ks_cm_day", cmDay, 0.01, 10000), Src: r.source(),
	}
	if r.err == nil && t.ThetaR >= t.ThetaS {
		r.fail("theta_r", r.raw("theta_r"), "is no less than the saturated content")
	}
	return t
}

func parseMembrane(r *row) Membrane {
	return Membrane{
		ID: r.text("id"), Name: r.text("name"), Least: r.num("least_mm", mm, 0, 20),
		Head: r.oneOf("holds_head", "yes", "no") == "yes", Src: r.source(),
	}
}

// readNodes reads a curve: x rises from row to row.
func readNodes(files fs.FS, file, x, y string) ([]Node, error) {
	var out []Node
	err := readRows(files, file, func(r *row) {
		n := Node{X: r.num(x, 1, 0, 1000), Y: r.num(y, 1, 0, 1000), Src: r.source()}
		if len(out) > 0 && n.X <= out[len(out)-1].X {
			r.fail(x, r.raw(x), "is out of order")
		}
		out = append(out, n)
	})
	return out, err
}

func readCloths(files fs.FS) ([]ClothRow, error) {
	var out []ClothRow
	err := readRows(files, "cloths.csv", func(r *row) {
		c := ClothRow{
			FinesTo: r.num("fines_to_pct", pct, 1, 100), Permittivity: r.num("permittivity_s", 1, 0.001, 10),
			AOS: r.num("aos_mm", 1, 0.01, 2), Src: r.source(),
		}
		if n := len(out); n > 0 && (c.FinesTo <= out[n-1].FinesTo || c.AOS > out[n-1].AOS || c.Permittivity > out[n-1].Permittivity) {
			r.fail("fines_to_pct", r.raw("fines_to_pct"), "is out of order")
		}
		out = append(out, c)
	})
	return out, err
}

// water is all tables of drains and rain.
type water struct {
	pipes        list[Pipe]
	pumpPipes    list[PumpPipe]
	linings      list[Lining]
	runoff       list[Runoff]
	curveNumbers list[CurveNumber]
	overland     list[Overland]
	drainRules   list[DrainRule]
	membranes    list[Membrane]
	textures     list[Texture]
	cloths       []ClothRow
	camp         []Node
	storms       []Node
	wetCN        []Node
	segregation  []Node
}

// load gives the steps that read the tables of water.
func (w *water) load(files fs.FS) []func() error {
	nodes := func(dst *[]Node, file, x, y string) func() error {
		return func() (err error) { *dst, err = readNodes(files, file, x, y); return }
	}
	return []func() error{
		into(&w.pipes, files, "pipes.csv", "id", parsePipe),
		into(&w.pumpPipes, files, "pumppipes.csv", "id", parsePumpPipe),
		into(&w.linings, files, "linings.csv", "id", parseLining),
		into(&w.runoff, files, "runoff.csv", "id", parseRunoff),
		into(&w.curveNumbers, files, "curvenumbers.csv", "id", parseCurveNumber),
		into(&w.overland, files, "overland.csv", "id", parseOverland),
		into(&w.drainRules, files, "drainrules.csv", "id", parseDrainRule),
		into(&w.membranes, files, "membranes.csv", "id", parseMembrane),
		into(&w.textures, files, "textures.csv", "id", parseTexture),
		func() (err error) { w.cloths, err = readCloths(files); return },
		nodes(&w.camp, "campn.csv", "depth_ratio", "n_ratio"),
		nodes(&w.storms, "storms.csv", "years", "factor"),
		nodes(&w.wetCN, "wetcn.csv", "cn", "wet"),
		nodes(&w.segregation, "segregation.csv", "d10_to_mm", "d90_mm"),
	}
}

// Pipe gives one drain pipe; false where there is none.
func (s *Set) Pipe(id string) (Pipe, bool) { return s.water.pipes.get(id) }

// PipeIDs gives the ids of the drain pipes.
func (s *Set) PipeIDs() []string { return s.water.pipes.ids }

// PumpPipe gives one pipe from a pump; false where there is none.
func (s *Set) PumpPipe(id string) (PumpPipe, bool) { return s.water.pumpPipes.get(id) }

// PumpPipeIDs gives the ids of the pipes from a pump.
func (s *Set) PumpPipeIDs() []string { return s.water.pumpPipes.ids }

// Lining gives one cover of a ditch; false where there is none.
func (s *Set) Lining(id string) (Lining, bool) { return s.water.linings.get(id) }

// LiningIDs gives the ids of the covers of a ditch.
func (s *Set) LiningIDs() []string { return s.water.linings.ids }

// Runoff gives the runoff coefficient of one surface; false where there is none.
func (s *Set) Runoff(id string) (Runoff, bool) { return s.water.runoff.get(id) }

// RunoffIDs gives the ids of the surfaces with a runoff coefficient.
func (s *Set) RunoffIDs() []string { return s.water.runoff.ids }

// CurveNumber gives the curve numbers of one cover; false where there is none.
func (s *Set) CurveNumber(id string) (CurveNumber, bool) { return s.water.curveNumbers.get(id) }

// CurveNumberIDs gives the ids of the covers with a curve number.
func (s *Set) CurveNumberIDs() []string { return s.water.curveNumbers.ids }

// Overland gives Kerby's retardance of one surface; false where there is none.
func (s *Set) Overland(id string) (Overland, bool) { return s.water.overland.get(id) }

// OverlandIDs gives the ids of the surfaces with a retardance.
func (s *Set) OverlandIDs() []string { return s.water.overland.ids }

// DrainRule gives one measure of a drain; false where there is none.
func (s *Set) DrainRule(id string) (DrainRule, bool) { return s.water.drainRules.get(id) }

// DrainRuleIDs gives the ids of the measures of a drain.
func (s *Set) DrainRuleIDs() []string { return s.water.drainRules.ids }

// Membrane gives one kind of membrane; false where there is none.
func (s *Set) Membrane(id string) (Membrane, bool) { return s.water.membranes.get(id) }

// MembraneIDs gives the ids of the membranes.
func (s *Set) MembraneIDs() []string { return s.water.membranes.ids }

// Texture gives one class of ground by its grains; false where there is none.
func (s *Set) Texture(id string) (Texture, bool) { return s.water.textures.get(id) }

// TextureIDs gives the ids of the classes by grains.
func (s *Set) TextureIDs() []string { return s.water.textures.ids }

// Cloths gives the default cloths in rising order of fines. Like the curves
// below, the slice must not be changed.
func (s *Set) Cloths() []ClothRow { return s.water.cloths }

// Camp gives Manning's n of a pipe over that of the full pipe, by depth over
// bore, from 0 to 1.
func (s *Set) Camp() []Node { return s.water.camp }

// Storms gives the multiplier of the runoff coefficient by return period, years.
func (s *Set) Storms() []Node { return s.water.storms }

// WetCN gives the curve number of wet ground by that of ordinary wetness.
func (s *Set) WetCN() []Node { return s.water.wetCN }

// Segregation gives the largest D90 of a filter, mm, by its least D10, mm: X is
// the end of each step, itself not included.
func (s *Set) Segregation() []Node { return s.water.segregation }
