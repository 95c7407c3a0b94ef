package tables

// Crippling is one row of the coefficients of web crippling of sheets with many
// webs: Pn = C·t²·Fy·sin θ·(1 − CR·√(R/t))·(1 + CN·√(N/t))·(1 − Ch·√(h/t)) for
// each web.
type Crippling struct {
	ID, Name      string
	Inside        bool // the bar bears inside the sheet, not at its edge
	Fastened      bool // the sheet is fastened to what bears on it
	C, CR, CN, Ch float64
	Omega, Phi    float64
	RTMax         float64 // largest bend radius over thickness
	Src           Source
}

func parseCrippling(r *row) Crippling {
	return Crippling{
		ID: r.text("id"), Name: r.text("name"),
		Inside: r.oneOf("place", "end", "interior") == "interior", Fastened: r.oneOf("fastened", "yes", "no") == "yes",
		C: r.num("c", 1, 1, 30), CR: r.num("c_r", 1, 0, 0.4), CN: r.num("c_n", 1, 0, 1), Ch: r.num("c_h", 1, 0, 0.06),
		Omega: r.num("omega", 1, 1.5, 3), Phi: r.num("phi", 1, 0.5, 1), RTMax: r.num("rt_max", 1, 1, 20),
		Src: r.source(),
	}
}

// Crippling gives one row of the coefficients; false where there is none.
func (s *Set) Crippling(id string) (Crippling, bool) { return s.crippling.get(id) }

// CripplingIDs gives the ids of the coefficients of web crippling.
func (s *Set) CripplingIDs() []string { return s.crippling.ids }
