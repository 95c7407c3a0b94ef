package desk

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"hillset/engine/model"
	"hillset/ui/units"
)

func TestSaveAndOpen(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "store.hillset")
	d, l := open(t, Options{})
	if err := d.Save(); !errors.Is(err, ErrNoPath) {
		t.Errorf("saving without a name gives %v", err)
	}
	must(t, d.Edit("Rename", "", retitle("Store")))
	must(t, d.SaveAs(path))
	if d.Dirty() || d.Path() != path {
		t.Errorf("dirty %v, path %q", d.Dirty(), d.Path())
	}
	d.Undo()
	if !d.Dirty() {
		t.Error("an undo behind the saving is a change")
	}
	d.Redo()
	if d.Dirty() {
		t.Error("back at what was saved nothing is left to save")
	}
	d.SetUnits(units.US)
	must(t, d.Save())
	saved := d.Project()

	e, _ := open(t, Options{})
	must(t, e.Open(path))
	if !reflect.DeepEqual(e.Project(), saved) || e.Dirty() || e.Path() != path {
		t.Errorf("opened %+v, want %+v", e.Project(), saved)
	}
	if _, ok := e.CanUndo(); ok {
		t.Error("nothing can be undone in a file just opened")
	}
	must(t, e.Edit("Rename", "", retitle("x")))
	must(t, e.New())
	if e.Path() != "" || e.Dirty() || e.Project().Title != model.New().Title {
		t.Error("New left something of the old project")
	}
	l.run()
}

func TestOpenLeavesTheDeskOnError(t *testing.T) {
	d, _ := open(t, Options{})
	must(t, d.Edit("Rename", "", retitle("mine")))
	bad := filepath.Join(t.TempDir(), "bad.hillset")
	must(t, os.WriteFile(bad, []byte("{]"), 0o600))
	for _, p := range []string{bad, filepath.Join(filepath.Dir(bad), "none.hillset")} {
		if d.Open(p) == nil {
			t.Errorf("%s was opened", p)
		}
	}
	if d.Project().Title != "mine" || !d.Dirty() || d.Path() != "" {
		t.Error("a failed Open changed the desk")
	}
}

func TestUnknownFieldsSurviveTheDesk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.hillset")
	must(t, os.WriteFile(path, []byte(`{"format": 1, "later": {"x": 1.50}}`), 0o600))
	d, _ := open(t, Options{})
	must(t, d.Open(path))
	if ps := d.OpenProblems(); len(ps) == 0 || ps[0].Field != "later" {
		t.Errorf("problems %v", ps)
	}
	must(t, d.Edit("Rename", "", retitle("Store")))
	must(t, d.Save())
	data, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(data), `"x": 1.50`) || !strings.Contains(string(data), "Store") {
		t.Errorf("%s, %v", data, err)
	}
}

func TestSaveAsksWhenTheFileWasChanged(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.hillset")
	d, _ := open(t, Options{})
	must(t, d.Edit("Rename", "", retitle("mine")))
	must(t, d.SaveAs(path))
	data, err := os.ReadFile(path)
	must(t, err)

	must(t, os.Chtimes(path, time.Now(), time.Now().Add(time.Hour))) // touched, not changed
	must(t, d.Edit("Rename", "", retitle("mine 2")))
	must(t, d.Save())

	other := strings.Replace(string(data), "mine", "hers", 1)
	must(t, os.WriteFile(path, []byte(other), 0o600))
	must(t, os.Chtimes(path, time.Now(), time.Now().Add(2*time.Hour)))
	must(t, d.Edit("Rename", "", retitle("mine 3")))
	var changed *ChangedError
	if err := d.Save(); !errors.As(err, &changed) || changed.Path != path || !d.Dirty() {
		t.Fatalf("saving over another's work gives %v", err)
	}
	if now, err := os.ReadFile(path); err != nil || string(now) != other {
		t.Error("the other's work was touched")
	}
	must(t, d.SaveAnyway())
	if bak, err := os.ReadFile(path + ".bak"); err != nil || string(bak) != other {
		t.Error("the other's work is not in the .bak")
	}
	must(t, os.Remove(path))
	must(t, d.Edit("Rename", "", retitle("mine 4")))
	must(t, d.Save()) // nothing to lose in a file that is gone
}

func TestRecent(t *testing.T) {
	dir := t.TempDir()
	conf := filepath.Join(dir, "conf")
	d, _ := open(t, Options{ConfigDir: conf})
	if got := d.Recent(); got != nil {
		t.Errorf("recent files at first: %v", got)
	}
	a, b := filepath.Join(dir, "a.hillset"), filepath.Join(dir, "b.hillset")
	must(t, d.SaveAs(a))
	must(t, d.SaveAs(b))
	must(t, d.Open(a))
	if got := d.Recent(); !reflect.DeepEqual(got, []string{a, b}) {
		t.Errorf("recent %v", got)
	}
	e, _ := open(t, Options{ConfigDir: conf})
	must(t, os.Remove(b))
	if got := e.Recent(); !reflect.DeepEqual(got, []string{a}) {
		t.Errorf("recent in another window, with one file gone: %v", got)
	}
	for i := range 20 {
		must(t, e.SaveAs(filepath.Join(dir, strings.Repeat("x", i+1)+".hillset")))
	}
	if got := e.Recent(); len(got) != maxRecent {
		t.Errorf("%d files are remembered", len(got))
	}
	must(t, os.WriteFile(filepath.Join(conf, "recent.json"), []byte("["), 0o600))
	must(t, e.SaveAs(a))
	if got := e.Recent(); !reflect.DeepEqual(got, []string{a}) {
		t.Errorf("after the list was damaged: %v", got)
	}
}

func TestRecentThatCannotBeWrittenIsTold(t *testing.T) {
	dir := t.TempDir()
	conf := filepath.Join(dir, "conf")
	must(t, os.WriteFile(conf, nil, 0o600)) // a file where the folder should be
	d, l := open(t, Options{ConfigDir: conf})
	var told error
	d.Listen(func(e Event) {
		if e.Kind == FileChanged && e.Err != nil {
			told = e.Err
		}
	})
	must(t, d.SaveAs(filepath.Join(dir, "a.hillset")))
	l.run()
	if told == nil || d.Dirty() {
		t.Errorf("told %v, dirty %v", told, d.Dirty())
	}
}

func TestWithExt(t *testing.T) {
	for in, want := range map[string]string{"a": "a.hillset", "a.hillset": "a.hillset", "a.txt": "a.txt"} {
		if got := WithExt(in); got != want {
			t.Errorf("WithExt(%q) = %q", in, got)
		}
	}
}
