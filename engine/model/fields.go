package model

import (
	"reflect"
	"strings"
	"sync"
)

// field is one field of a struct as the file names it.
type field struct {
	name  string
	index int
	omit  bool // left out of the file when zero
}

var (
	vecType    = reflect.TypeFor[Vec]()
	fieldCache sync.Map // reflect.Type to []field
)

// fieldsOf lists the fields of a struct in the order in which they are written.
func fieldsOf(t reflect.Type) []field {
	if f, ok := fieldCache.Load(t); ok {
		return f.([]field)
	}
	var fs []field
	for i := range t.NumField() {
		name, opt, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == "" {
			panic("model: no json name on " + t.Name() + "." + t.Field(i).Name)
		}
		fs = append(fs, field{name: name, index: i, omit: opt == "omitempty"})
	}
	fieldCache.Store(t, fs)
	return fs
}

// hasID tells whether items of struct type t carry an id.
func hasID(t reflect.Type) bool {
	if t.Kind() != reflect.Struct {
		return false
	}
	for _, f := range fieldsOf(t) {
		if f.name == "id" {
			return true
		}
	}
	return false
}

func known(t reflect.Type, name string) bool {
	for _, f := range fieldsOf(t) {
		if f.name == name {
			return true
		}
	}
	return false
}

// join appends a field name to a path.
func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
