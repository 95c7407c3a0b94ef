package desk

import (
	"bytes"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"hillset/engine/model"
)

// draftExt is the extension of autosaved work. Such a file is one line of JSON,
// the draftHead, and after it the project as it would have been saved.
const draftExt = ".autosave"

type draftHead struct {
	Origin  string    `json:"origin"` // file the work belongs to; empty for none
	Title   string    `json:"title"`
	Saved   time.Time `json:"saved"`
	Process int       `json:"process"`
	Print   print     `json:"print"` // of the origin when it was last read or saved
}

type draft struct {
	number uint64
	head   draftHead
	doc    *model.Document
}

// saver writes drafts beside the user's goroutine, one at a time and never one
// that the desk has already done away with.
type saver struct {
	dir     string
	path    string
	pending bool   // a write is due
	last    uint64 // number of the last draft made

	mu   sync.Mutex // held while the file is touched; guards gone
	gone uint64     // drafts up to this number are not wanted any more
}

func (s *saver) init(dir string) {
	s.dir = dir
	s.fresh()
}

// fresh takes a new file name.
func (s *saver) fresh() {
	if s.dir != "" {
		s.path = filepath.Join(s.dir, "draft-"+rand.Text()[:12]+draftExt)
	}
}

func (d *Desk) draft() draft {
	d.saver.last++
	p := d.now.project
	return draft{d.saver.last, draftHead{d.file.path, p.Title, d.opts.Now(), os.Getpid(), d.file.print}, d.document()}
}

// autosaveSoon has the unsaved work written a little later: not at each change,
// but not later than the delay after the first one either.
func (d *Desk) autosaveSoon() {
	if d.saver.dir == "" || d.saver.pending || d.closed {
		return
	}
	d.saver.pending = true
	time.AfterFunc(d.opts.AutosaveDelay, func() { d.opts.Post(d.autosave) })
}

func (d *Desk) autosave() {
	d.saver.pending = false
	if d.closed {
		return
	}
	if !d.Dirty() {
		if err := d.saver.remove(); err != nil {
			d.tell(Event{Kind: FileChanged, Err: err})
		}
		return
	}
	job := d.draft()
	go func() {
		err := d.saver.write(job)
		if err == nil {
			return
		}
		d.opts.Post(func() {
			d.tell(Event{Kind: FileChanged, Err: fmt.Errorf("keeping unsaved work: %w", err)})
		})
	}()
}

func (s *saver) write(job draft) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.dir == "" || job.number <= s.gone {
		return nil
	}
	var buf bytes.Buffer
	if err := json.NewEncoder(&buf).Encode(job.head); err != nil {
		return err
	}
	if err := job.doc.Write(&buf); err != nil {
		return err
	}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return err
	}
	s.gone = job.number
	return model.ReplaceFile(s.path, buf.Bytes())
}

// remove does away with the draft and with any that is still on its way.
func (s *saver) remove() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.gone = s.last
	if s.dir == "" {
		return nil
	}
	if err := os.Remove(s.path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
