package model

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
)

// decoder fills a Project from a tree. Names are matched exactly; what has no
// place in the Project is reported and left in the tree.
type decoder struct {
	data    []byte // text the offsets of the tree point into; nil after a migration
	unknown []Problem
}

// fault makes an error for the value n of the field path.
func (d *decoder) fault(n *node, path, want string) error {
	found := describe(n)
	p := Problem{Field: path, Value: found, Allowed: want, Text: "has the wrong form", Hard: true}
	if d.data == nil {
		return p
	}
	at := faultAt(d.data, n.off, "")
	return fmt.Errorf("line %d, column %d: %w", at.Line, at.Column, p)
}

// describe shows a value shortly, for a message.
func describe(n *node) string {
	switch n.kind {
	case objectNode:
		return "an object"
	case listNode:
		return fmt.Sprintf("a list of %d", len(n.kids))
	case stringNode:
		return strconv.Quote(shorten(n.text))
	case nullNode:
		return "null"
	}
	return shorten(n.text)
}

func shorten(s string) string {
	const most = 40
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most]) + "…"
}

func (d *decoder) value(n *node, v reflect.Value, path string) error {
	if v.Type() == vecType {
		return d.point(n, v, path)
	}
	switch v.Kind() {
	case reflect.Struct:
		return d.object(n, v, path)
	case reflect.Slice:
		return d.list(n, v, path)
	case reflect.Map:
		return d.table(n, v, path)
	case reflect.Pointer:
		if n.kind == nullNode {
			return nil
		}
		v.Set(reflect.New(v.Type().Elem()))
		return d.value(n, v.Elem(), path)
	}
	return d.scalar(n, v, path)
}

func (d *decoder) scalar(n *node, v reflect.Value, path string) error {
	switch v.Kind() {
	case reflect.String:
		if n.kind != stringNode {
			return d.fault(n, path, "a text")
		}
		v.SetString(n.text)
	case reflect.Bool:
		if n.kind != boolNode {
			return d.fault(n, path, "true or false")
		}
		v.SetBool(n.text == "true")
	case reflect.Int:
		i, err := strconv.ParseInt(n.text, 10, 32)
		if n.kind != numberNode || err != nil {
			return d.fault(n, path, "a whole number")
		}
		v.SetInt(i)
	case reflect.Float64:
		f, ok := n.float()
		if !ok {
			return d.fault(n, path, "a number")
		}
		v.SetFloat(f)
	default:
		panic("model: no reader for fields of kind " + v.Kind().String())
	}
	return nil
}

// float reads a number node; false when it is none or too large to hold.
func (n *node) float() (float64, bool) {
	if n.kind != numberNode {
		return 0, false
	}
	f, err := strconv.ParseFloat(n.text, 64)
	return f, err == nil && !math.IsInf(f, 0)
}

func (d *decoder) point(n *node, v reflect.Value, path string) error {
	const want = "a point of two numbers [x, z]"
	if n.kind != listNode || len(n.kids) != 2 {
		return d.fault(n, path, want)
	}
	for i, k := range n.kids {
		f, ok := k.float()
		if !ok {
			return d.fault(k, path, want)
		}
		v.Index(i).SetFloat(f)
	}
	return nil
}

func (d *decoder) object(n *node, v reflect.Value, path string) error {
	if n.kind != objectNode {
		return d.fault(n, path, "an object")
	}
	for _, f := range fieldsOf(v.Type()) {
		if kid := n.get(f.name); kid != nil {
			if err := d.value(kid, v.Field(f.index), join(path, f.name)); err != nil {
				return err
			}
		}
	}
	for i, k := range n.keys {
		if !known(v.Type(), k) {
			d.unknown = append(d.unknown, Problem{Field: join(path, k), Value: describe(n.kids[i]),
				Text: "is not known to this version of the program; it is kept in the file but counts for nothing"})
		}
	}
	return nil
}

// list reads a list; an empty one is read as nil, so that equal projects are
// equal in memory too.
func (d *decoder) list(n *node, v reflect.Value, path string) error {
	if n.kind == nullNode || n.kind == listNode && len(n.kids) == 0 {
		return nil
	}
	if n.kind != listNode {
		return d.fault(n, path, "a list")
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.kids), len(n.kids)))
	for i, k := range n.kids {
		if err := d.value(k, v.Index(i), fmt.Sprintf("%s[%d]", path, i)); err != nil {
			return err
		}
	}
	return nil
}

func (d *decoder) table(n *node, v reflect.Value, path string) error {
	if n.kind == nullNode || n.kind == objectNode && len(n.kids) == 0 {
		return nil
	}
	if n.kind != objectNode {
		return d.fault(n, path, "an object")
	}
	v.Set(reflect.MakeMap(v.Type()))
	for i, k := range n.keys {
		e := reflect.New(v.Type().Elem()).Elem()
		if err := d.value(n.kids[i], e, join(path, k)); err != nil {
			return err
		}
		v.SetMapIndex(reflect.ValueOf(k), e)
	}
	return nil
}
