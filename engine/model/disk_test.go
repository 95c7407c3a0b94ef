package model

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
)

func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "store.hillset")
	first, second := sample(), sample()
	second.Title = "Second"
	if err := (&Document{Project: first}).WriteFile(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := (&Document{Project: second}).WriteFile(path); err != nil {
			t.Fatal(err)
		}
	}
	d, _, err := ReadFile(path)
	if err != nil || d.Project.Title != "Second" {
		t.Fatalf("read %v, %v", d, err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("permissions %v, %v", info.Mode(), err)
	}
	third := sample()
	third.Title = "Third"
	if err := (&Document{Project: third}).WriteFile(path); err != nil {
		t.Fatal(err)
	}
	bak, _, err := ReadFile(path + ".bak")
	if err != nil || bak.Project.Title != "Second" {
		t.Errorf("the previous version is %v, %v", bak, err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 2 {
		t.Errorf("left in the folder: %v, %v", entries, err)
	}
}

func TestWriteFileLeavesTheOldOneWhenItFails(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "store.hillset")
	if err := (&Document{Project: sample()}).WriteFile(path); err != nil {
		t.Fatal(err)
	}
	bad := sample()
	bad.Box.Level = math.NaN()
	if err := (&Document{Project: bad}).WriteFile(path); err == nil {
		t.Error("NaN was written")
	}
	if d, _, err := ReadFile(path); err != nil || !reflect.DeepEqual(d.Project, sample()) {
		t.Errorf("the old file is now %v, %v", d, err)
	}
	if err := (&Document{Project: sample()}).WriteFile(filepath.Join(dir, "no", "folder")); err == nil {
		t.Error("a file was written into a folder that does not exist")
	}
	if err := (&Document{Project: sample()}).WriteFile(dir); err == nil {
		t.Error("a folder was replaced by a file")
	}
	if left, err := filepath.Glob(filepath.Join(dir, "*.new-*")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestWriteFileFollowsALink(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "a.hillset"), filepath.Join(dir, "b.hillset")
	if err := (&Document{Project: sample()}).WriteFile(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	p := sample()
	p.Title = "Through the link"
	if err := (&Document{Project: p}).WriteFile(link); err != nil {
		t.Fatal(err)
	}
	if d, _, err := ReadFile(path); err != nil || d.Project.Title != p.Title {
		t.Errorf("the file behind the link is %v, %v", d, err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link became %v, %v", info, err)
	}
}

func TestReadFileNamesTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad.hillset")
	if err := os.WriteFile(path, []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	var s *SyntaxError
	if _, _, err := ReadFile(path); !errors.As(err, &s) || !strings.Contains(err.Error(), "bad.hillset") {
		t.Errorf("error %v", err)
	}
}

// Whoever reads while another writes sees one whole version or the other.
func TestReadersNeverSeeHalfAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "store.hillset")
	versions := []*Project{sample(), sample()}
	versions[1].Title = strings.Repeat("long ", 30)
	must := func(err error) {
		if err != nil {
			t.Error(err)
		}
	}
	must((&Document{Project: versions[0]}).WriteFile(path))
	done := make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() {
		defer close(done)
		for i := range 40 {
			must((&Document{Project: versions[i%2]}).WriteFile(path))
		}
	})
	reads := 0
	for open := true; open; {
		select {
		case <-done:
			open = false
		default:
		}
		d, _, err := ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(d.Project, versions[0]) && !reflect.DeepEqual(d.Project, versions[1]) {
			t.Fatal("a version that was never written")
		}
		reads++
	}
	wg.Wait()
	if reads < 2 {
		t.Errorf("only %d reads", reads)
	}
}

func TestCopyFile(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	if err := os.WriteFile(a, []byte("content"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := copyFile(a, b); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(b); err != nil || string(data) != "content" {
		t.Errorf("%q, %v", data, err)
	}
	if copyFile(filepath.Join(dir, "none"), b) == nil {
		t.Error("a file that does not exist was copied")
	}
	if copyFile(a, b) == nil {
		t.Error("a copy was written over another file")
	}
}
