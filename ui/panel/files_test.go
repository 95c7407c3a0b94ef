package panel

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/ui/desk"
	"hillset/ui/scene"
	"hillset/ui/units"
)

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
	got := b.leftovers()
	if len(got) != 1 || !strings.Contains(leftWords(got[0]), "another window") {
		t.Errorf("work of a running process: %+v", got)
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
	got = b.leftovers()
	if len(got) != 1 || got[0].Title != "Left" || strings.Contains(leftWords(got[0]), "another window") {
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
	b.openLeft(got[0])
	b.q.drain()
	if b.project().Title != "Left" || !b.desk.Dirty() {
		t.Errorf("title %q, unsaved %v", b.project().Title, b.desk.Dirty())
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
