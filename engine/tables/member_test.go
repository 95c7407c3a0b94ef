package tables

import "testing"

// What the tables of sheets, bars, posts, boxes and grades hold for a new box
// lies in the ordinary range that this table gives for it (structure reference,
// section 2).
func TestMembersAgainstTheOtherTables(t *testing.T) {
	s := Default()
	has := func(id string, v float64) {
		t.Helper()
		m, ok := s.Member(id)
		if !ok {
			t.Errorf("no range %s", id)
			return
		}
		if v < m.Low*(1-1e-9) || v > m.High*(1+1e-9) {
			t.Errorf("%s: %g outside %g to %g", id, v, m.Low, m.High)
		}
	}
	for _, id := range s.BoxIDs() {
		b, _ := s.Box(id)
		for key, sheet := range map[string]string{"side-sheet": b.SideSheet, "end-sheet": b.EndSheet, "roof-sheet": b.RoofSheet, "door-sheet": b.DoorSheet} {
			row, _ := s.Sheet(sheet)
			has(key, row.T)
		}
		for key, bar := range map[string]string{"top-rail": b.TopRail, "bottom-rail": b.BottomRail, "cross-member": b.CrossMember, "end-rail": b.EndSill} {
			row, _ := s.Bar(bar)
			has(key, row.T)
		}
		has("post-strength", b.PostStrength)
	}
	for _, id := range s.BarIDs() { // the larger cross member too
		if b, _ := s.Bar(id); b.Shape == "c" && b.H == 0.122 {
			has("cross-member", b.T)
		}
	}
	front, _ := s.Post("front")
	rear, _ := s.Post("rear")
	has("front-post", front.Parts[0].T)
	has("rear-post", rear.Parts[0].T)
	has("rear-channel", rear.Parts[1].T)
	g, _ := s.Grade("corten")
	has("yield", g.Fy)
}

// Units are told apart: a thickness in m, a strength in kPa, a force in kN.
func TestMemberUnits(t *testing.T) {
	for id, want := range map[string][3]float64{
		"side-sheet": {1.6e-3, 1.6e-3, 2e-3}, "yield": {343e3, 345e3, 355e3}, "post-strength": {923, 923, 958}, "cross-spacing": {0.25, 0.305, 0.31},
	} {
		m, _ := Default().Member(id)
		for k, v := range []float64{m.Low, m.Typical, m.High} {
			near(t, id, v, want[k], want[k]*1e-12)
		}
	}
}

// The rows of web crippling are of sheets with many webs under a bar on one
// flange: AISI S100 G5, from memory, so marked.
func TestCripplingRows(t *testing.T) {
	for id, want := range map[string]Crippling{
		"end-fastened":   {C: 4, CR: 0.04, CN: 0.25, Ch: 0.025, Omega: 1.70, Phi: 0.90, Fastened: true},
		"inner-fastened": {C: 8, CR: 0.10, CN: 0.17, Ch: 0.004, Omega: 1.75, Phi: 0.85, Fastened: true, Inside: true},
		"end-loose":      {C: 3, CR: 0.04, CN: 0.29, Ch: 0.028, Omega: 2.45, Phi: 0.60},
		"inner-loose":    {C: 8, CR: 0.10, CN: 0.17, Ch: 0.004, Omega: 1.75, Phi: 0.85, Inside: true},
	} {
		got, ok := Default().Crippling(id)
		if !ok || got.Src.Mark != Memory {
			t.Fatalf("%s: %+v", id, got)
		}
		want.ID, want.Name, want.Src, want.RTMax = got.ID, got.Name, got.Src, got.RTMax
		if got != want {
			t.Errorf("%s: %+v, want %+v", id, got, want)
		}
	}
}
