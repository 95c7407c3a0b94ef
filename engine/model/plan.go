package model

import (
	"reflect"
	"strconv"
	"strings"
)

// step is what is known beforehand of one place of the file: its range or its
// words, and the steps below it. The plan of a Project is made once, so that
// checking does not build a path for every number.
type step struct {
	name  string // "" for the items of a list or a table
	index int    // of the struct field
	rng   *Range
	rngZ  *Range // of the second coordinate of a point
	words []string
	long  bool // a text that may have many lines
	subs  []step
}

var projectPlan = makePlan(reflect.TypeFor[Project](), "", "")

func makePlan(t reflect.Type, name, path string) step {
	s := step{name: name, words: words[path], long: path == "sheet.notes"}
	if t == vecType {
		s.rng, s.rngZ = mustRange(path), mustRange(path+".z")
		return s
	}
	switch t.Kind() {
	case reflect.Pointer:
		return makePlan(t.Elem(), name, path)
	case reflect.Slice:
		s.subs = []step{makePlan(t.Elem(), "", path+"[]")}
	case reflect.Map:
		s.subs = []step{makePlan(t.Elem(), "", path+".*")}
	case reflect.Struct:
		for _, f := range fieldsOf(t) {
			sub := makePlan(t.Field(f.index).Type, f.name, join(path, f.name))
			sub.index = f.index
			s.subs = append(s.subs, sub)
		}
	case reflect.Float64, reflect.Int:
		s.rng = mustRange(path)
	}
	return s
}

func mustRange(path string) *Range {
	r := ranges[path]
	if r == nil {
		panic("model: no range for " + path)
	}
	return r
}

// place is where a check stands: a chain of names and indices that is put into
// words only when there is something to say.
type place struct {
	up   *place
	name string // of a field or a table entry; "" for a list item
	i    int
}

func (p *place) String() string {
	var parts []string
	for ; p != nil && p.up != nil; p = p.up {
		if p.name == "" {
			parts = append(parts, "["+strconv.Itoa(p.i)+"]")
			continue
		}
		parts = append(parts, "."+p.name)
	}
	var b strings.Builder
	for i := len(parts) - 1; i >= 0; i-- {
		b.WriteString(parts[i])
	}
	return strings.TrimPrefix(b.String(), ".")
}
