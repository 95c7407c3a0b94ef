package model

import (
	"reflect"
	"slices"
	"testing"
)

func TestNewIsTheStartThatItsCommentSays(t *testing.T) {
	p := New()
	if len(p.Site.Ground)+len(p.Site.Strata)+len(p.Site.Soils) != 0 || p.Site.Water.DesignHigh != nil || p.Invented {
		t.Errorf("an invented hill: %+v", p.Site)
	}
	if p.Box.Type != "20std" || p.Box.Orientation != EndOn || p.Box.SteelKnown {
		t.Errorf("box %+v", p.Box)
	}
	if p.Format != Format || p.Display.Units != Metric || !reflect.DeepEqual(p.Stages, DefaultStages()) {
		t.Error("format, units or stages")
	}
	// 29 CFR 1926.652(b)(1), verified: 1.5 H:V where the soil is not classified
	if p.Cut.Batter < 1.5 || p.Cut.SideBatter < 1.5 {
		t.Errorf("batters %v and %v are steeper than an unclassified soil may have", p.Cut.Batter, p.Cut.SideBatter)
	}
	// references/site.md 1.2 R12, quoted second-hand: spoil 2 ft or more from the edge
	if p.Cut.Spoil.Setback < 2*0.3048 {
		t.Errorf("spoil %v m from the edge", p.Cut.Spoil.Setback)
	}
	// references/site.md 1.5, verified: lifts of 6 in loose at structures
	if p.Fill.LiftHeight > 0.1524 {
		t.Errorf("lifts of %v m", p.Fill.LiftHeight)
	}
	// references/site.md 8, common practice: sides 0.3 to 0.6 m apart at most
	if p.Fill.MaxAhead > 0.6 {
		t.Errorf("one side %v m ahead", p.Fill.MaxAhead)
	}
	if q := New(); q == p || len(shared(reflect.ValueOf(*p), reflect.ValueOf(*q), "")) > 0 {
		t.Error("two new projects share memory")
	}
}

func TestDefaultStagesAreInTheOrderOfWork(t *testing.T) {
	st := DefaultStages("tractor")
	order := []string{StageNatural, StageCut, StageSet, StageBackfill, StageService}
	last, fill, seen := 0, 0.0, map[string]bool{}
	for _, s := range st {
		at := slices.Index(order, s.Kind)
		if at < last {
			t.Errorf("stage %s comes too late", s.ID)
		}
		if s.FillTo < fill {
			t.Errorf("stage %s digs fill out again", s.ID)
		}
		if s.Cover && s.FillTo != 1 {
			t.Errorf("stage %s has its cover on before the fill is up", s.ID)
		}
		if seen[s.ID] {
			t.Errorf("two stages %s", s.ID)
		}
		if (len(s.Surcharges) > 0) != (s.ID == "plant") {
			t.Errorf("stage %s has the surcharges %v", s.ID, s.Surcharges)
		}
		last, fill, seen[s.ID] = at, s.FillTo, true
	}
	for _, id := range []string{"cut", "lift-mid", "dry", "wet", "high", "snow"} {
		if !seen[id] {
			t.Errorf("no stage %s", id)
		}
	}
}
