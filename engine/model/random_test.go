package model

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// scatter gives every number of a project a random value of its range. What
// belongs together may not fit any more, but nothing is out of range.
func scatter(p *Project, r *rand.Rand) {
	for _, l := range leaves(reflect.ValueOf(p), "", "") {
		if l.pattern == "format" {
			continue
		}
		rg := ranges[l.pattern]
		v := rg.Min + (rg.Max-rg.Min)*r.Float64()
		switch r.IntN(8) {
		case 0:
			v = rg.Min
		case 1:
			v = rg.Max
		case 2:
			v = math.Round(v*100) / 100 // as people type
		}
		l.set(v)
	}
	for _, line := range [][]Vec{p.Site.Ground, p.Site.Rock, p.Fill.Line, p.Site.Strata[1].Top} {
		for i := range line {
			line[i][0] = float64(i)*10 + 9*r.Float64()
		}
	}
}

func TestRandomProjectsReadBack(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 4))
	for range 200 {
		p := sample()
		scatter(p, r)
		if hard := FirstHard(p.Validate()); hard != nil {
			t.Fatal(*hard)
		}
		text := write(t, &Document{Project: p})
		d, _ := read(t, text)
		if !reflect.DeepEqual(d.Project, p) {
			t.Fatalf("read back\n%+v\nwrote\n%+v", d.Project, p)
		}
		if !reflect.DeepEqual(p, p.Clone()) {
			t.Fatal("the clone differs")
		}
	}
}

// The standard library is the second opinion on what a file says: it must read
// what we write, and we what it writes.
func TestStandardLibraryAgrees(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	for range 50 {
		p := sample()
		scatter(p, r)
		theirs := new(Project)
		if err := json.Unmarshal([]byte(write(t, &Document{Project: p})), theirs); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(theirs, p) {
			t.Fatalf("they read\n%+v\nwe wrote\n%+v", theirs, p)
		}
		text, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		ours, _ := read(t, string(text))
		if !reflect.DeepEqual(ours.Project, p) {
			t.Fatalf("we read\n%+v\nthey wrote\n%+v", ours.Project, p)
		}
	}
}

// objectsOf lists the objects in a tree in which a field of a later version
// may stand: all but tables, whose every key is known.
func objectsOf(n *node, path string) (out []*node) {
	if n.kind == objectNode && path != "prices" && !strings.HasSuffix(path, "by_stratum") {
		out = append(out, n)
	}
	for i, k := range n.kids {
		name := path
		if n.kind == objectNode {
			name = n.keys[i]
		}
		out = append(out, objectsOf(k, name)...)
	}
	return out
}

// A field of a later version in any object, at any depth, is reported once and
// is still there after writing.
func TestUnknownFieldsInEveryObject(t *testing.T) {
	text := write(t, &Document{Project: sample()})
	root, err := parseTree([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	n := len(objectsOf(root, ""))
	if n < 40 {
		t.Fatalf("only %d objects in the sample", n)
	}
	for i := range n {
		root, err := parseTree([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		o := objectsOf(root, "")[i]
		o.keys = append(o.keys, "of_later")
		o.kids = append(o.kids, &node{kind: objectNode, keys: []string{"n"}, kids: []*node{{kind: numberNode, text: "1.250"}}})
		var e encoder
		e.tree(root, 0)
		d, ps := read(t, e.buf.String())
		if len(ps) != 1 || !strings.HasSuffix(ps[0].Field, "of_later") {
			t.Errorf("object %d: %v", i, ps)
		}
		out := write(t, d)
		if strings.Count(out, `"of_later": {`) != 1 || strings.Count(out, `"n": 1.250`) != 1 {
			t.Errorf("object %d: the field is not in the file once", i)
		}
		if _, again := read(t, out); len(again) != 1 || again[0] != ps[0] {
			t.Errorf("object %d: after writing it stands at %v, before at %v", i, again, ps)
		}
	}
}

// randomJSON makes any JSON value.
func randomJSON(r *rand.Rand, depth int) any {
	switch n := r.IntN(8); {
	case n == 0:
		return nil
	case n == 1:
		return r.IntN(2) == 0
	case n <= 3 || depth > 5:
		return r.NormFloat64() * math.Pow10(r.IntN(30)-15)
	case n == 4:
		return string([]rune{rune(r.IntN(0x250)), '"', '\\', '\n', rune(0x1F600 + r.IntN(50))})
	case n <= 6:
		list := make([]any, r.IntN(5))
		for i := range list {
			list[i] = randomJSON(r, depth+1)
		}
		return list
	}
	m := map[string]any{}
	for range r.IntN(5) {
		m[fmt.Sprintf("k%d \"<é", r.IntN(100))] = randomJSON(r, depth+1)
	}
	return m
}

// Whatever tree a file holds is written back with the same meaning.
func TestAnyTreeIsKept(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range 500 {
		want := randomJSON(r, 0)
		data, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		root, err := parseTree(data)
		if err != nil {
			t.Fatal(err)
		}
		var e encoder
		e.tree(root, 0)
		var got any
		if err := json.Unmarshal(e.buf.Bytes(), &got); err != nil {
			t.Fatalf("%v in %s", err, e.buf.Bytes())
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("got %v, want %v", got, want)
		}
		if again, err := parseTree(e.buf.Bytes()); err != nil || !bytes.Equal(e.buf.Bytes(), treeText(again)) {
			t.Fatalf("the second writing differs: %v", err)
		}
	}
}

func treeText(n *node) []byte {
	var e encoder
	e.tree(n, 0)
	return e.buf.Bytes()
}

// The place of every value is where its text begins.
func TestPlacesInTheText(t *testing.T) {
	const text = "{\n  \"a\": [10, -2.5e3, \"x\\u00e4\", true, null],\n  \"b\" : {\"c\":false}\n}"
	root, err := parseTree([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	list := root.get("a")
	for i, want := range []string{"10", "-2.5e3", `"x\u00e4"`, "true", "null"} {
		if off := list.kids[i].off; !strings.HasPrefix(text[off:], want) {
			t.Errorf("value %d is said to begin at %q", i, text[off:])
		}
	}
	if off := root.get("b").get("c").off; !strings.HasPrefix(text[off:], "false") {
		t.Errorf("c is said to begin at %q", text[off:])
	}
	for _, c := range []struct{ off, line, column int }{{0, 1, 1}, {2, 2, 1}, {4, 2, 3}, {len(text), 4, 2}, {-5, 1, 1}, {1000, 4, 2}} {
		if f := faultAt([]byte(text), c.off, ""); f.Line != c.line || f.Column != c.column {
			t.Errorf("offset %d is line %d, column %d; want %d, %d", c.off, f.Line, f.Column, c.line, c.column)
		}
	}
}

func TestPlaceInWords(t *testing.T) {
	root := &place{}
	soils := &place{&place{root, "site", 0}, "soils", 0}
	if got := (&place{&place{soils, "", 2}, "phi", 0}).String(); got != "site.soils[2].phi" {
		t.Errorf("place = %q", got)
	}
	if got := root.String(); got != "" {
		t.Errorf("the root is called %q", got)
	}
}
