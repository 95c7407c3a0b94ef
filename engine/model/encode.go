package model

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
)

// encoder writes a Project as indented JSON: fields in the order of the
// structs, a point on one line, and behind the known fields of each object
// those that an earlier read did not know.
type encoder struct {
	buf bytes.Buffer
	err error
}

func (e *encoder) line(depth int) {
	e.buf.WriteByte('\n')
	for range depth {
		e.buf.WriteString("  ")
	}
}

func (e *encoder) text(s string) {
	enc := json.NewEncoder(&e.buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(s); err != nil {
		panic("model: a string did not encode: " + err.Error())
	}
	e.buf.Truncate(e.buf.Len() - 1) // the line end that Encode adds
}

func (e *encoder) number(f float64, path string) {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		if e.err == nil {
			e.err = Problem{Field: path, Value: fmt.Sprint(f), Text: "is not a number and cannot be written", Hard: true}
		}
		return
	}
	form := byte('f')
	if a := math.Abs(f); a != 0 && (a < 1e-6 || a >= 1e21) {
		form = 'e'
	}
	e.buf.WriteString(strconv.FormatFloat(f, form, -1, 64))
}

// value writes v; n is the same value as it was read, nil when it is new.
func (e *encoder) value(v reflect.Value, n *node, path string, depth int) {
	switch v.Kind() {
	case reflect.Struct:
		e.object(v, n, path, depth)
	case reflect.Slice, reflect.Array:
		e.list(v, n, path, depth)
	case reflect.Map:
		e.table(v, path, depth)
	case reflect.Pointer:
		if v.IsNil() {
			e.buf.WriteString("null")
			return
		}
		e.value(v.Elem(), n, path, depth)
	case reflect.String:
		e.text(v.String())
	case reflect.Float64:
		e.number(v.Float(), path)
	case reflect.Int:
		e.buf.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Bool:
		e.buf.WriteString(strconv.FormatBool(v.Bool()))
	default:
		panic("model: no writer for fields of kind " + v.Kind().String())
	}
}

// empty is what omitempty leaves out.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

func (e *encoder) object(v reflect.Value, n *node, path string, depth int) {
	e.buf.WriteByte('{')
	first := true
	key := func(name string) {
		if !first {
			e.buf.WriteByte(',')
		}
		first = false
		e.line(depth + 1)
		e.text(name)
		e.buf.WriteString(": ")
	}
	for _, f := range fieldsOf(v.Type()) {
		if fv := v.Field(f.index); !f.omit || !empty(fv) {
			key(f.name)
			e.value(fv, n.get(f.name), join(path, f.name), depth+1)
		}
	}
	if n != nil && n.kind == objectNode {
		for i, k := range n.keys {
			if !known(v.Type(), k) {
				key(k)
				e.tree(n.kids[i], depth+1)
			}
		}
	}
	if !first {
		e.line(depth)
	}
	e.buf.WriteByte('}')
}

// itemOf finds the i-th item of a list as it was read: by its id where items
// have one, else by its place.
func itemOf(n *node, v reflect.Value, i int) *node {
	if n == nil || n.kind != listNode {
		return nil
	}
	if !hasID(v.Type()) {
		if i < len(n.kids) {
			return n.kids[i]
		}
		return nil
	}
	id := v.FieldByName("ID").String()
	for _, k := range n.kids {
		if m := k.get("id"); m != nil && m.kind == stringNode && m.text == id {
			return k
		}
	}
	return nil
}

func (e *encoder) list(v reflect.Value, n *node, path string, depth int) {
	k := v.Type().Elem().Kind()
	inline := k != reflect.Struct && k != reflect.Array
	e.buf.WriteByte('[')
	for i := range v.Len() {
		switch {
		case !inline:
			e.comma(i)
			e.line(depth + 1)
		case i > 0:
			e.buf.WriteString(", ")
		}
		e.value(v.Index(i), itemOf(n, v.Index(i), i), fmt.Sprintf("%s[%d]", path, i), depth+1)
	}
	if !inline && v.Len() > 0 {
		e.line(depth)
	}
	e.buf.WriteByte(']')
}

func (e *encoder) comma(i int) {
	if i > 0 {
		e.buf.WriteByte(',')
	}
}

func (e *encoder) table(v reflect.Value, path string, depth int) {
	keys := make([]string, 0, v.Len())
	for _, k := range v.MapKeys() {
		keys = append(keys, k.String())
	}
	slices.Sort(keys)
	e.buf.WriteByte('{')
	for i, k := range keys {
		e.comma(i)
		e.line(depth + 1)
		e.text(k)
		e.buf.WriteString(": ")
		e.value(v.MapIndex(reflect.ValueOf(k)), nil, join(path, k), depth+1)
	}
	if len(keys) > 0 {
		e.line(depth)
	}
	e.buf.WriteByte('}')
}

// tree writes a value that this version does not know, as it was read.
func (e *encoder) tree(n *node, depth int) {
	open, shut := byte('{'), byte('}')
	switch n.kind {
	case stringNode:
		e.text(n.text)
		return
	case nullNode:
		e.buf.WriteString("null")
		return
	case numberNode, boolNode:
		e.buf.WriteString(n.text)
		return
	case listNode:
		open, shut = '[', ']'
	}
	e.buf.WriteByte(open)
	for i, k := range n.kids {
		e.comma(i)
		e.line(depth + 1)
		if n.kind == objectNode {
			e.text(n.keys[i])
			e.buf.WriteString(": ")
		}
		e.tree(k, depth+1)
	}
	if len(n.kids) > 0 {
		e.line(depth)
	}
	e.buf.WriteByte(shut)
}
