package panel

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/desk"
	"hillset/ui/scene"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

func TestHeaderSaysTheGoverningCheck(t *testing.T) {
	for _, file := range []string{drawn, right} {
		b := newBench(t, file)
		b.assessed()
		g := b.desk.Result().Governing()
		if g == nil {
			t.Fatalf("%s: nothing is checked", file)
		}
		said := b.Verdict()
		for _, want := range []string{sentence(g.Verdict().String()), g.Part, b.stageName(g.Stage)} {
			if !strings.Contains(said, want) {
				t.Errorf("%s: the header says %q, nothing of %q", file, said, want)
			}
		}
		if b.header.sign.verdict != g.Verdict() {
			t.Errorf("%s: the sign is that of %v", file, b.header.sign.verdict)
		}
		for i, a := range b.header.answers {
			if a.text.text == "" || a.text.text == computing {
				t.Errorf("%s: answer %d is %q", file, i, a.text.text)
			}
		}
	}
}

// claim is what no program can know. The factor of safety is only a number's
// name.
var claim = regexp.MustCompile(`(?i).*\b(safe|safely|unsafe|ok|okay)\b.*`)

// No word of the window says that anything is safe.
func TestTheWindowNeverSaysSafe(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	for _, pg := range order {
		b.openPage(pg)
		if at := claim.FindString(b.written()); at != "" {
			t.Errorf("page %s says %q", pg, at)
		}
	}
	if at := claim.FindString(b.report() + strings.Join(cautions, "\n")); at != "" {
		t.Errorf("the report says %q", at)
	}
}

// A new project leads from the ground to a verdict, one step after the other,
// each with the page where it is done.
func TestNextStepsLeadToAVerdict(t *testing.T) {
	b := newBench(t, "")
	soil, _ := b.tables.SoilOf("GM")
	high := 98.0
	done := map[string]bool{}
	does := map[string]func(p *model.Project) error{
		"hill": func(p *model.Project) error { p.Site.Ground = []model.Vec{{0, 98}, {8, 99}, {30, 104}}; return nil },
		"soil": func(p *model.Project) error { p.Site.Soils = []model.Soil{soil}; return addStratum(p) },
		"water": func(p *model.Project) error {
			p.Site.Water.DesignHigh, p.Site.Water.Seasonal = &high, &high
			return nil
		},
		"box": func(p *model.Project) error {
			p.Box.Level, p.Box.Front, p.Bedding.RockSoil = 98.5, 6, soil.ID
			return nil
		},
		"fill": func(p *model.Project) error {
			f := &p.Fill
			f.Backfill, f.RockSoil, f.CapSoil, f.TopsoilSoil, f.Plant = soil.ID, soil.ID, soil.ID, soil.ID, "plate"
			return nil
		},
	}
	b.assessed()
	if b.Verdict() != "Next: draw the ground line with the tool above (G), or type its points on page 1." {
		t.Errorf("the header begins with %q", b.Verdict())
	}
	for strings.HasPrefix(b.Verdict(), "Next: ") || strings.Contains(b.header.count.text, "Next: ") {
		page := b.header.page
		if does[page] == nil || done[page] {
			t.Fatalf("the header says %q, %q with page %q", b.Verdict(), b.header.count.text, page)
		}
		done[page] = true
		b.edit("step", does[page])
		b.q.drain()
		b.assessed()
	}
	if len(done) != len(does) || b.desk.Result().Governing() == nil {
		t.Errorf("steps %v, verdict %q", done, b.Verdict())
	}
}

// Every problem of a new project has a page where it is solved.
func TestEveryProblemHasAPage(t *testing.T) {
	b := newBench(t, "")
	broken := model.New()
	broken.Site.Strata = []model.Stratum{{ID: "a"}, {ID: "b"}}
	broken.Site.Surcharges = []model.Surcharge{{ID: "x", Kind: model.Vehicle}, {ID: "y", Kind: model.AreaLoad}}
	broken.Strengthening.Ribs.Spacing = 1
	broken.Strengthening.Wales = []model.Wale{{Height: 1}}
	broken.Bedding.Toe.Depth = 1
	ps := broken.Validate()
	if len(ps) < 15 {
		t.Fatalf("only %d problems", len(ps))
	}
	for _, p := range ps {
		if s := b.nextStep(p); s.page == "" || s.words == "" {
			t.Errorf("%v: %+v", p, s)
		}
	}
}

