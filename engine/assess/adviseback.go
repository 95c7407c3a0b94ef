package assess

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/model"
)

// endKit is bars across the inside of the blind end: wales between the corner
// posts, and such that double header and sill.
type endKit struct {
	a                  *adviser
	height             float64
	wales              []model.Wale // as built in, those at the edges left out
	heights            []float64
	top, bottom        bool
	wale, header, sill int
}

// lowers are the factors by which the wales of the blind end are tried lower
// or higher than evenly: what is best for the sheet is not for the posts.
var lowers = []float64{1, 0.9, 0.75, 0.6, 1.15}

// byBack puts as many wales across the back wall as its sheet and the corner
// posts take, at the heights that serve both, and doubles header and sill where
// they fail.
func byBack(a *adviser, s *state, _ []slot) ([]outcome, error) {
	j, err := newJob(s.p, a.t)
	if err != nil {
		return nil, err
	}
	last := len(a.bars) - 1
	k := &endKit{a: a, height: j.end.height(), wales: j.end.between(), top: j.end.atTop() != nil, bottom: j.end.atBottom() != nil,
		wale: last, header: last, sill: last}
	if err := k.lay(s); err != nil {
		return nil, err
	}
	k.wale, k.header, k.sill = 0, 0, 0
	for _, w := range k.wales {
		k.wale = max(k.wale, a.row(w.Section))
	}
	if w := j.end.atTop(); w != nil {
		k.header = a.row(w.Section)
	}
	if w := j.end.atBottom(); w != nil {
		k.sill = a.row(w.Section)
	}
	bar := func(what string) func(slot) bool {
		return func(c slot) bool { return endWall(s.p, c.part) && strings.Contains(c.part, what) }
	}
	o, err := a.size(s.p, k.change, []member{{&k.wale, bar(", wale")}, {&k.header, bar(", header")}, {&k.sill, bar(", sill")}})
	return []outcome{o}, err
}

// ofEnd is for the blind end: its sheet and bars, and the posts they push on.
func ofEnd(_ *adviser, s *state, c slot) bool { return endWall(s.p, c.part) || c.part == blindPost }

// lay finds, with the strongest bars, the fewest wales with which nothing of
// the end fails, and their heights; where there are none, those with which least
// does.
func (k *endKit) lay(s *state) error {
	bars := func(o outcome) {
		for _, c := range o.tr.failing(func(c slot) bool { return endWall(s.p, c.part) }) {
			k.top = k.top || strings.HasSuffix(c.part, ", header")
			k.bottom = k.bottom || strings.HasSuffix(c.part, ", sill")
		}
	}
	if now, err := k.a.on(s.p, k.change()); err != nil {
		return err
	} else if bars(now); k.clear(s, &now) {
		return nil
	}
	kept, least := *k, math.Inf(1)
	for n := len(k.wales); n <= mostWales; n++ {
		for _, lower := range lowers {
			k.wales, k.heights = nil, evenly(k.a.rule, k.height, n, lower)
			o, err := k.a.on(s.p, k.change())
			if err != nil {
				return err
			}
			bars(o)
			if left := k.left(s, &o); left < least-1e-9 {
				kept, least = *k, left
			}
			if n == 0 {
				break
			}
		}
		if least == 0 {
			break
		}
	}
	kept.top, kept.bottom = k.top, k.bottom
	*k = kept
	return nil
}

// left is how far an outcome leaves the blind end beyond its limits; header
// and sill are doubled anyway once they fail.
func (k *endKit) left(s *state, o *outcome) float64 {
	if o.tr.why != "" {
		return math.Inf(1)
	}
	sum := 0.0
	for _, c := range o.tr.failing(func(c slot) bool { return ofEnd(k.a, s, c) }) {
		if !strings.HasSuffix(c.part, ", header") && !strings.HasSuffix(c.part, ", sill") {
			sum += far(o.tr.ratioAt(c))
		}
	}
	return sum
}

// clear tells whether nothing of the blind end fails.
func (k *endKit) clear(s *state, o *outcome) bool {
	return o.tr.why == "" && len(o.tr.failing(func(c slot) bool { return ofEnd(k.a, s, c) })) == 0
}

// change is the kit in words.
func (k *endKit) change() change {
	bars := k.a.bars
	wale, header, sill := bars[k.wale], bars[k.header], bars[k.sill]
	all := slices.Clone(k.wales)
	for i := range all {
		all[i].Section = wale.ID
	}
	for _, h := range k.heights {
		all = append(all, model.Wale{Height: h, Section: wale.ID})
	}
	c := change{id: "back"}
	var said []string
	if len(all) > 0 {
		said = append(said, fmt.Sprintf("put %s of %s across the blind end at %s above its sill", counted(len(all), "wale"), wale.Name, c.list(heightsOf(all))))
	}
	if k.top {
		said = append(said, "double the header with "+header.Name)
		all = append(all, model.Wale{Height: k.height, Section: header.ID})
	}
	if k.bottom {
		said = append(said, "double the sill with "+sill.Name)
		all = append(all, model.Wale{Height: 0, Section: sill.ID})
	}
	c.text = sentence(said)
	c.apply = func(p *model.Project) { p.Strengthening.BackWales = slices.Clone(all) }
	return c
}

// sentence joins orders to one sentence.
func sentence(orders []string) string {
	if len(orders) == 0 {
		return ""
	}
	s := orders[0]
	for i, o := range orders[1:] {
		if i == len(orders)-2 {
			s += " and " + o
		} else {
			s += ", " + o
		}
	}
	return strings.ToUpper(s[:1]) + s[1:] + "."
}
