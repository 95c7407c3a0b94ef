package tables

import "fmt"

// Units of the columns, as factors to the units held.
const (
	mm  = 1e-3               // to m
	mpa = 1e3                // to kPa
	psf = 0.0478802589803358 // to kPa: 4.4482216152605 N / 0.3048² m² / 1000
	pcf = 0.157087463846246  // psf/ft to kN/m3: psf / 0.3048
	pct = 0.01
)

func parseBox(r *row) Box {
	return Box{
		ID: r.text("id"), Name: r.text("name"),
		L: r.num("L_mm", mm, 2000, 17000), W: r.num("W_mm", mm, 2000, 3000), H: r.num("H_mm", mm, 2000, 3200),
		InL: r.num("in_L_mm", mm, 2000, 17000), InW: r.num("in_W_mm", mm, 2000, 3000), InH: r.num("in_H_mm", mm, 2000, 3200),
		Rating: r.num("rating_kg", 1, 5000, 40000), Tare: r.num("tare_kg", 1, 800, 8000),
		SideSheet: r.text("side_sheet"), EndSheet: r.text("end_sheet"),
		RoofSheet: r.text("roof_sheet"), DoorSheet: r.text("door_sheet"),
		TopRail: r.text("top_rail"), BottomRail: r.text("bottom_rail"),
		EndHeader: r.text("end_header"), EndSill: r.text("end_sill"),
		CrossMember:  r.text("cross_member"),
		PostStrength: r.num("post_kN", 1, 100, 3000),
		CastL:        r.num("cast_L_mm", mm, 100, 250), CastW: r.num("cast_W_mm", mm, 100, 250), CastH: r.num("cast_H_mm", mm, 80, 200),
		UnderClearance: r.num("under_mm", mm, 0, 50),
		Src:            r.source(),
	}
}

func parseSheet(r *row) Sheet {
	s := Sheet{
		ID: r.text("id"), Name: r.text("name"),
		A: r.num("a_mm", mm, 10, 300), S: r.num("s_mm", mm, 0, 200), B: r.num("b_mm", mm, 10, 300),
		D: r.num("d_mm", mm, 5, 100), T: r.num("t_mm", mm, 0.5, 6),
		Src: r.source(),
	}
	if r.err == nil && s.D <= 2*s.T {
		r.fail("d_mm", r.raw("d_mm"), "is not deeper than two thicknesses")
	}
	return s
}

func parseBar(r *row) Bar {
	b := Bar{
		ID: r.text("id"), Name: r.text("name"), Shape: r.oneOf("shape", "shs", "rhs", "c", "flat"),
		H: r.num("h_mm", mm, 5, 500), B: r.num("b_mm", mm, 5, 500), T: r.num("t_mm", mm, 1, 50),
		Lip: r.num("lip_mm", mm, 0, 300),
		Src: r.source(),
	}
	if r.err == nil {
		checkBar(r, b)
	}
	return b
}

// checkBar refuses dimensions that do not make the shape named.
func checkBar(r *row, b Bar) {
	hollow := b.Shape == "shs" || b.Shape == "rhs"
	switch {
	case b.Shape == "shs" && b.H != b.B:
		r.fail("b_mm", r.raw("b_mm"), "differs from the depth of a square section")
	case hollow && min(b.H, b.B) <= 4*b.T:
		r.fail("t_mm", r.raw("t_mm"), "leaves no flat side between corners of radius 2t")
	case b.Shape == "c" && b.Lip <= b.T:
		r.fail("lip_mm", r.raw("lip_mm"), "is no second flange of a channel")
	case b.Shape == "flat" && b.B != b.T:
		r.fail("b_mm", r.raw("b_mm"), "differs from the thickness of a flat")
	case b.Shape != "c" && b.Lip != 0:
		r.fail("lip_mm", r.raw("lip_mm"), "is given for a shape without a second flange")
	}
}

func parseGrade(r *row) Grade {
	g := Grade{
		ID: r.text("id"), Name: r.text("name"),
		Fy: r.num("fy_MPa", mpa, 150, 1000), Fu: r.num("fu_MPa", mpa, 200, 1200), E: r.num("e_MPa", mpa, 190000, 215000),
		Src: r.source(),
	}
	if r.err == nil && g.Fu <= g.Fy {
		r.fail("fu_MPa", r.raw("fu_MPa"), "is not above the yield strength")
	}
	return g
}

// crossCheck finds rows that name rows which do not exist.
func (s *Set) crossCheck() error {
	for _, b := range s.boxes.all() {
		for _, id := range []string{b.SideSheet, b.EndSheet, b.RoofSheet, b.DoorSheet} {
			if _, ok := s.Sheet(id); !ok {
				return fmt.Errorf("tables: boxes.csv, box %s: there is no sheet %q", b.ID, id)
			}
		}
		for _, id := range []string{b.TopRail, b.BottomRail, b.EndHeader, b.EndSill, b.CrossMember} {
			if _, ok := s.Bar(id); !ok {
				return fmt.Errorf("tables: boxes.csv, box %s: there is no bar %q", b.ID, id)
			}
		}
		if b.InL >= b.L || b.InW >= b.W || b.InH >= b.H || b.Tare >= b.Rating {
			return fmt.Errorf("tables: boxes.csv, box %s: inside is not smaller than outside, or tare not below rating", b.ID)
		}
	}
	return nil
}
