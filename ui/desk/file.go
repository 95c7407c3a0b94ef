package desk

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"hillset/engine/model"
)

// file is where the project was read from or saved to.
type file struct {
	path      string
	saved     uint64 // number of the state that the file holds
	units     string // and its display units
	recovered bool   // taken from an autosave: the file holds something else
	print     print
	problems  []model.Problem
}

// print tells whether a file on disk is still the one that was read.
type print struct {
	Time time.Time `json:"time"`
	Size int64     `json:"size"`
	Hash string    `json:"sha256"`
}

func printOf(path string) (print, error) {
	info, err := os.Stat(path)
	if err != nil {
		return print{}, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return print{}, err
	}
	sum := sha256.Sum256(data)
	return print{info.ModTime(), info.Size(), hex.EncodeToString(sum[:])}, nil
}

// ErrNoPath is returned by Save for a project that has no file yet.
var ErrNoPath = errors.New("the project has no file yet: choose a name")

// ChangedError says that somebody else changed the open file on disk.
type ChangedError struct{ Path string }

func (e *ChangedError) Error() string {
	return fmt.Sprintf("%s was changed on disk after it was opened here: saving would replace those changes", filepath.Base(e.Path))
}

// Path is the file of the project, empty while it has none.
func (d *Desk) Path() string { return d.file.path }

// Dirty tells whether the project differs from its file.
func (d *Desk) Dirty() bool {
	return d.file.recovered || d.now.number != d.file.saved || d.now.project.Display.Units != d.file.units
}

// OpenProblems is what the reader of the open file had to say: fields it does
// not know and what Validate found then.
func (d *Desk) OpenProblems() []model.Problem { return d.file.problems }

// New puts an empty project on the desk. Whoever calls it has asked about
// unsaved work: that and its autosave are gone.
func (d *Desk) New() error {
	if err := d.saver.remove(); err != nil {
		return err
	}
	d.put(&model.Document{Project: model.New()}, "")
	return nil
}

// Open puts the project of a file on the desk; unsaved work as for New. On an
// error the desk is as it was.
func (d *Desk) Open(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	doc, problems, err := model.ReadFile(path)
	if err != nil {
		return err
	}
	seen, err := printOf(path)
	if err != nil {
		return err
	}
	if err := d.saver.remove(); err != nil {
		return err
	}
	d.put(doc, path)
	d.file.print, d.file.problems = seen, problems
	d.remember(path)
	return nil
}

// Save writes the project to its file. It returns ErrNoPath when there is none
// and a *ChangedError, having written nothing, when the file is no longer the
// one that was read or saved here.
func (d *Desk) Save() error {
	if d.file.path == "" {
		return ErrNoPath
	}
	if err := d.unchanged(); err != nil {
		return err
	}
	return d.SaveAnyway()
}

// unchanged compares the file with its print; a file that is gone can be
// written without loss.
func (d *Desk) unchanged() error {
	info, err := os.Stat(d.file.path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	was := d.file.print
	if info.Size() == was.Size && info.ModTime().Equal(was.Time) {
		return nil
	}
	is, err := printOf(d.file.path)
	if err != nil {
		return err
	}
	if is.Hash != was.Hash {
		return &ChangedError{d.file.path}
	}
	return nil
}

// SaveAnyway is Save without the look at what the disk holds: for use after
// the user has been asked. The file that is replaced stays as .bak.
func (d *Desk) SaveAnyway() error {
	if d.file.path == "" {
		return ErrNoPath
	}
	return d.SaveAs(d.file.path)
}

// SaveAs writes the project to path, replacing what is there (which stays as
// .bak), and makes it the file of the project.
func (d *Desk) SaveAs(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	if err := d.document().WriteFile(path); err != nil {
		return err
	}
	seen, err := printOf(path)
	if err != nil {
		return err
	}
	d.file = file{path: path, saved: d.now.number, units: d.now.project.Display.Units, print: seen, problems: d.file.problems}
	err = d.saver.remove()
	d.tell(Event{Kind: FileChanged, Err: err})
	d.remember(path)
	return nil
}

// WithExt adds the extension of project files to a path that has none.
func WithExt(path string) string {
	if filepath.Ext(path) == "" {
		return path + model.Ext
	}
	return path
}
