package desk

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"syscall"
	"time"

	"hillset/engine/model"
)

// Recovered is unsaved work that a desk left behind.
type Recovered struct {
	File   string // the autosave
	Origin string // the project file it belongs to; empty for none
	Title  string
	Saved  time.Time
	// InUse is true when the process that wrote it seems to be running still:
	// the work is then probably open in another window.
	InUse bool
	Err   error // why it cannot be read; nil when it can

	print print
}

// Recover lists the unsaved work in an autosave folder, newest first. A folder
// that does not exist holds none.
func Recover(dir string) ([]Recovered, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var out []Recovered
	for _, e := range entries {
		if filepath.Ext(e.Name()) != draftExt {
			continue
		}
		r, f, err := openDraft(filepath.Join(dir, e.Name()))
		if err == nil {
			f.Close()
		}
		r.Err = err
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b Recovered) int { return b.Saved.Compare(a.Saved) })
	return out, nil
}

// draftFile reads on behind the head of a draft.
type draftFile struct {
	*bufio.Reader
	f *os.File
}

func (d *draftFile) Close() { d.f.Close() }

func openDraft(path string) (Recovered, *draftFile, error) {
	r := Recovered{File: path}
	f, err := os.Open(path)
	if err != nil {
		return r, nil, err
	}
	const longest = 1 << 16 // of a head: a path, a title and a few numbers
	rest := bufio.NewReaderSize(f, longest)
	line, err := rest.ReadSlice('\n')
	var head draftHead
	if err == nil {
		err = json.Unmarshal(line, &head)
	}
	if err != nil {
		f.Close()
		return r, nil, fmt.Errorf("%s holds no unsaved work: %w", filepath.Base(path), err)
	}
	r.Origin, r.Title, r.Saved, r.print = head.Origin, head.Title, head.Saved, head.Print
	r.InUse = running(head.Process)
	return r, &draftFile{rest, f}, nil
}

// running tells whether a process with this number exists. It may be another
// program that got the same number, so nothing is hidden because of it.
func running(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil || pid <= 0 {
		return false
	}
	if runtime.GOOS == "windows" {
		return true
	}
	err = p.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, fs.ErrPermission)
}

// OpenRecovered puts unsaved work on the desk. It stays dirty, and its
// autosave stays, until it is saved or discarded. Saving it finds out when the
// file it belongs to was changed in the meantime.
func (d *Desk) OpenRecovered(r Recovered) error {
	found, f, err := openDraft(r.File)
	if err != nil {
		return err
	}
	defer f.Close()
	doc, problems, err := model.Read(f)
	if err != nil {
		return err
	}
	if r.File != d.saver.path {
		if err := d.saver.remove(); err != nil {
			return err
		}
	}
	d.saver.adopt(r.File)
	d.put(doc, found.Origin)
	d.file.recovered, d.file.print, d.file.problems = true, found.print, problems
	d.autosaveSoon()
	return nil
}

// adopt goes on with the draft at path.
func (s *saver) adopt(path string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.gone = s.last
	s.dir, s.path = filepath.Dir(path), path
}

// DiscardRecovered throws unsaved work away.
func DiscardRecovered(r Recovered) error { return os.Remove(r.File) }

// Discard throws the unsaved work on the desk away: to be called, after asking,
// before Close. The project stays as it is.
func (d *Desk) Discard() error {
	d.file.recovered = false
	d.file.saved, d.file.units = d.now.number, d.now.project.Display.Units
	d.tell(Event{Kind: FileChanged})
	return d.saver.remove()
}
