package tables

import "hillset/engine/model"

func parseSoil(r *row) Soil {
	s := Soil{
		Class: r.text("class"), Name: r.text("name"),
		Dry: r.num("dry_kN_m3", 1, 1, 26), Moisture: r.num("moisture_pct", pct, 0, 500), Gs: r.num("gs", 1, 1.2, 3.2),
		Gamma: r.num("gamma_kN_m3", 1, 8, 28), GammaSat: r.num("gamma_sat_kN_m3", 1, 9.9, 28),
		PhiTable: r.num("phi_table_deg", 1, 0, 50), Phi: r.num("phi_deg", 1, 5, 50), Cohesion: r.num("cohesion_kPa", 1, 0, 500),
		DeltaSt: r.num("delta_steel_deg", 1, 0, 40), DeltaCo: r.num("delta_concrete_deg", 1, 0, 40),
		E: r.num("e_MPa", mpa, 0.1, 1e5), Nu: r.num("nu", 1, 0, 0.499),
		DigClass: r.oneOf("dig_class", "rock", "A", "B", "C"),
		Bearing:  r.num("bearing_psf", psf, 0, 20000),

		CodeActive: r.num("code_active_psf_ft", pcf, 0, 120), CodeAtRest: r.num("code_at_rest_psf_ft", pcf, 0, 150),
		Kx: r.num("kx_m_s", 1, 1e-14, 10), Kz: r.num("kz_m_s", 1, 1e-14, 10),
		D15: r.num("d15_mm", 1, 0, 500), D50: r.num("d50_mm", 1, 0, 500), D85: r.num("d85_mm", 1, 0, 500),
		Src: r.source(),
	}
	if r.err == nil {
		checkSoil(r, s)
	}
	return s
}

// checkSoil refuses values that cannot belong to one soil.
func checkSoil(r *row, s Soil) {
	switch {
	case s.Gamma > s.GammaSat:
		r.fail("gamma_sat_kN_m3", r.raw("gamma_sat_kN_m3"), "is below the moist unit weight")
	case s.DeltaSt > s.Phi:
		r.fail("delta_steel_deg", r.raw("delta_steel_deg"), "is above the friction angle of the soil")
	case s.DeltaCo > s.Phi:
		r.fail("delta_concrete_deg", r.raw("delta_concrete_deg"), "is above the friction angle of the soil")
	case s.CodeActive > s.CodeAtRest || (s.CodeActive == 0) != (s.CodeAtRest == 0):
		r.fail("code_at_rest_psf_ft", r.raw("code_at_rest_psf_ft"), "does not go with the active load")
	case s.D15 > s.D50 || s.D50 > s.D85:
		r.fail("d50_mm", r.raw("d50_mm"), "is out of order with d15 and d85")
	}
}

// SoilOf makes a soil of the model with the default values of a class; its id
// is the class. It is false where the table has no such class.
func (s *Set) SoilOf(class string) (model.Soil, bool) {
	d, ok := s.Soil(class)
	if !ok {
		return model.Soil{}, false
	}
	return model.Soil{
		ID: d.Class, Name: d.Name, USCS: d.Class,
		Gamma: d.Gamma, GammaSat: d.GammaSat, Phi: d.Phi, Cohesion: d.Cohesion, OCR: 1,
		DeltaSt: d.DeltaSt, DeltaCo: d.DeltaCo, E: d.E, Nu: d.Nu, Kx: d.Kx, Kz: d.Kz,
		D15: d.D15, D50: d.D50, D85: d.D85, DigClass: d.DigClass, Bearing: d.Bearing,
	}, true
}