func TestChecksAreListedWithTheirWorking(t *testing.T) {
	b := newBench(t, drawn)
	b.assessed()
	b.openPage("checks")
	pg := b.page.(*checksPage)
	r := b.desk.Result()
	if pg.list.Length() != len(r.Checks) || len(r.Checks) < 10 {
		t.Fatalf("%d lines for %d checks", pg.list.Length(), len(r.Checks))
	}
	for i := range r.Checks {
		c := &r.Checks[i]
		pg.list.Select(i)
		b.q.drain()
		text := pg.drawn
		want := []string{sentence(c.Part), lowerFirst(c.Title)}
		if c.Verdict() == check.NotChecked {
			want = append(want, "Not checked", c.Missing)
		} else {
			want = append(want, sentence(c.Verdict().String()), c.Source, c.Method)
			for _, l := range c.Working {
				want = append(want, units.FormatLine(l, units.Metric))
			}
			want = append(want, c.Assumptions...)
			if b.desk.StageID() != c.Stage {
				t.Errorf("%s: stage %s is shown, want %s", c.ID, b.desk.StageID(), c.Stage)
			}
			if c.HasStation && !near(b.desk.Station(), c.Station) {
				t.Errorf("%s: station %v, want %v", c.ID, b.desk.Station(), c.Station)
			}
		}
		for _, s := range want {
			if !strings.Contains(text, s) {
				t.Errorf("%s: the working says nothing of %q:\n%s", c.ID, s, text)
			}
		}
		if b.marked != c.Part {
			t.Errorf("%s: %q is marked", c.ID, b.marked)
		}
	}
	pg.list.Select(0)
	pg.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if pg.at() != 1 {
		t.Errorf("the down key leads to check %d", pg.at())
	}
}

func TestReportNamesEveryCheck(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	text := b.report()
	for i := range b.desk.Result().Checks {
		if c := &b.desk.Result().Checks[i]; !strings.Contains(strings.ToLower(text), strings.ToLower(c.Title)) {
			t.Errorf("nothing of %q", c.Title)
		}
	}
	for _, s := range []string{"NOT FOR CONSTRUCTION", "INVENTED", "How deep", "How high", "Not checked", "Taken for granted"} {
		if !strings.Contains(text, s) {
			t.Errorf("nothing of %q", s)
		}
	}
}

