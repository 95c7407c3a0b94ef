package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"hillset/engine/model"
)

// maxRecent is how many files are remembered: as many as a menu shows at once.
const maxRecent = 12

func (d *Desk) recentFile() string { return filepath.Join(d.opts.ConfigDir, "recent.json") }

// Recent lists the files opened or saved last, newest first, without those
// that are gone. A list that cannot be read is empty.
func (d *Desk) Recent() []string {
	if d.opts.ConfigDir == "" {
		return nil
	}
	list, err := d.readRecent()
	if err != nil {
		return nil
	}
	return slices.DeleteFunc(list, func(p string) bool {
		info, err := os.Stat(p)
		return err != nil || info.IsDir()
	})
}

func (d *Desk) readRecent() ([]string, error) {
	data, err := os.ReadFile(d.recentFile())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var list []string
	if err := json.Unmarshal(data, &list); err != nil {
		return nil, fmt.Errorf("list of recent files: %w", err)
	}
	return list, nil
}

// remember puts path at the head of the list. It reads the list anew, as
// another window may have written it; one that is damaged is begun again. That
// it could not be written keeps nothing from working and is told as an event.
func (d *Desk) remember(path string) {
	if d.opts.ConfigDir == "" {
		return
	}
	err := d.writeRecent(path)
	if err != nil {
		err = fmt.Errorf("list of recent files: %w", err)
	}
	d.tell(Event{Kind: FileChanged, Err: err})
}

func (d *Desk) writeRecent(path string) error {
	list := append([]string{path}, slices.DeleteFunc(d.Recent(), func(p string) bool { return p == path })...)
	data, err := json.MarshalIndent(list[:min(len(list), maxRecent)], "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(d.opts.ConfigDir, 0o700); err != nil {
		return err
	}
	return model.ReplaceFile(d.recentFile(), append(data, '\n'))
}
