package sheet

import (
	"context"
	"strings"
	"testing"

	"hillset/engine/tables"
	"hillset/ui/units"
	"hillset/ui/units/foreign"
)

// Who reads feet is told no metres on paper, and the other way round.
func TestSheetsSpeakTheReadersUnits(t *testing.T) {
	for _, name := range demos {
		d := loadDemo(t, name)
		known := foreign.Names(d.p)
		for sys, size := range map[units.System]string{units.US: "tabloid", units.Metric: "A3"} {
			s, err := StructureOf(context.Background(), d.r, tables.Default(), sys)
			must(t, err)
			doc, err := plan(d.p, d.r, d.long, d.cross, Options{Size: size, Landscape: true, Units: sys, Structure: s})
			must(t, err)
			rec := &Recorder{}
			must(t, doc.draw(rec))
			for i, pg := range rec.Pages {
				for k := 0; k < len(pg.Texts); {
					tag, text := pg.Texts[k].Tag, pg.Texts[k].Text
					for k++; k < len(pg.Texts) && pg.Texts[k].Tag == tag; k++ { // names are broken to lines
						text += " " + pg.Texts[k].Text
					}
					if strings.Contains(text, "{") {
						t.Errorf("%s, page %d: a value that nobody wrote: %s", name, i+1, text)
					}
					for _, f := range foreign.In(text, sys, known...) {
						t.Errorf("%s, %v, page %d, %s: %s", name, sys, i+1, tag, f)
					}
				}
			}
		}
	}
}
