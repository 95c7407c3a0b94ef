package model

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"
)

// maxDepth is how deep a file may nest. A project needs 6; the rest is room
// for fields of later versions.
const maxDepth = 64

// Kinds of node.
const (
	objectNode = 'o'
	listNode   = 'l'
	stringNode = 's'
	numberNode = 'n'
	boolNode   = 'b'
	nullNode   = '0'
)

// node is one value of a JSON text with the order of its keys and its place,
// so that what this version does not know can be written back as it was.
type node struct {
	kind byte
	off  int    // offset of its first byte
	text string // a string, the literal of a number, "true" or "false"
	keys []string
	kids []*node // of an object, one for each key; or the items of a list
}

// get returns the value of a key, nil when there is none.
func (n *node) get(key string) *node {
	if n == nil || n.kind != objectNode {
		return nil
	}
	for i, k := range n.keys {
		if k == key {
			return n.kids[i]
		}
	}
	return nil
}

// SyntaxError is a fault in the text of a file, with its place.
type SyntaxError struct {
	Line, Column int // both from 1; the column counts characters
	Text         string
}

func (e *SyntaxError) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Text)
}

// faultAt makes a SyntaxError for an offset into data.
func faultAt(data []byte, off int, text string) *SyntaxError {
	off = max(0, min(off, len(data)))
	before := data[:off]
	line := 1 + bytes.Count(before, []byte("\n"))
	start := bytes.LastIndexByte(before, '\n') + 1
	return &SyntaxError{Line: line, Column: 1 + utf8.RuneCount(before[start:]), Text: text}
}

// parseTree reads one JSON value.
func parseTree(data []byte) (*node, error) {
	var raw json.RawMessage
	if err := json.Unmarshal(data, &raw); err != nil {
		return nil, syntaxFault(data, err)
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	p := treeParser{data: data, dec: dec}
	return p.value(0)
}

func syntaxFault(data []byte, err error) error {
	var s *json.SyntaxError
	if !errors.As(err, &s) {
		return err
	}
	text := s.Error()
	if strings.Contains(text, "'N'") || strings.Contains(text, "'I'") || strings.Contains(text, "numeric literal") {
		text += " (NaN and Inf are not numbers of a project file)"
	}
	return faultAt(data, int(s.Offset)-1, text)
}

type treeParser struct {
	data []byte
	dec  *json.Decoder
}

// place is the offset at which the next token starts.
func (p *treeParser) place() int {
	off := int(p.dec.InputOffset())
	for off < len(p.data) && strings.IndexByte(" \t\r\n,:", p.data[off]) >= 0 {
		off++
	}
	return off
}

func (p *treeParser) value(depth int) (*node, error) {
	n := &node{off: p.place()}
	if depth > maxDepth {
		return nil, faultAt(p.data, n.off, fmt.Sprintf("nested more than %d deep", maxDepth))
	}
	tok, err := p.dec.Token()
	if err != nil {
		return nil, syntaxFault(p.data, err)
	}
	switch v := tok.(type) {
	case json.Delim:
		if v == '{' {
			return n, p.object(n, depth)
		}
		return n, p.list(n, depth)
	case string:
		n.kind, n.text = stringNode, v
	case json.Number:
		n.kind, n.text = numberNode, v.String()
	case bool:
		n.kind, n.text = boolNode, fmt.Sprint(v)
	case nil:
		n.kind = nullNode
	}
	return n, nil
}

func (p *treeParser) object(n *node, depth int) error {
	n.kind = objectNode
	seen := map[string]bool{}
	for p.dec.More() {
		off := p.place()
		tok, err := p.dec.Token()
		if err != nil {
			return syntaxFault(p.data, err)
		}
		key, ok := tok.(string)
		if !ok {
			panic("model: the key of an object is not a string in checked JSON")
		}
		if seen[key] {
			return faultAt(p.data, off, fmt.Sprintf("the key %q stands twice in one object", key))
		}
		seen[key] = true
		kid, err := p.value(depth + 1)
		if err != nil {
			return err
		}
		n.keys, n.kids = append(n.keys, key), append(n.kids, kid)
	}
	_, err := p.dec.Token()
	return err
}

func (p *treeParser) list(n *node, depth int) error {
	n.kind = listNode
	for p.dec.More() {
		kid, err := p.value(depth + 1)
		if err != nil {
			return err
		}
		n.kids = append(n.kids, kid)
	}
	_, err := p.dec.Token()
	return err
}
