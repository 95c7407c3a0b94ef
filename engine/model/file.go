package model

import (
	"bytes"
	"fmt"
	"io"
	"reflect"
)

// Ext is the file name extension of a project.
const Ext = ".hillset"

// MaxFile is the largest file that is read, in bytes. A project of many
// hundred points has some tens of kilobytes.
const MaxFile = 32 << 20

// Document is a project together with what its file held beyond the fields
// this version knows. To save a changed project, set Project and write.
type Document struct {
	Project *Project
	tree    *node // the file as it was read; nil for a new project
}

// Read reads a project file. The problems are fields it does not know, which
// are kept, and whatever Validate finds. The Document is nil when there is an
// error: text that is not JSON (a *SyntaxError with line and column), a field
// of the wrong form, a newer format, a value that can never be stored.
func Read(r io.Reader) (*Document, []Problem, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxFile+1))
	if err != nil {
		return nil, nil, fmt.Errorf("reading the project: %w", err)
	}
	if len(data) > MaxFile {
		return nil, nil, fmt.Errorf("reading the project: larger than %d MB", MaxFile>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	root, err := parseTree(data)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the project: %w", err)
	}
	from, err := migrate(root)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the project: %w", err)
	}
	dec := decoder{data: data}
	if from != Format {
		dec.data = nil
	}
	p := new(Project)
	if err := dec.value(root, reflect.ValueOf(p).Elem(), ""); err != nil {
		return nil, nil, fmt.Errorf("reading the project: %w", err)
	}
	found := append(dec.unknown, p.Validate()...)
	if hard := FirstHard(found); hard != nil {
		return nil, found, fmt.Errorf("reading the project: %w", *hard)
	}
	return &Document{Project: p, tree: root}, found, nil
}

// FirstHard returns the first problem that keeps a project from being stored,
// nil when there is none.
func FirstHard(ps []Problem) *Problem {
	for i := range ps {
		if ps[i].Hard {
			return &ps[i]
		}
	}
	return nil
}

// Write writes the project as indented JSON in the format of this version,
// with the unknown fields of the file it came from: those of list items go
// with the item of the same id, or of the same place where items have no id.
// A value that is not a number is an error and nothing is written.
func (d *Document) Write(w io.Writer) error {
	data, err := d.encode()
	if err != nil {
		return fmt.Errorf("writing the project: %w", err)
	}
	if _, err := w.Write(data); err != nil {
		return fmt.Errorf("writing the project: %w", err)
	}
	return nil
}

func (d *Document) encode() ([]byte, error) {
	p := *d.Project
	p.Format = Format
	var e encoder
	e.value(reflect.ValueOf(&p), d.tree, "", 0)
	if e.err != nil {
		return nil, e.err
	}
	e.buf.WriteByte('\n')
	return e.buf.Bytes(), nil
}