func TestAnswersInWords(t *testing.T) {
	b := newBench(t, drawn)
	r := &assess.Result{Checks: []check.Check{{ID: "roof", Title: "Roof sheet in bending", Part: "roof", Ratio: 2, RatioLRFD: math.NaN()}}}
	cover := func(v float64) assess.Answer {
		return assess.Answer{Question: "?", Kind: "cover", Value: v, Solved: true, Governs: "roof"}
	}
	none, most := cover(-2.4), cover(4)
	none.None, most.AtLeast = true, true
	water := assess.Answer{Question: "?", Kind: "water", Value: 0.95, Solved: true, Governs: "roof"}
	why := assess.Answer{Question: "?", Kind: "cover", Value: math.NaN(), Why: "no stage has high water"}
	for _, c := range []struct {
		a        assess.Answer
		sys      units.System
		want     string
		mustNot_ string
	}{
		{cover(0.12), units.Metric, "Cover up to 0.12 m; beyond: roof (roof sheet in bending)", ""},
		{cover(0.1524), units.US, `Cover up to 6"; beyond: roof`, " m;"},
		{cover(-0.4), units.Metric, "No cover. Fill beside it must stay 0.40 m below the roof", "−"},
		{none, units.Metric, "Not at all as drawn. What stops it: roof", "2.4"},
		{most, units.Metric, "Cover up to 4.00 m, the most that is tried", ""},
		{water, units.Metric, "0.95 m above the underside, level 101.05 m; beyond: roof", ""},
		{why, units.Metric, "Not solved: no stage has high water", "NaN"},
		{assess.Answer{Kind: "cover", Value: math.NaN()}, units.Metric, "computing…", ""},
	} {
		b.units(c.sys)
		got := b.answerWords(&c.a, r)
		if !strings.HasPrefix(got, c.want) || c.mustNot_ != "" && strings.Contains(got, c.mustNot_) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := b.answerWords(&water, &assess.Result{}); got != "Not known yet" {
		t.Errorf("without a check: %q", got)
	}
}

func TestTimesLimit(t *testing.T) {
	for r, want := range map[float64]string{
		0.834: "0.83 of its limit", 1: "1.00 of its limit", 1.0001: "1.01 times its limit", 11.36: "11.4 times its limit",
		250.2: "251 times its limit", math.Inf(1): "loaded with nothing to hold it",
	} {
		if got := timesLimit(r); got != want {
			t.Errorf("%v: %q, want %q", r, got, want)
		}
	}
}

func TestUndoKeyTakesBackTypingFirst(t *testing.T) {
	b := newBench(t, drawn)
	n := b.number("box", "Front at distance")
	typed(n.entry, "9 m")
	b.q.drain()
	b.win.Canvas().Focus(n.entry)
	n.entry.SetText("9 m")
	n.entry.CursorColumn = 3
	n.entry.TypedRune('5')
	if !n.entry.dirty() {
		t.Fatal("nothing was typed")
	}
	b.undoKey()
	if b.project().Box.Front != 9 || n.entry.dirty() {
		t.Errorf("front %v, field %q", b.project().Box.Front, n.entry.Text)
	}
	b.undoKey()
	b.q.drain()
	if b.project().Box.Front != 8.4 || n.entry.Text != "8.4 m" {
		t.Errorf("after another: front %v, field %q", b.project().Box.Front, n.entry.Text)
	}
	b.redoKey()
	b.q.drain()
	if b.project().Box.Front != 9 {
		t.Errorf("after redo: front %v", b.project().Box.Front)
	}
	if !strings.Contains(b.Said(), "front at distance") {
		t.Errorf("the status line says %q", b.Said())
	}
}

func TestToolsAreCarriedOver(t *testing.T) {
	b := newBench(t, drawn)
	for _, c := range []struct{ take, long, cross sketch.Tool }{
		{sketch.PanTool, sketch.PanTool, sketch.PanTool},
		{sketch.DrawGround, sketch.DrawGround, sketch.Select},
		{sketch.PlaceBox, sketch.PlaceBox, sketch.PlaceBox},
		{sketch.Select, sketch.Select, sketch.Select},
	} {
		b.takeTool(c.take)
		if b.long.Tool() != c.long || b.cross.Tool() != c.cross {
			t.Errorf("%v: long %v, cross %v", c.take, b.long.Tool(), b.cross.Tool())
		}
		for tool, ch := range b.tools.tools {
			if ch.on != (tool == c.take) {
				t.Errorf("%v: button %v is %v", c.take, tool, ch.on)
			}
		}
	}
}

func TestStageBar(t *testing.T) {
	b := newBench(t, drawn)
	b.assessed()
	b.lookAt(1)
	b.q.drain()
	if b.desk.StageID() != "cut" || b.stages.sel.Selected != "2  Cut open" {
		t.Errorf("stage %q, shown %q", b.desk.StageID(), b.stages.sel.Selected)
	}
	b.stepStage(1)
	b.stepStage(-2)
	b.q.drain()
	if b.desk.StageID() != "natural" || !b.stages.back.off || b.stages.forth.off {
		t.Errorf("stage %q, before %v, after %v", b.desk.StageID(), b.stages.back.off, b.stages.forth.off)
	}
	b.stepStage(-1)
	if b.desk.StageID() != "natural" {
		t.Error("there is a stage before the first")
	}
	typed(b.stages.entry, "10 ft")
	b.q.drain()
	if !near(b.desk.Station(), 3.048) || b.stages.entry.Text != "3.05 m" {
		t.Errorf("station %v, shown %q", b.desk.Station(), b.stages.entry.Text)
	}
	typed(b.stages.entry, "far")
	if !near(b.desk.Station(), 3.048) || !strings.HasPrefix(b.Said(), "! ") {
		t.Errorf("station %v, said %q", b.desk.Station(), b.Said())
	}
}

func TestLayersAndLooks(t *testing.T) {
	b := newBench(t, drawn)
	if len(b.tools.layers) != len(offered) {
		t.Fatalf("%d toggles", len(b.tools.layers))
	}
	b.tools.layers[2].SetChecked(false)
	if b.layers[offered[2].of] || !b.layers[scene.Ground] || !b.layers[offered[0].of] {
		t.Errorf("layers %v", b.layers)
	}
	b.setLook(scene.Dark)
	b.setLetters(5)
	if got := readSettings(b.places.config); got.Look != scene.Dark || got.Letters != 2 {
		t.Errorf("kept %+v", got)
	}
	if !b.look.dark() || !b.tools.looks[scene.Dark].on {
		t.Error("the look is not dark")
	}
}

func TestSettingsThatAreBrokenAreAsAtFirst(t *testing.T) {
	for name, text := range map[string]string{"empty": "", "half": `{"look":`, "wild": `{"look":"pink","letters":40,"width":3,"height":-1}`} {
		dir := t.TempDir()
		write(t, settingsFile(dir), text)
		if got := readSettings(dir); got != firstSettings() {
			t.Errorf("%s: %+v", name, got)
		}
	}
	s := settings{Look: scene.Daylight, Letters: 1.2, Width: 900, Height: 700, Folder: "/x"}
	dir := filepath.Join(t.TempDir(), "new")
	if err := writeSettings(dir, s); err != nil {
		t.Fatal(err)
	}
	if got := readSettings(dir); got != s {
		t.Errorf("%+v", got)
	}
}

func TestOptions(t *testing.T) {
	for _, o := range []Options{{Size: "12"}, {Size: "axb"}, {Size: "10x10"}, {Look: "pink"}, {Units: "miles"}, {Size: "NaNx5"}} {
		if o.check() == nil {
			t.Errorf("%+v is taken", o)
		}
	}
	o := Options{Size: "1920x1080", Look: "dark", Units: "ft"}
	if err := o.check(); err != nil {
		t.Error(err)
	}
	if s := o.settings(places{}); s.Width != 1920 || s.Height != 1080 || s.Look != scene.Dark {
		t.Errorf("%+v", s)
	}
}

func TestStartShowsWhatIsAsked(t *testing.T) {
	b := newBench(t, "")
	full, err := filepath.Abs(drawn)
	if err != nil {
		t.Fatal(err)
	}
	b.start(Options{File: full, Units: "ft", Page: "inside", Stage: "cut", Station: "33 ft"})
	b.q.drain()
	if b.desk.Path() != full || b.desk.Units() != units.US || b.page.about().key != "strength" || b.desk.StageID() != "cut" || !near(b.desk.Station(), 33*12*in) {
		t.Errorf("path %s, units %v, page %s, stage %s, station %v", b.desk.Path(), b.desk.Units(), b.page.about().key, b.desk.StageID(), b.desk.Station())
	}
	if b.desk.Dirty() {
		t.Error("another system of units makes it unsaved work")
	}
}

func TestFilesThatCannotBeReadChangeNothing(t *testing.T) {
	b := newBench(t, drawn)
	before, path := b.project(), b.desk.Path()
	for _, text := range []string{"", "{", `{"format": 99}`, "[]"} {
		if b.open(write(t, filepath.Join(t.TempDir(), "x.hillset"), text)) {
			t.Errorf("%q was opened", text)
		}
		if b.project() != before || b.desk.Path() != path {
			t.Fatalf("%q took the project away", text)
		}
		if !b.asking() || !strings.HasPrefix(b.Said(), "! ") {
			t.Errorf("%q: nothing is said", text)
		}
		b.dismiss()
	}
	if b.open(filepath.Join(t.TempDir(), "none.hillset")) || b.project() != before {
		t.Error("a file that is not there")
	}
}

func TestSaveAndOpenAgain(t *testing.T) {
	b := newBench(t, drawn)
	path := filepath.Join(t.TempDir(), "own")
	b.edit("Title", func(p *model.Project) error { p.Title = "Own"; return nil })
	b.q.drain()
	if !strings.HasPrefix(b.Title(), "* ") {
		t.Errorf("title bar %q", b.Title())
	}
	b.saveAs(path, nil)
	b.q.drain()
	if b.desk.Path() != path+model.Ext || b.desk.Dirty() || b.Title() != "own.hillset - Hillset" {
		t.Fatalf("path %s, dirty %v, title %q", b.desk.Path(), b.desk.Dirty(), b.Title())
	}
	want := b.project().Clone()
	if err := b.desk.New(); err != nil {
		t.Fatal(err)
	}
	if !b.open(path+model.Ext) || !reflect.DeepEqual(want, b.project()) {
		t.Error("it does not come back")
	}
	if r := b.desk.Recent(); len(r) == 0 || r[0] != path+model.Ext {
		t.Errorf("recent %v", r)
	}
}

func TestUnsavedWorkIsAskedAbout(t *testing.T) {
	b := newBench(t, drawn)
	went := 0
	b.whenSaved(func() { went++ })
	if went != 1 || b.asking() {
		t.Error("a clean project is asked about")
	}
	b.edit("Title", func(p *model.Project) error { p.Title = "Own"; return nil })
	b.whenSaved(func() { went++ })
	if went != 1 || !b.asking() {
		t.Error("unsaved work is not asked about")
	}
	b.dismiss()
	if b.asking() || went != 1 {
		t.Error("Esc goes on")
	}
}

func TestLeftoversAreOffered(t *testing.T) {
	b := newBench(t, "")
	other := desk.New(desk.Options{Post: b.q.post, AutosaveDir: b.places.autosave})
	if err := other.Edit("x", "", func(p *model.Project) error { p.Title = "Left"; return nil }); err != nil {
		t.Fatal(err)
	}
	if err := other.Close(); err != nil {
		t.Fatal(err)
	}
	if got := b.leftovers(); len(got) != 0 {
		t.Errorf("work of a running process is offered: %+v", got)
	}
	// the process that wrote it is gone
	files, err := filepath.Glob(filepath.Join(b.places.autosave, "*"))
	if err != nil || len(files) != 1 {
		t.Fatal(files, err)
	}
	data, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	write(t, files[0], strings.Replace(string(data), fmt.Sprintf(`"process":%d`, os.Getpid()), `"process":0`, 1))
	got := b.leftovers()
	if len(got) != 1 || got[0].Title != "Left" {
		t.Fatalf("leftovers %+v", got)
	}
	b.offerLeftovers("")
	if !b.asking() {
		t.Fatal("nobody is asked")
	}
	b.dismiss()
	b.offerLeftovers("/some/other/file")
	if b.asking() {
		t.Error("work of another file is offered")
	}
}

func TestFullPath(t *testing.T) {
	home, err := os.UserHomeDir()
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]string{"~/a.hillset": filepath.Join(home, "a.hillset"), ` "/tmp/b c" `: "/tmp/b c"} {
		if got, err := fullPath(text); err != nil || got != want {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "  ", "/tmp/"} {
		if _, err := fullPath(text); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
	if got := fileName(`a/b: "c"?`); got != "a-b- -c--" {
		t.Errorf("file name %q", got)
	}
}

func TestPDFIsWritten(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	b.openPage("sheet")
	path := filepath.Join(t.TempDir(), "out.pdf")
	b.writePDF(path)
	b.until("the sheet", func() bool { return !b.export.busy })
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") || b.export.written != path {
		t.Fatalf("%v; %q", err, b.export.note.text)
	}
	b.writePDF(filepath.Join(t.TempDir(), "no", "such", "folder.pdf"))
	b.until("the failure", func() bool { return !b.export.busy })
	if !strings.HasPrefix(b.export.note.text, "Not written: ") || !strings.HasPrefix(b.Said(), "! ") {
		t.Errorf("note %q, said %q", b.export.note.text, b.Said())
	}
	if err := b.desk.New(); err != nil {
		t.Fatal(err)
	}
	b.writePDF(path + "2")
	b.until("a project without a hill", func() bool { return !b.export.busy })
	if _, err := os.Stat(path + "2"); err == nil || !strings.Contains(b.Said(), "round line") {
		t.Errorf("a sheet of nothing: %v, said %q", err, b.Said())
	}
}

func TestMeasuredPoints(t *testing.T) {
	// One shot of 10 m at 30° from (2, 100): H = 8.660, V = 5 (by hand).
	for _, c := range []struct {
		name  string
		form  int
		text  string
		start [4]string
		want  []model.Vec
		says  string
	}{
		{"distance and level", 0, "0\t99,20\n3\t99,95", [4]string{}, []model.Vec{{0, 99.2}, {3, 99.95}}, ""},
		{"feet and inches", 0, "0,0\n10 ft,6'4\"", [4]string{}, []model.Vec{{0, 0}, {3.048, 76 * in}}, ""},
		{"chained shots", 1, "10 30\n10 30", [4]string{"2 m", "100 m"}, []model.Vec{{2, 100}, {10.6602540378, 105}, {19.3205080757, 110}}, ""},
		{"a fan", 2, "10 30\n20 30", [4]string{"2", "100", "1.5", "0.5"}, []model.Vec{{2, 100}, {10.6602540378, 106}, {19.3205080757, 111}}, ""},
		{"stadia level sight", 3, "1.6 1.5 1.4 0", [4]string{"0", "50", "1.4", ""}, []model.Vec{{0, 50}, {20, 49.9}}, ""},
		{"level book", 4, "dist,BS,IS,FS\n0,1.5,,\n5,,1.0,\n9,,,0.5", [4]string{"", "100", "", ""}, []model.Vec{{0, 100}, {5, 100.5}, {9, 101}}, ""},
		{"level book with a known end", 4, "dist,BS,IS,FS\n0,1.5,,\n9,,,0.5", [4]string{"", "100", "100.98", ""}, []model.Vec{{0, 100}, {9, 100.98}}, "Misclosure"},
		{"no number", 0, "0,99\n3,high", [4]string{}, nil, "Row 2"},
		{"out of order", 0, "5,99\n3,98", [4]string{}, nil, "front of it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, "")
			b.surveyDialog(c.form, c.text)
			s := b.surveyed
			for i, text := range c.start {
				s.start[i].SetText(text)
			}
			s.read()
			if !strings.Contains(s.result.text, c.says) {
				t.Errorf("the dialog says %q", s.result.text)
			}
			if c.want == nil {
				if !s.use.Disabled() || s.points != nil {
					t.Error("it can be used")
				}
				return
			}
			s.take()
			got := b.project().Site.Ground
			if len(got) != len(c.want) {
				t.Fatalf("%v; the dialog says %q", got, s.result.text)
			}
			for i := range got {
				if d := got[i].Sub(c.want[i]).Len(); d > 1e-9 {
					t.Errorf("point %d: %v, want %v", i, got[i], c.want[i])
				}
			}
			if b.asking() {
				t.Error("the dialog stays")
			}
		})
	}
}

