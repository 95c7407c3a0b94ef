package desk

import (
	"bufio"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hillset/engine/model"
)

const shortDelay = 5 * time.Millisecond

func drafts(t *testing.T, dir string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*"+draftExt))
	must(t, err)
	return names
}

func TestAutosaveComesAndGoes(t *testing.T) {
	dir := t.TempDir()
	auto := filepath.Join(dir, "auto")
	d, l := open(t, Options{AutosaveDir: auto, AutosaveDelay: shortDelay})
	present := func() bool { return len(drafts(t, auto)) == 1 }
	absent := func() bool { return len(drafts(t, auto)) == 0 }

	must(t, d.Edit("Rename", "", retitle("a")))
	l.until(t, "the work is kept", present)
	must(t, d.SaveAs(filepath.Join(dir, "a.hillset")))
	if !absent() {
		t.Error("saving left the draft")
	}
	must(t, d.Edit("Rename", "", retitle("b")))
	l.until(t, "the work is kept", present)
	d.Undo()
	l.until(t, "the draft is gone after undo", absent)
	must(t, d.Edit("Rename", "", retitle("c")))
	l.until(t, "the work is kept", present)
	must(t, d.Open(d.Path()))
	if !absent() {
		t.Error("opening another project left the draft")
	}
	must(t, d.Edit("Rename", "", retitle("d")))
	l.until(t, "the work is kept", present)
	must(t, d.Discard())
	if !absent() || d.Dirty() {
		t.Error("discarding left the draft")
	}
}

func TestDirtyCloseKeepsTheWork(t *testing.T) {
	dir := t.TempDir()
	l := newLoop()
	d := New(Options{Post: l.post, AutosaveDir: dir, AutosaveDelay: time.Hour})
	must(t, d.Edit("Rename", "", retitle("late")))
	must(t, d.Close())
	found, err := Recover(dir)
	must(t, err)
	if len(found) != 1 || found[0].Title != "late" || found[0].Err != nil {
		t.Fatalf("found %+v", found)
	}
	must(t, DiscardRecovered(found[0]))
	if len(drafts(t, dir)) != 0 {
		t.Error("the draft is still there")
	}
}

func TestADraftThatWasOvertakenIsNotWritten(t *testing.T) {
	dir := t.TempDir()
	d, _ := open(t, Options{AutosaveDir: dir, AutosaveDelay: time.Hour})
	must(t, d.Edit("Rename", "", retitle("a")))
	older, newer := d.draft(), d.draft()
	must(t, d.saver.write(newer))
	must(t, os.Remove(d.saver.path))
	must(t, d.saver.write(older)) // came late
	if len(drafts(t, dir)) != 0 {
		t.Error("an older draft was written over a newer one")
	}
	late := d.draft()
	must(t, d.saver.remove())
	must(t, d.saver.write(late)) // was on its way when the work was saved
	if len(drafts(t, dir)) != 0 {
		t.Error("a draft came back after it was removed")
	}
}

func TestAutosaveThatFailsIsTold(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	must(t, os.WriteFile(file, nil, 0o600))
	l := newLoop()
	d := New(Options{Post: l.post, AutosaveDir: file, AutosaveDelay: shortDelay})
	var told error
	d.Listen(func(e Event) {
		if e.Err != nil {
			told = e.Err
		}
	})
	must(t, d.Edit("Rename", "", retitle("a")))
	l.until(t, "the failure is told", func() bool { return told != nil })
	if d.Close() == nil {
		t.Error("Close could not keep the work and did not say so")
	}
}

// The autosave must survive what nobody can catch: the test runs itself once
// more, waits until that process has kept its work, and kills it.
const childDir = "HILLSET_TEST_AUTOSAVE"

func TestMain(m *testing.M) {
	if dir := os.Getenv(childDir); dir != "" {
		child(dir)
		return
	}
	os.Exit(m.Run())
}

func child(dir string) {
	l := newLoop()
	d := New(Options{Post: l.post, AutosaveDir: filepath.Join(dir, "auto"), AutosaveDelay: shortDelay})
	fail := func(err error) {
		if err != nil {
			io.WriteString(os.Stdout, "failed: "+err.Error()+"\n")
			os.Exit(1)
		}
	}
	fail(d.Edit("Rename", "", retitle("saved")))
	fail(d.SaveAs(filepath.Join(dir, "a.hillset")))
	fail(d.Edit("Rename", "", retitle("not saved")))
	for len(glob(filepath.Join(dir, "auto", "*"+draftExt))) == 0 {
		l.run()
		time.Sleep(time.Millisecond)
	}
	io.WriteString(os.Stdout, "kept\n")
	select {} // until killed
}

