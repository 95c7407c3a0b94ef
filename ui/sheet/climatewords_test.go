package sheet

import (
	"context"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// climateText is all that is said of frost and air.
func climateText(r *assess.Result, sys units.System) string {
	var b strings.Builder
	for _, p := range ClimateWords(r, tables.Default(), sys) {
		b.WriteString(p.Title + "\n" + strings.Join(p.Lines, "\n") + "\n")
	}
	b.WriteString(strings.Join(ClimateShort(r, tables.Default(), sys), "\n"))
	return b.String()
}

// The words name the numbers of the assessment, in the reader's units alone,
// and never call anything by the word that is not used here.
func TestClimateWords(t *testing.T) {
	for _, name := range demos {
		d := stillDemo(t, name)
		for sys, unwanted := range map[units.System][]string{units.Metric: {"°F", "cfm", `"`}, units.US: {"°C", "L/s", " m ", "W/K"}} {
			text := climateText(d.r, sys)
			for _, bad := range append(unwanted, "NaN", "Inf", "{", "  ", "..", units.None) {
				if strings.Contains(text, bad) {
					t.Errorf("%s %v: says %q in\n%s", name, sys, bad, text)
				}
			}
			if strings.Contains(strings.ToLower(text), "safe") {
				t.Errorf("%s: says what nothing here may say", name)
			}
			wants := []string{"Carbon monoxide", "Radon", "Never lock", "ICC 500", "thermal barrier"}
			if name == demos[1] { // the store as drawn says nothing of its climate
				wants = append(wants, "freezes to", "±25 %", "1 % after")
			}
			for _, want := range wants {
				if !strings.Contains(text, want) {
					t.Errorf("%s %v: does not say %q", name, sys, want)
				}
			}
		}
	}
	bare := stillDemo(t, demos[1]).p.Clone()
	bare.Room.Insulation = model.Insulation{}
	r, err := assess.Run(t.Context(), bare, tables.Default())
	must(t, err)
	if text := climateText(r, units.Metric); !strings.Contains(text, "It drips") {
		t.Errorf("bare steel does not drip in\n%s", text)
	}
	right := climateText(stillDemo(t, demos[1]).r, units.Metric)
	for _, want := range []string{"0.98 m", "450 °C·days", "315 °C·days", "factor λ 0.73", "in low and out high", "in high and out low", "close the vents"} {
		if !strings.Contains(right, want) {
			t.Errorf("put right: does not say %q", want)
		}
	}
}

// Each thing that is not given is said, and nothing is made up in its place.
func TestClimateWordsOfNothing(t *testing.T) {
	p := stillDemo(t, demos[1]).p.Clone()
	p.Site.Climate, p.Room = model.Climate{}, model.Room{}
	r, err := assess.Run(context.Background(), p, tables.Default())
	must(t, err)
	text := climateText(r, units.Metric)
	for _, want := range []string{"no index here, no depth on page 1", "not given: the mean of the air", "people may be inside is not given", "vents, or the air over the year, are not given"} {
		if !strings.Contains(text, want) {
			t.Errorf("does not say %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "freezes to") || strings.Contains(text, "after 0") || ClimateGiven(p) {
		t.Errorf("something is made up:\n%s", text)
	}
	if _, ok := GroundTempsOf(r); ok {
		t.Error("a chart without a temperature")
	}
	p.Site.Climate.FrostDepth = 0.8
	r, err = assess.Run(context.Background(), p, tables.Default())
	must(t, err)
	if text := climateText(r, units.Metric); !strings.Contains(text, "It freezes to 0.80 m, as given") {
		t.Errorf("typed depth: %s", text)
	}
	if ClimateWords(nil, tables.Default(), units.Metric) != nil || len(ClimateShort(nil, tables.Default(), units.Metric)) != 1 {
		t.Error("words without a result")
	}
}

// The sheet of climate and air on every size: nothing out of the frame, no text
// over another, all parts and checks there; none where nothing is given.
func TestClimateOnEverySize(t *testing.T) {
	for _, name := range demos {
		d := stillDemo(t, name)
		for _, o := range ownOptions() {
			o.Structure = &Structure{Why: "left out here", Climate: ClimateWords(d.r, tables.Default(), o.Units)}
			t.Run(name+" "+o.name(), func(t *testing.T) {
				rec := drawnClimate(t, d, o)
				all := ""
				for _, pg := range rec.Pages {
					all += pg.allText()
				}
				flat := strings.Join(strings.Fields(all), " ")
				for _, p := range o.Structure.Climate {
					if !strings.Contains(flat, p.Title) {
						t.Errorf("no sheet has %q", p.Title)
					}
				}
				for _, c := range ClimateChecks(d.r) {
					if !strings.Contains(flat, c.Title) {
						t.Errorf("no sheet has the check %q", c.Title)
					}
				}
				bare := o
				bare.Structure = &Structure{Why: "left out here"}
				if without := drawnClimate(t, d, bare); len(without.Pages) >= len(rec.Pages) {
					t.Errorf("%d sheets with, %d without", len(rec.Pages), len(without.Pages))
				}
			})
		}
	}
}

// drawnClimate draws a project and looks at its sheets.
func drawnClimate(t *testing.T, d demo, o Options) *Recorder {
	t.Helper()
	doc, err := plan(d.p, d.r, d.long, d.cross, o)
	must(t, err)
	rec := &Recorder{}
	must(t, doc.draw(rec))
	checkInside(t, rec, doc.size.frame(o.Landscape))
	for i, pg := range rec.Pages {
		checkApart(t, i, pg.Texts)
	}
	return rec
}

// Every check that the engine calls one of frost and air is listed as one.
func TestClimateChecksAreListed(t *testing.T) {
	r := stillDemo(t, demos[1]).r
	var ids []string
	for _, c := range ClimateChecks(r) {
		ids = append(ids, c.ID)
	}
	for _, id := range assess.ClimateIDs {
		if id != "vapour" && !slices.Contains(ids, id) { // no insulation inside
			t.Errorf("%s is not listed", id)
		}
	}
}
