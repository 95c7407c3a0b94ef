package tables

import (
	"fmt"
	"strconv"
	"strings"
)

// Post is one corner post: a pressed section, and a second section welded into
// it where there is one.
type Post struct {
	ID, Name string
	Parts    []Outline
	Src      Source
}

// Outline is the midline of a pressed or rolled part of thickness T. The
// points are (x, y) in m: x from the outer face of the corner casting on the
// side of the box into the box, y from its outer face on the end of the box
// along the box.
type Outline struct {
	T    float64 // m
	Line [][2]float64
}

// noOutline stands in the table where a post has no second part.
const noOutline = "none"

func parsePost(r *row) Post {
	p := Post{ID: r.text("id"), Name: r.text("name"), Src: r.source()}
	for _, c := range []struct {
		t, line string
		must    bool
	}{{"t_mm", "outline_mm", true}, {"inner_t_mm", "inner_mm", false}} {
		if !c.must && r.raw(c.line) == noOutline {
			r.num(c.t, mm, 0, 0)
			continue
		}
		p.Parts = append(p.Parts, Outline{T: r.num(c.t, mm, 1, 20), Line: r.points(c.line)})
	}
	return p
}

// points reads a midline: pairs of mm with a semicolon between them.
func (r *row) points(col string) [][2]float64 {
	var out [][2]float64
	text := r.text(col)
	for pair := range strings.SplitSeq(text, ";") {
		f := strings.Fields(pair)
		if len(f) != 2 {
			r.fail(col, text, fmt.Sprintf("has %q where a pair of numbers should be", strings.TrimSpace(pair)))
			return nil
		}
		var at [2]float64
		for k := range f {
			v, err := strconv.ParseFloat(f[k], 64)
			if err != nil || !(v >= 0 && v <= 300) {
				r.fail(col, text, fmt.Sprintf("has %q, which is no number from 0 to 300", f[k]))
				return nil
			}
			at[k] = v * mm
		}
		if n := len(out); n > 0 && out[n-1] == at {
			r.fail(col, text, "has a point twice in a row")
			return nil
		}
		out = append(out, at)
	}
	if len(out) < 2 {
		r.fail(col, text, "has fewer than two points")
	}
	return out
}

// Post gives one corner post; false where there is none.
func (s *Set) Post(id string) (Post, bool) { return s.posts.get(id) }

// PostIDs gives the ids of the corner posts.
func (s *Set) PostIDs() []string { return s.posts.ids }
