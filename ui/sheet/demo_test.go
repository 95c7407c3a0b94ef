package sheet

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// demo is a demonstration project with its assessment and its sections.
type demo struct {
	p           *model.Project
	r           *assess.Result
	long, cross *section.View
}

func loadDemo(t testing.TB, name string) demo {
	t.Helper()
	doc, _, err := model.ReadFile(filepath.Join("..", "..", "testdata", name+".hillset"))
	must(t, err)
	return assessed(t, doc.Project)
}

// stillDemo is a demonstration project whose water is given.
func stillDemo(t testing.TB, name string) demo {
	t.Helper()
	doc, _, err := model.ReadFile(filepath.Join("..", "..", "testdata", name+".hillset"))
	must(t, err)
	doc.Project.Site.Water.Computed = false
	return assessed(t, doc.Project)
}

func assessed(t testing.TB, p *model.Project) (d demo) {
	t.Helper()
	d.p = p
	var err error
	d.r, err = assess.Run(context.Background(), d.p, tables.Default())
	must(t, err)
	d.long, d.cross, err = Views(d.p, tables.Default(), "", math.NaN())
	must(t, err)
	return d
}

var demos = []string{"potato-store-as-drawn", "potato-store-put-right"}

// ownOptions are all sizes with the program's own drawing.
func ownOptions() []Options {
	out := orientations()
	for i := range out {
		out[i].Scene = nil
	}
	return out
}

func TestDemoOnEverySize(t *testing.T) {
	for _, name := range demos {
		d := loadDemo(t, name)
		for _, o := range ownOptions() {
			t.Run(name+" "+o.name(), func(t *testing.T) {
				doc, err := plan(d.p, d.r, d.long, d.cross, o)
				must(t, err)
				rec := &Recorder{}
				must(t, doc.draw(rec))
				checkInside(t, rec, doc.size.frame(o.Landscape))
				for i, pg := range rec.Pages {
					checkApart(t, i, pg.Texts)
				}
				checkDemoTexts(t, d, rec)
				var file bytes.Buffer
				must(t, Write(&file, d.p, d.r, d.long, d.cross, o))
				checkDemoFile(t, d, doc, file.Bytes())
			})
		}
	}
}

// checkDemoTexts looks for what the hand-out has to say, in the words and
// numbers of the assessment.
func checkDemoTexts(t *testing.T, d demo, rec *Recorder) {
	t.Helper()
	all := ""
	for _, pg := range rec.Pages {
		all += pg.allText()
	}
	flat := strings.Join(strings.Fields(all), " ")
	wants := []string{Status, InventedNote, d.p.Title, d.p.Sheet.Number, "Long section", "Cross section", "Legend", "Topsoil"}
	for i := range d.r.Checks {
		k := &d.r.Checks[i]
		if k.Verdict() == check.NotChecked {
			wants = append(wants, strings.Fields(k.Missing)[0])
			continue
		}
		wants = append(wants, FormatRatio(k.Worst()))
	}
	for _, want := range wants {
		if !strings.Contains(flat, want) {
			t.Errorf("no sheet says %q", want)
		}
	}
	for _, x := range rec.Pages[0].Texts {
		if x.Tag == "checks:cell" && x.Text == "" {
			t.Error("empty cell drawn")
		}
	}
}

// checkDemoFile measures the box and the state of the file.
func checkDemoFile(t *testing.T, d demo, doc *document, file []byte) {
	t.Helper()
	want := d.long.Box.W() * 1000 / doc.fig.scale.Den
	found := false
	for i, pg := range parsePDF(t, file) {
		if pg.open != pg.shut || pg.begun != pg.ended {
			t.Errorf("page %d: states %d/%d, layers %d/%d", i+1, pg.open, pg.shut, pg.begun, pg.ended)
		}
		if strings.Contains(pg.ops, "NaN") || strings.Contains(pg.ops, "Inf") {
			t.Errorf("page %d holds a number that is not finite", i+1)
		}
		for _, p := range pg.paths {
			r := p.parts[0].Bounds()
			found = found || i == 0 && p.closed > 0 && math.Abs(inMM(r.W())-want) < 0.05 && math.Abs(inMM(r.H())-want*d.long.Box.H()/d.long.Box.W()) < 0.05
		}
	}
	if !found {
		t.Errorf("no outline of the box is %.2f mm long at %s", want, doc.fig.scale.Name)
	}
}