func glob(pattern string) []string {
	names, err := filepath.Glob(pattern)
	if err != nil {
		panic("desk: bad pattern " + pattern)
	}
	return names
}

func TestKilledProcessLeavesItsWork(t *testing.T) {
	dir := t.TempDir()
	auto := filepath.Join(dir, "auto")
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childDir+"="+dir)
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "kept\n" {
		t.Fatalf("the other process says %q, %v", line, err)
	}
	if found, err := Recover(auto); err != nil || len(found) != 1 || !found[0].InUse {
		t.Errorf("while it runs: %+v, %v", found, err)
	}
	must(t, cmd.Process.Kill())
	if err := cmd.Wait(); err == nil {
		t.Fatal("the process ended by itself")
	}

	path := filepath.Join(dir, "a.hillset")
	found, err := Recover(auto)
	must(t, err)
	if len(found) != 1 || found[0].Origin != path || found[0].Title != "not saved" || found[0].InUse || found[0].Err != nil || found[0].Saved.IsZero() {
		t.Fatalf("found %+v", found)
	}
	d, l := open(t, Options{AutosaveDir: auto, AutosaveDelay: shortDelay})
	must(t, d.OpenRecovered(found[0]))
	if d.Project().Title != "not saved" || !d.Dirty() || d.Path() != path {
		t.Errorf("recovered %q, dirty %v, path %q", d.Project().Title, d.Dirty(), d.Path())
	}
	if len(drafts(t, auto)) != 1 {
		t.Error("the draft is gone before the work was saved")
	}
	must(t, d.Save()) // the file is as the killed process knew it
	l.run()
	if len(drafts(t, auto)) != 0 || d.Dirty() {
		t.Error("saving left the draft")
	}
	if doc, _, err := model.ReadFile(path); err != nil || doc.Project.Title != "not saved" {
		t.Errorf("saved %v, %v", doc, err)
	}
}

func TestRecoveredWorkMeetsAChangedFile(t *testing.T) {
	dir := t.TempDir()
	auto, path := filepath.Join(dir, "auto"), filepath.Join(dir, "a.hillset")
	l := newLoop()
	d := New(Options{Post: l.post, AutosaveDir: auto, AutosaveDelay: time.Hour})
	must(t, d.SaveAs(path))
	must(t, d.Edit("Rename", "", retitle("mine")))
	must(t, d.Close())
	data, err := os.ReadFile(path)
	must(t, err)
	must(t, os.WriteFile(path, []byte(strings.Replace(string(data), "Untitled", "Hers and longer", 1)), 0o600))

	e, _ := open(t, Options{AutosaveDir: auto, AutosaveDelay: time.Hour})
	found, err := Recover(auto)
	must(t, err)
	must(t, e.OpenRecovered(found[0]))
	var changed *ChangedError
	if err := e.Save(); !errors.As(err, &changed) {
		t.Errorf("saving recovered work over a file that changed gives %v", err)
	}
}

func TestRecover(t *testing.T) {
	dir := t.TempDir()
	if found, err := Recover(filepath.Join(dir, "none")); err != nil || found != nil {
		t.Errorf("no folder gives %v, %v", found, err)
	}
	now := time.Date(2025, 1, 31, 12, 0, 0, 0, time.UTC)
	for _, title := range []string{"old", "new"} {
		l := newLoop()
		d := New(Options{Post: l.post, AutosaveDir: dir, Now: func() time.Time { return now }})
		must(t, d.Edit("Rename", "", retitle(title)))
		must(t, d.Close())
		now = now.Add(time.Minute)
	}
	must(t, os.WriteFile(filepath.Join(dir, "x"+draftExt), []byte("rubbish"), 0o600))
	must(t, os.WriteFile(filepath.Join(dir, "notes.txt"), nil, 0o600))
	found, err := Recover(dir)
	must(t, err)
	if len(found) != 3 || found[0].Title != "new" || found[1].Title != "old" || found[2].Err == nil {
		t.Fatalf("found %+v", found)
	}
	d, _ := open(t, Options{AutosaveDir: t.TempDir()})
	if d.OpenRecovered(found[2]) == nil {
		t.Error("rubbish was opened")
	}
	head := "{\"title\": \"x\"}\n"
	must(t, os.WriteFile(found[2].File, []byte(head+"{"), 0o600))
	if d.OpenRecovered(found[2]) == nil || d.Dirty() {
		t.Error("half a project was opened")
	}
}