func TestPointsOutOfOrderCanBeMended(t *testing.T) {
	b := newBench(t, "")
	b.openPage("hill")
	var line *lineRow
	for _, r := range b.rows() {
		if l, ok := r.(*lineRow); ok {
			line = l
		}
	}
	typed(line.entry, "5;99\n3;98\n8;101")
	if len(b.project().Site.Ground) != 0 || line.mend.Hidden || line.fault.text == "" {
		t.Fatalf("ground %v, button hidden %v, says %q", b.project().Site.Ground, line.mend.Hidden, line.fault.text)
	}
	line.mend.Tapped(nil)
	if want := []model.Vec{{3, 98}, {5, 99}, {8, 101}}; !reflect.DeepEqual(b.project().Site.Ground, want) {
		t.Errorf("ground %v", b.project().Site.Ground)
	}
	b.q.drain()
	typed(line.entry, "")
	if len(b.project().Site.Ground) != 0 {
		t.Errorf("an empty table leaves %v", b.project().Site.Ground)
	}
}

func TestExplainNamesTheFieldInTheReadersUnits(t *testing.T) {
	b := newBench(t, drawn)
	b.units(units.US)
	p := model.Problem{Field: "box.level", Text: "is out of range", Ranged: true, Kind: quantity.Length, Num: 3.048, Min: 0, Max: 1.524}
	if got := b.explain(fmt.Errorf("x: %w", p)); !strings.HasPrefix(got, "Level of the box: 10'-0\"") || !strings.Contains(got, `5'-0"`) {
		t.Errorf("%q", got)
	}
}