func TestDemoScales(t *testing.T) {
	// What a builder reads without a magnifying glass: the box some 60 mm long, on
	// letter some 50 mm. The hill of the store put right is too wide for an A4 on
	// end at 1:100, and the next standard scale shows 30 mm.
	most := map[string]float64{"A3": 100, "A4": 100, "tabloid": 96, "letter": 120}
	for _, name := range demos {
		d := loadDemo(t, name)
		for _, o := range ownOptions() {
			doc, err := plan(d.p, d.r, d.long, d.cross, o)
			must(t, err)
			checkRooms(t, doc)
			limit := most[doc.size.Name]
			if o.Size == "A4" && !o.Landscape && name == demos[1] {
				limit = 200
			}
			if den := doc.fig.scale.Den; den > limit {
				t.Errorf("%s %s: drawn at %s", name, o.name(), doc.fig.scale.Name)
			}
		}
	}
}

// The marks of the verdicts make no drawing smaller and lose no text; every
// number beside one is in the list on the same sheet.
func TestMarksOfVerdictsCostNoText(t *testing.T) {
	for _, name := range demos {
		d := loadDemo(t, name)
		for _, o := range ownOptions() {
			doc, err := plan(d.p, d.r, d.long, d.cross, o)
			must(t, err)
			if doc.size.Large {
				plain := o
				plain.Layers = Handout()
				without, err := plan(d.p, d.r, d.long, d.cross, plain)
				must(t, err)
				if without.fig.scale != doc.fig.scale {
					t.Errorf("%s %s: %s, without marks %s", name, o.name(), doc.fig.scale.Name, without.fig.scale.Name)
				}
			}
			numbers := map[string]bool{}
			for _, f := range doc.fig.figs {
				for _, it := range f.sc.Items {
					if it.Label != nil && it.Label.Layer == scene.Verdicts {
						numbers[it.Label.Text] = true
					}
				}
			}
			switch {
			case !doc.size.Large && len(numbers) > 0:
				t.Errorf("%s %s: verdicts on the drawing", name, o.name())
			case doc.size.Large && len(numbers) == 0:
				t.Errorf("%s %s: room for the verdicts, which are not shown", name, o.name())
			}
			rec := &Recorder{}
			must(t, doc.draw(rec))
			listed := map[string]bool{}
			for _, x := range rec.Pages[0].Texts {
				if x.Tag == "keys:cell" {
					listed[x.Text] = true
				}
			}
			for n := range numbers {
				if !listed[n] {
					t.Errorf("%s %s: mark %s is not in the list", name, o.name(), n)
				}
			}
		}
	}
}

func TestBurialOnTheSheets(t *testing.T) {
	d := loadDemo(t, demos[0])
	rows, err := assess.BurialTable(d.p, tables.Default())
	must(t, err)
	for _, sys := range []units.System{units.Metric, units.US} {
		doc, err := plan(d.p, d.r, d.long, d.cross, Options{Size: "A3", Landscape: true, Units: sys})
		must(t, err)
		rec := &Recorder{}
		must(t, doc.draw(rec))
		all := ""
		for _, pg := range rec.Pages {
			all += pg.allText()
		}
		flat := strings.Join(strings.Fields(all), " ")
		for _, r := range rows {
			want := units.Format(r.Drained, quantity.Length, sys) + " " + units.Format(r.Flooded, quantity.Length, sys) + " " + units.Format(r.RoofCover, quantity.Length, sys)
			if math.IsNaN(r.Drained) {
				want = "(" + r.Class + ") not allowed not allowed not allowed"
			}
			if !strings.Contains(flat, want) {
				t.Errorf("%s: no row %q", r.Class, want)
			}
		}
		if !strings.Contains(flat, "holds only where the height shown is more") {
			t.Error("the note is missing")
		}
	}
	// A project without a box says why there is no table.
	if all := record(t, handProject(), handResult(3), orientations()[2]).allText(); !strings.Contains(all, "not worked out: ") {
		t.Error("no reason for the missing table")
	}
}

