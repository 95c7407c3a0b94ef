package main

import (
	"os"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/ui/units"
	"hillset/ui/units/foreign"
)

// Who asks for feet is told no metres, and the other way round; a refused value
// keeps its field and its range.
func TestListsSpeakTheUnitsAskedFor(t *testing.T) {
	broken := altered(t, func(p *model.Project) {
		p.Box.Openings = []model.Opening{{ID: "o", Wall: "left", From: 5, Width: 3, Sill: 1, Height: 0.6}}
		p.Box.SideDent = 60
	})
	for _, path := range []string{putRight, asDrawn, broken} {
		doc, _, err := model.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		known := foreign.Names(doc.Project)
		for _, args := range [][]string{{"check", "--all"}, {"burial"}} {
			for name, sys := range map[string]units.System{"ft": units.US, "m": units.Metric} {
				_, out, errs := call(append(args, path, "--units", name)...)
				for _, l := range strings.Split(out+errs, "\n") {
					if strings.Contains(l, "{") {
						t.Errorf("a value that nobody wrote: %s", l)
					}
					if strings.Contains(l, "source:") {
						continue
					}
					for _, f := range foreign.In(l, sys, known...) {
						t.Errorf("%v, %s: %s", args, name, f)
					}
				}
			}
		}
	}
	_, out, _ := call("check", broken, "--units", "ft")
	if want := `box.openings[0].width  input  the opening reaches past the end of its wall: 9'-10⅛" (allowed: at most 3'-5" from there)`; !strings.Contains(strings.Join(strings.Fields(out), " "), strings.Join(strings.Fields(want), " ")) {
		t.Errorf("the list does not say %s", want)
	}
}

// A value that keeps a file from being read is told in the units asked for.
func TestRefusedFileIsToldInTheUnitsAskedFor(t *testing.T) {
	path := altered(t, func(p *model.Project) { p.Fill.Shoulder = 1 })
	replaceIn(t, path, `"shoulder": 1`, `"shoulder": 200`)
	status, _, errs := call("check", path, "--units", "ft")
	if want := `fill.shoulder = 656'-2"`; status != statusInput || !strings.Contains(errs, want) || !strings.Contains(errs, "(allowed: 0 ft to 164'-0\")") {
		t.Errorf("status %d, %q, want %q", status, errs, want)
	}
}

// replaceIn changes a text of a file.
func replaceIn(t *testing.T, path, old, text string) {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(b), old) {
		t.Fatalf("%s does not hold %s", path, old)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(b), old, text, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
}
