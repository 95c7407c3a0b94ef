package tables

// Corrosion is the loss of thickness of one side of bare steel in one
// environment at the ages of the table; linear in between and from zero at
// the start.
type Corrosion struct {
	ID, Name string
	Loss     [5]float64 // m per side after corrosionYears
	Src      Source
}

// corrosionYears are the ages at which the corrosion table gives losses.
var corrosionYears = [5]float64{5, 25, 50, 75, 100}

// LossRate is a loss of thickness of one side by the power law k·tⁿ, t in
// years; with n = 1, K is a plain rate.
type LossRate struct {
	ID, Name string
	K        float64 // m in the first year
	N        float64
	Src      Source
}

// Geofoam is one type of expanded polystyrene block: least resistance at 1, 5
// and 10 % strain. A lasting stress may not exceed that at 1 %.
type Geofoam struct {
	ID, Name    string
	Density     float64 // kg/m3
	S1, S5, S10 float64 // kPa
	Src         Source
}

// Foam is an insulating foam. Its strength carries nothing in a check.
type Foam struct {
	ID, Name string
	Density  float64 // kg/m3
	Strength float64 // compressive, kPa
	Lambda   float64 // thermal conductivity, W/(m·K)
	Src      Source
}

// Lumber is sawn lumber of grade No. 2 by species and size: reference design
// values before any factor, and the size factor for bending.
type Lumber struct {
	ID, Species, Size   string
	B, D                float64 // dressed breadth and depth, m
	Fb, Ft, Fv, FcP, Fc float64 // kPa; FcP across the grain
	E, Emin             float64 // kPa
	CF                  float64 // size factor for bending; 1 where included
	Src                 Source
}

// Plywood is one span rating, strength axis across the supports, dry and
// without duration factor.
type Plywood struct {
	ID, Name string
	FbS      float64 // bending resistance, kNm per m
	EI       float64 // kNm2 per m
	Src      Source
}

// Earthwork is how one soil swells when it is dug and shrinks when it is
// compacted, both as shares of the volume in the bank. Weights of 0 are not
// given.
type Earthwork struct {
	ID, Name               string
	Loose, Bank, Compacted float64 // kg/m3
	Swell, Shrink          float64
	Src                    Source
}

// Aggregate is bought stone on the truck and compacted in place.
type Aggregate struct {
	ID, Name         string
	Loose, Compacted float64 // kg/m3
	Src              Source
}

const (
	um    = 1e-6                                    // to m
	psi   = 144 * psf                               // to kPa
	inch  = 0.0254                                  // to m
	lbyd3 = 0.45359237 / (0.9144 * 0.9144 * 0.9144) // to kg/m3
	lbf   = 0.0044482216152605                      // to kN
	rInch = 0.0254 / 0.1761101838                   // 1/lambda per R (ft2·h·°F/BTU) of one inch
)

func parseCorrosion(r *row) Corrosion {
	c := Corrosion{ID: r.text("id"), Name: r.text("name")}
	last := 0.0
	for i, col := range []string{"y5_mm", "y25_mm", "y50_mm", "y75_mm", "y100_mm"} {
		c.Loss[i] = r.num(col, mm, 0, 20)
		if r.err == nil && c.Loss[i] < last {
			r.fail(col, r.raw(col), "is less than at a lower age")
		}
		last = c.Loss[i]
	}
	c.Src = r.source()
	return c
}

func parseLossRate(r *row) LossRate {
	return LossRate{
		ID: r.text("id"), Name: r.text("name"),
		K: r.num("k_um", um, 0.1, 1000), N: r.num("n", 1, 0.2, 1), Src: r.source(),
	}
}

func parseGeofoam(r *row) Geofoam {
	g := Geofoam{
		ID: r.text("id"), Name: r.text("name"), Density: r.num("density_kg_m3", 1, 5, 100),
		S1: r.num("s1_kPa", 1, 1, 1000), S5: r.num("s5_kPa", 1, 1, 1000), S10: r.num("s10_kPa", 1, 1, 1000),
		Src: r.source(),
	}
	if r.err == nil && (g.S1 >= g.S5 || g.S5 >= g.S10) {
		r.fail("s5_kPa", r.raw("s5_kPa"), "is out of order with those at 1 and 10 %")
	}
	return g
}

func parseFoam(r *row) Foam {
	f := Foam{
		ID: r.text("id"), Name: r.text("name"), Density: r.num("density_kg_m3", 1, 5, 200),
		Strength: r.num("strength_kPa", 1, 1, 2000), Lambda: r.num("r_per_in", 1, 1, 10), Src: r.source(),
	}
	if r.err == nil {
		f.Lambda = rInch / f.Lambda
	}
	return f
}

func parseLumber(r *row) Lumber {
	l := Lumber{
		ID: r.text("id"), Species: r.text("species"), Size: r.oneOf("size", "2x4", "2x6", "2x8"),
		B: r.num("b_in", inch, 0.5, 12), D: r.num("d_in", inch, 1, 16),
		Fb: r.num("fb_psi", psi, 100, 4000), Ft: r.num("ft_psi", psi, 100, 4000), Fv: r.num("fv_psi", psi, 50, 500),
		FcP: r.num("fcp_psi", psi, 100, 1500), Fc: r.num("fc_psi", psi, 100, 4000),
		E: r.num("e_psi", psi, 5e5, 3e6), Emin: r.num("emin_psi", psi, 2e5, 2e6),
		CF: r.num("cf", 1, 0.8, 1.5), Src: r.source(),
	}
	if r.err == nil && l.ID != l.Species+" "+l.Size {
		r.fail("id", l.ID, "is not species and size")
	}
	return l
}

func parsePlywood(r *row) Plywood {
	return Plywood{
		ID: r.text("id"), Name: r.text("name"),
		FbS: r.num("fbs_lb_in_ft", lbf*inch/0.3048, 50, 5000),
		EI:  r.num("ei_lb_in2_ft", lbf*inch*inch/0.3048, 1e4, 5e6),
		Src: r.source(),
	}
}

func parseEarthwork(r *row) Earthwork {
	return Earthwork{
		ID: r.text("id"), Name: r.text("name"),
		Loose: r.num("loose_lb_yd3", lbyd3, 0, 6000), Bank: r.num("bank_lb_yd3", lbyd3, 0, 6000),
		Compacted: r.num("compacted_lb_yd3", lbyd3, 0, 6000),
		Swell:     r.num("swell_pct", pct, 0, 100), Shrink: r.num("shrink_pct", pct, -60, 50),
		Src: r.source(),
	}
}

func parseAggregate(r *row) Aggregate {
	return Aggregate{
		ID: r.text("id"), Name: r.text("name"),
		Loose:     r.num("loose_lb_yd3", lbyd3, 1000, 5000),
		Compacted: r.num("compacted_lb_yd3", lbyd3, 1000, 5000),
		Src:       r.source(),
	}
}