func TestNoWordsOfSafety(t *testing.T) {
	d := loadDemo(t, demos[1])
	doc, err := plan(d.p, d.r, d.long, d.cross, ownOptions()[0])
	must(t, err)
	rec := &Recorder{}
	must(t, doc.draw(rec))
	for _, pg := range rec.Pages {
		if strings.Contains(strings.ToLower(pg.allText()), "safe") {
			t.Error("a sheet calls something safe")
		}
	}
}

func TestWriteFile(t *testing.T) {
	d := loadDemo(t, demos[0])
	o := ownOptions()[2]
	dir := t.TempDir()
	path := filepath.Join(dir, "sheet.pdf")
	must(t, os.WriteFile(path, []byte("old"), 0o600))
	must(t, WriteFile(path, d.p, d.r, d.long, d.cross, o))
	got, err := os.ReadFile(path)
	must(t, err)
	var want bytes.Buffer
	must(t, Write(&want, d.p, d.r, d.long, d.cross, o))
	if !bytes.Equal(got, want.Bytes()) {
		t.Error("the file is not what Write gives")
	}
	o.Size = "B9"
	if err := WriteFile(path, d.p, d.r, d.long, d.cross, o); err == nil {
		t.Error("a bad size is taken")
	}
	if again, _ := os.ReadFile(path); !bytes.Equal(again, got) {
		t.Error("a failed write changed the old file")
	}
	o.Size = "A4"
	if err := WriteFile(filepath.Join(dir, "none", "sheet.pdf"), d.p, d.r, d.long, d.cross, o); err == nil || !strings.Contains(err.Error(), "sheet.pdf") {
		t.Errorf("missing folder: error %v", err)
	}
	if list, _ := os.ReadDir(dir); len(list) != 1 {
		t.Errorf("%d files are left in the folder", len(list))
	}
}

func TestViewsChooseStageAndStation(t *testing.T) {
	d := loadDemo(t, demos[0])
	if d.long.Stage.Water != model.WaterHigh || d.long.Stage.Kind != model.StageService {
		t.Errorf("the hand-out shows %q", d.long.Stage.ID)
	}
	if mid := d.long.Box.Center()[0]; math.Abs(d.cross.Station-mid) > 1e-9 {
		t.Errorf("cross section at %g, want %g", d.cross.Station, mid)
	}
	long, cross, err := Views(d.p, tables.Default(), "cut", d.p.Box.Front+1)
	must(t, err)
	if long.Stage.ID != "cut" || cross.Station != d.p.Box.Front+1 {
		t.Errorf("stage %q, station %g", long.Stage.ID, cross.Station)
	}
	if _, _, err := Views(d.p, tables.Default(), "nonsense", math.NaN()); err == nil || !strings.Contains(err.Error(), "natural, cut, set") {
		t.Errorf("unknown stage: error %v", err)
	}
	if _, _, err := Views(d.p, tables.Default(), "cut", 1e6); err == nil {
		t.Error("a station beyond the hill is taken")
	}
}

func TestEveryStageCanBePrinted(t *testing.T) {
	d := loadDemo(t, demos[1])
	for _, s := range d.p.Stages {
		long, cross, err := Views(d.p, tables.Default(), s.ID, math.NaN())
		must(t, err)
		for _, o := range ownOptions()[:4] {
			if err := Write(&bytes.Buffer{}, d.p, d.r, long, cross, o); err != nil {
				t.Errorf("%s on %s: %v", s.ID, o.name(), err)
			}
		}
	}
}

func BenchmarkDemoSheet(b *testing.B) {
	d := loadDemo(b, demos[1])
	o := Options{Size: "A3", Landscape: true, Units: units.Metric}
	for b.Loop() {
		must(b, Write(&bytes.Buffer{}, d.p, d.r, d.long, d.cross, o))
	}
}
