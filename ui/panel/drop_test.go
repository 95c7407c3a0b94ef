package panel

import (
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"hillset/engine/model"
)

func uri(t *testing.T, path string) []fyne.URI {
	t.Helper()
	full, err := filepath.Abs(path)
	if err != nil {
		t.Fatal(err)
	}
	return []fyne.URI{storage.NewFileURI(full)}
}

func TestDroppedFiles(t *testing.T) {
	b := newBench(t, "")
	b.dropped(nil)
	b.dropped(uri(t, drawn))
	b.q.drain()
	if full, _ := filepath.Abs(drawn); b.desk.Path() != full {
		t.Fatalf("dropped %s, open is %s; %s", full, b.desk.Path(), b.Said())
	}

	b.dropped(uri(t, write(t, filepath.Join(t.TempDir(), "shots.CSV"), "0,98\n5,99\n30,104\n")))
	if b.surveyed == nil || !b.asking() || len(b.surveyed.points) != 3 {
		t.Fatal("a table of points is not read")
	}
	b.dropped(uri(t, right))
	if !b.asking() || !strings.Contains(b.Said(), "Close what is open") {
		t.Errorf("dropped on a dialog, it says %q", b.Said())
	}
	b.surveyed.take()
	b.q.drain()
	if g := b.project().Site.Ground; len(g) != 3 || g[2] != (model.Vec{30, 104}) {
		t.Errorf("ground %v", g)
	}

	b.dropped(uri(t, right)) // the desk holds unsaved work now
	if !b.asking() || filepath.Base(b.desk.Path()) != filepath.Base(drawn) {
		t.Error("unsaved work went without a question")
	}
	b.dismiss()
	b.undo()
	b.q.drain()
	b.openDialog()
	b.dropped(uri(t, right))
	b.q.drain()
	if b.asking() || filepath.Base(b.desk.Path()) != filepath.Base(right) {
		t.Errorf("dropped on the dialog that asks for a file: open is %s, dialogs %d", b.desk.Path(), len(b.modals))
	}
	b.dropped(uri(t, t.TempDir()))
	if !b.asking() || filepath.Base(b.desk.Path()) != filepath.Base(right) {
		t.Error("a folder that was dropped is not refused")
	}
}

// The dialogs for looking open over the one that asks for a path, and Esc
// closes them one after the other.
func TestLookForAPath(t *testing.T) {
	b := newBench(t, drawn)
	for _, ask := range []func(){b.openDialog, func() { b.saveAsDialog(nil) }, b.importGround} {
		ask()
		if len(b.modals) != 1 {
			t.Fatalf("%d dialogs", len(b.modals))
		}
		entry := b.win.Canvas().Focused().(*field)
		saving := strings.HasSuffix(entry.Text, model.Ext)
		b.lookForPath(entry, saving)
		if len(b.modals) != 2 {
			t.Fatalf("%d dialogs while looking", len(b.modals))
		}
		b.dismiss()
		b.dismiss()
		if b.asking() {
			t.Error("dialogs stay open")
		}
	}
}

func TestFileURL(t *testing.T) {
	for path, want := range map[string]string{
		"/home/x/a b.pdf":    "file:///home/x/a%20b.pdf",
		"C:/Users/x/a#1.pdf": "file:///C:/Users/x/a%231.pdf",
		"/home/x/50 % ä.pdf": "file:///home/x/50%20%25%20%C3%A4.pdf",
	} {
		if got := fileURL(path).String(); got != want {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
}
