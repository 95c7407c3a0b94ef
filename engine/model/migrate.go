package model

import (
	"fmt"
	"reflect"
	"strconv"
)

// migrations turns a tree of format i into one of format i+1. A later format
// adds a function here and a file of the older format to the tests.
var migrations = [Format]func(*node) error{
	0: addStages,
}

// migrate brings a tree forward to Format and returns the format it had.
func migrate(root *node) (from int, err error) {
	if root.kind != objectNode {
		return 0, fmt.Errorf("not a project file: %s instead of an object", describe(root))
	}
	n := root.get("format")
	if n == nil {
		return 0, fmt.Errorf("not a project file: it has no \"format\" number")
	}
	from, err = strconv.Atoi(n.text)
	if n.kind != numberNode || err != nil || from < 0 {
		return 0, Problem{Field: "format", Value: describe(n), Allowed: fmt.Sprintf("0 to %d", Format), Text: "is not the number of a file format", Hard: true}
	}
	if from > Format {
		return from, fmt.Errorf("format %d is newer than this program, which reads up to format %d: open the file with a newer version", from, Format)
	}
	for f := from; f < Format; f++ {
		if err := migrations[f](root); err != nil {
			return from, fmt.Errorf("bringing the file from format %d to %d: %w", f, f+1, err)
		}
		*n = node{kind: numberNode, text: strconv.Itoa(f + 1)}
	}
	return from, nil
}

// addStages gives a file of format 0, the draft from before the order of work
// was part of the project, the ordinary stages with its surcharges in the
// plant stage.
func addStages(root *node) error {
	if root.get("stages") != nil {
		return nil
	}
	var ids []string
	if list := root.get("site").get("surcharges"); list != nil && list.kind == listNode {
		for _, s := range list.kids {
			if id := s.get("id"); id != nil && id.kind == stringNode {
				ids = append(ids, id.text)
			}
		}
	}
	var e encoder
	e.value(reflect.ValueOf(DefaultStages(ids...)), nil, "stages", 0)
	stages, err := parseTree(e.buf.Bytes())
	if err != nil {
		return err
	}
	root.keys, root.kids = append(root.keys, "stages"), append(root.kids, stages)
	return nil
}
