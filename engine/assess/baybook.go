package assess

import (
	"cmp"
	"slices"

	"hillset/engine/check"
)

// bayBook keeps, for each part, the worst candidate at each station over all
// stages and over all checks of the part.
type bayBook map[string]*bayRow

// bayRow is one part: its stations in the order they came, and what is said of
// the part as a whole.
type bayRow struct {
	at    []seen
	next  int // where the station is likely to be
	whole []seen
}

// seen is what a bay needs of a candidate.
type seen struct {
	id, stage string
	station   float64
	ratio     float64 // NaN where it could not be checked
}

// see takes a candidate in. A nil book takes none. A rule that is met has no
// margin to be shown.
func (b bayBook) see(c *candidate) {
	if b == nil || ruleMet(c.id, c.ratio) {
		return
	}
	row := b[c.part]
	if row == nil {
		row = &bayRow{}
		b[c.part] = row
	}
	s := seen{id: c.id, stage: c.stage, station: c.station, ratio: c.ratio}
	if !c.hasStation {
		row.whole = merge(row.whole, s, slices.IndexFunc(row.whole, func(o seen) bool { return o.id == s.id }))
		return
	}
	row.at = merge(row.at, s, row.find(c.station))
}

// find is the index of a station, -1 where it is new. Candidates of a stage
// come in the order of the stations.
func (r *bayRow) find(x float64) int {
	for range 2 {
		if r.next < len(r.at) && r.at[r.next].station == x {
			return r.next
		}
		r.next++
	}
	r.next = slices.IndexFunc(r.at, func(o seen) bool { return o.station == x })
	if r.next < 0 {
		r.next = len(r.at)
		return -1
	}
	return r.next
}

// merge keeps the worse of two, as worstOf does; i below 0 adds.
func merge(list []seen, s seen, i int) []seen {
	if i < 0 {
		return append(list, s)
	}
	if s.worse(&list[i]) {
		list[i] = s
	}
	return list
}

func (s *seen) worse(o *seen) bool { return worse(s.ratio, o.ratio) }

// rows are the stations in order, each with the worst of what is said there and
// of the part as a whole.
func (r *bayRow) rows() []seen {
	out := slices.Clone(r.at)
	slices.SortFunc(out, func(a, b seen) int { return cmp.Compare(a.station, b.station) })
	for _, w := range r.whole {
		for i := range out {
			if w.worse(&out[i]) {
				w.station = out[i].station
				out[i] = w
			}
		}
	}
	return out
}

// worstSeen is the worst of some; false for none.
func worstSeen(list []seen) (seen, bool) {
	if len(list) == 0 {
		return seen{}, false
	}
	out := list[0]
	for _, s := range list[1:] {
		if s.worse(&out) {
			out = s
		}
	}
	return out, true
}

// titleOf is the title of a check by id and part; the id where there is none.
func titleOf(cs []check.Check, id, part string) string {
	for i := range cs {
		if cs[i].ID == id && cs[i].Part == part {
			return cs[i].Title
		}
	}
	return id
}
