package model

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// ReadFile reads the project file at path.
func ReadFile(path string) (*Document, []Problem, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	d, ps, err := Read(f)
	if err != nil {
		return nil, ps, fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
	return d, ps, nil
}

// WriteFile writes the project to path so that at every moment path holds
// either all of the old file or all of the new one. The old one is kept beside
// it with .bak behind its name.
func (d *Document) WriteFile(path string) error {
	data, err := d.encode()
	if err != nil {
		return fmt.Errorf("writing the project: %w", err)
	}
	real, err := target(path)
	if err != nil {
		return err
	}
	if err := keepOld(real); err != nil {
		return fmt.Errorf("keeping the previous version of %s: %w", filepath.Base(path), err)
	}
	return ReplaceFile(real, data)
}

// target follows a link, so that the file is replaced and not the link.
func target(path string) (string, error) {
	real, err := filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		return path, nil
	}
	return real, err
}

// ReplaceFile writes data to path in one step: a new file in the same folder,
// flushed to the disk, takes the place of the old one, whose permissions it gets.
func ReplaceFile(path string, data []byte) error {
	mode := fs.FileMode(0o666) // less the umask
	old, err := os.Stat(path)
	if err == nil {
		mode = old.Mode().Perm()
	}
	tmp := path + ".new-" + rand.Text()[:8]
	if err := writeFlushed(tmp, data, mode); err != nil {
		os.Remove(tmp)
		return err
	}
	if old != nil {
		if err := os.Chmod(tmp, mode); err != nil {
			os.Remove(tmp)
			return err
		}
	}
	if err := os.Rename(tmp, path); err != nil {
		os.Remove(tmp)
		return err
	}
	return flushFolder(filepath.Dir(path))
}

func writeFlushed(path string, data []byte, mode fs.FileMode) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		f.Close()
		return err
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// flushFolder makes a rename last through a loss of power. Windows has no such
// call and needs none.
func flushFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// keepOld gives the file at path a second name ending in .bak, or a copy where
// the disk has no such links. The file stays where it is.
func keepOld(path string) error {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nil
	} else if err != nil {
		return err
	}
	tmp := path + ".old-" + rand.Text()[:8]
	if os.Link(path, tmp) != nil {
		if err := copyFile(path, tmp); err != nil {
			os.Remove(tmp)
			return err
		}
	}
	if err := os.Rename(tmp, path+".bak"); err != nil {
		os.Remove(tmp)
		return err
	}
	// Renaming one name of a file over another name of the same file does
	// nothing and leaves both.
	if err := os.Remove(tmp); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	data, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	return writeFlushed(to, data, 0o666)
}
