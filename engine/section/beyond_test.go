package section

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// A box that does not fit on the ground line as drawn is a length with the
// range that it may have, so that it can be told in the reader's units. The
// ends are by hand: apron 3.0 m, box 6.058 m long (ISO 668), 0.6 m behind it.
func TestBoxBeyondTheGroundLine(t *testing.T) {
	set := tables.Default()
	for _, c := range []struct {
		name         string
		end, front   float64
		field, words string
		num, lo, hi  float64
	}{
		{"too far downhill", 20, 1, "box.front", "beyond the ground line", 1, 3, 20 - 0.6 - 6.058},
		{"too far uphill", 20, 18, "box.front", "beyond the ground line", 18, 3, 20 - 0.6 - 6.058},
		{"no room at all", 9, 3.5, "site.ground", "too short", 9, 3 + 6.058 + 0.6, model.MaxGroundLen},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := model.New()
			p.Site.Ground = []model.Vec{{0, 98}, {c.end, 104}}
			soil, _ := set.SoilOf("GM")
			p.Site.Soils, p.Site.Strata = []model.Soil{soil}, []model.Stratum{{ID: "a", Soil: soil.ID}}
			p.Box.Front, p.Box.Level = c.front, 99
			pl, err := NewPlan(p, set)
			if err != nil {
				t.Fatal(err)
			}
			_, err = pl.Long()
			var pr model.Problem
			if !errors.As(err, &pr) {
				t.Fatalf("error %v", err)
			}
			near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 } // rounding
			if pr.Field != c.field || !strings.Contains(pr.Text, c.words) || !pr.Ranged || pr.Kind != quantity.Length ||
				!near(pr.Num, c.num) || !near(pr.Min, c.lo) || !near(pr.Max, c.hi) {
				t.Errorf("%+v", pr)
			}
		})
	}
}
