package assess

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Bounds of what is tried inside the box.
const (
	mostWales   = 3
	mostPurlins = 4
)

// ribSpacings are those tried, m: from the fewest ribs to the most.
var ribSpacings = []measure{{1.8, 72 * inch}, {1.2, 48 * inch}, {0.9, 36 * inch}, {0.6, 24 * inch}}

// longWall tells whether a part belongs to the long walls, and endWall whether
// it does to the ends of the box, by the wall that the part is named after.
func longWall(p *model.Project, part string) bool {
	broadside := p.Box.Orientation == model.Broadside
	if strings.HasPrefix(part, "back wall") {
		return broadside
	}
	return !broadside && ofSides(part)
}

func endWall(p *model.Project, part string) bool {
	broadside := p.Box.Orientation == model.Broadside
	if strings.HasPrefix(part, "back wall") {
		return !broadside
	}
	return broadside && ofSides(part)
}

func ofSides(part string) bool {
	return strings.HasPrefix(part, "left side wall") || strings.HasPrefix(part, "right side wall")
}

// ofSheet tells a sheet from the bars along it.
func ofSheet(part string) bool { return !strings.Contains(part, ",") }

// member is a bar whose row is to be chosen.
type member struct {
	at   *int // in adviser.bars
	mine func(slot) bool
}

// size chooses the weakest bars that hold: all together, each by its own
// checks, by halving. make builds the change from what the members point at. A
// bar that fails beside the others is made stronger step by step.
func (a *adviser) size(p *model.Project, make func() change, members []member) (outcome, error) {
	lo, hi := sliceOf(members), sliceOf(members)
	for i := range hi {
		hi[i] = len(a.bars) - 1
	}
	for {
		open := false
		for i, m := range members {
			open = open || lo[i] < hi[i]
			*m.at = (lo[i] + hi[i]) / 2
		}
		if !open {
			break
		}
		o, err := a.on(p, make())
		if err != nil {
			return o, err
		}
		for i, m := range members {
			switch {
			case lo[i] >= hi[i]:
			case o.tr.why == "" && len(o.tr.failing(m.mine)) == 0:
				hi[i] = *m.at
			default:
				lo[i] = *m.at + 1
			}
		}
	}
	return a.firmer(p, make, members)
}

// sliceOf are the rows that the members point at.
func sliceOf(members []member) []int {
	out := make([]int, len(members))
	for i, m := range members {
		out[i] = *m.at
	}
	return out
}

// firmer tries the bars chosen, and stronger ones where they do not hold
// beside each other.
func (a *adviser) firmer(p *model.Project, make func() change, members []member) (outcome, error) {
	for {
		o, err := a.on(p, make())
		if err != nil {
			return o, err
		}
		grown := false
		for _, m := range members {
			if len(o.tr.failing(m.mine)) > 0 && *m.at < len(a.bars)-1 {
				*m.at++
				grown = true
			}
		}
		if !grown {
			return o, nil
		}
	}
}

// row is the place of a bar in those that may be chosen, 0 where it is none of
// them: a weaker one than is built in is never offered.
func (a *adviser) row(id string) int {
	for i := range a.bars {
		if a.bars[i].ID == id {
			return i
		}
	}
	return 0
}

// frameKit is portal ribs with wales on the long walls and purlins.
type frameKit struct {
	a                   *adviser
	spacing             float64
	wales               []model.Wale // as built in; those of the heights otherwise
	heights             []float64
	purlins             int
	joints              string
	struts              int     // cross struts, 0 or 1 where none are built in
	height              float64 // m, of the long walls between the rails
	frame, wale, purlin int
	strut               int
	given               model.Ribs
}

// byFrame stands portal ribs in the box at the spacing that takes least steel,
// with as many wales and purlins as it takes.
func byFrame(a *adviser, s *state, _ []slot) ([]outcome, error) {
	return a.frames(s, model.RigidJoints)
}

// byPinned stands ribs with pinned joints, which need no welding, with a cross
// strut from post to post where the posts need it.
func byPinned(a *adviser, s *state, _ []slot) ([]outcome, error) {
	if s.p.Strengthening.Ribs.Spacing > 0 {
		return nil, nil // ribs stand there already
	}
	return a.frames(s, model.PinnedJoints)
}

// frames are ribs of one kind of joint.
func (a *adviser) frames(s *state, joints string) ([]outcome, error) {
	given := s.p.Strengthening.Ribs
	spacings := a.rule.all(ribSpacings)
	if now := given.Spacing; now > 0 {
		closer := spacings
		spacings = []float64{now}
		for _, sp := range closer {
			if sp < now-1e-9 {
				spacings = append(spacings, sp)
			}
		}
	}
	j, err := newJob(s.p, a.t)
	if err != nil {
		return nil, err
	}
	// how many wales and purlins and where does not hang on the ribs
	plan := frameKit{a: a, spacing: spacings[len(spacings)/2], wales: s.p.Strengthening.Wales, purlins: given.Purlins, given: given,
		joints: joints, struts: len(given.Struts), height: j.side.height()}
	if err := plan.lay(s); err != nil {
		return nil, err
	}
	tried, err := abreast(len(spacings), func(i int) (outcome, error) {
		k := plan
		k.spacing = spacings[i]
		return k.choose(s)
	})
	if err != nil {
		return nil, err
	}
	return best(a.lightest(tried)), nil
}

// walls are the sheets of the long walls, wales the bars that part them.
func (k *frameKit) walls(s *state) (walls, wales func(slot) bool) {
	return func(c slot) bool { return longWall(s.p, c.part) && ofSheet(c.part) },
		func(c slot) bool { return longWall(s.p, c.part) && strings.Contains(c.part, ", wale") }
}

// lay finds the numbers of wales and purlins and the heights, with the
// strongest bars.
func (k *frameKit) lay(s *state) error {
	top := len(k.a.bars) - 1
	k.frame, k.wale, k.purlin, k.strut = top, top, top, top
	walls, wales := k.walls(s)
	roof := func(c slot) bool { return c.part == "roof" }
	n := len(k.wales)
	for {
		o, err := k.a.on(s.p, k.change())
		if err != nil {
			return err
		}
		more := false
		if len(o.tr.failing(walls)) > 0 && n < mostWales {
			n++
			k.wales, k.heights, more = nil, evenly(k.a.rule, k.height, n, 1), true
		}
		if len(o.tr.failing(roof)) > 0 && k.purlins < mostPurlins {
			k.purlins++
			more = true
		}
		if len(o.tr.failing(ofRibs)) > 0 && k.struts == 0 && k.joints == model.PinnedJoints {
			k.struts, more = 1, true
		}
		if !more {
			break
		}
	}
	if len(k.heights) == 0 {
		return nil
	}
	return k.settle(s, n, func(c slot) bool { return walls(c) || wales(c) })
}

// choose finds the bars at a spacing.
func (k *frameKit) choose(s *state) (outcome, error) {
	_, wales := k.walls(s)
	k.frame = max(k.a.row(k.given.Post), k.a.row(k.given.RoofBeam), k.a.row(k.given.FloorTie))
	k.wale, k.purlin, k.strut = 0, k.a.row(k.given.Purlin), 0
	for _, st := range k.given.Struts {
		k.strut = max(k.strut, k.a.row(st.Section))
	}
	for _, w := range k.wales {
		k.wale = max(k.wale, k.a.row(w.Section))
	}
	return k.a.size(s.p, k.change, []member{
		{&k.frame, func(c slot) bool { return ofRibs(c) || c.id == "inward-bow" }},
		{&k.strut, func(c slot) bool { return c.part == strutPart }},
		{&k.wale, wales},
		{&k.purlin, func(c slot) bool { return strings.HasPrefix(c.part, "roof, purlin") }},
	})
}

// ofRibs are the checks of the ribs themselves.
func ofRibs(c slot) bool { return c.part == "ribs" }

// settle moves the wales down to where what presses more below is shared best.
func (k *frameKit) settle(s *state, n int, counts func(slot) bool) error {
	least, kept := math.Inf(1), k.heights
	for _, lower := range []float64{1, 0.9, 0.8} {
		k.heights = evenly(k.a.rule, k.height, n, lower)
		o, err := k.a.on(s.p, k.change())
		if err != nil {
			return err
		}
		w, ok := o.tr.worst(func(c rated) bool { return counts(c.slot) })
		if o.tr.why == "" && ok && w.ratio < least {
			least, kept = w.ratio, k.heights
		}
	}
	k.heights = kept
	return nil
}

// evenly are n heights that part a wall evenly, brought lower by a factor.
func evenly(r ruler, height float64, n int, lower float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		h := height * float64(i+1) / float64(n+1) * lower
		out[i] = r.nearest(h, smallStep)
	}
	return out
}

// change is the kit in words.
func (k *frameKit) change() change {
	bars := k.a.bars
	frame, wale, purlin := bars[k.frame], bars[k.wale], bars[k.purlin]
	walls := slices.Clone(k.wales)
	for i := range walls {
		walls[i].Section = wale.ID
	}
	for _, h := range k.heights {
		walls = append(walls, model.Wale{Height: h, Section: wale.ID})
	}
	n, spacing, joints := k.purlins, k.spacing, k.joints
	struts := slices.Clone(k.given.Struts)
	if k.struts > 0 && len(struts) == 0 {
		struts = []model.Strut{{Height: evenly(k.a.rule, k.height, 1, 1)[0]}}
	}
	for i := range struts {
		struts[i].Section = bars[k.strut].ID
	}
	c := change{id: fmt.Sprintf("frame-%g", spacing), q: []quantity.Q{quantity.Of("", spacing, quantity.Length)}}
	c.text = fmt.Sprintf("Stand portal ribs of %s, posts, roof beam and floor tie, in the box at {0}", frame.Name)
	if joints == model.PinnedJoints {
		c.id = fmt.Sprintf("pinned-%g", spacing)
		c.text = fmt.Sprintf("Stand ribs of %s with pinned joints, posts, roof beam and floor tie, in the box at {0}", frame.Name)
	}
	for _, st := range struts {
		c.text += fmt.Sprintf(", a cross strut of %s from post to post at %s above the bottom rail", bars[k.strut].Name, c.list([]float64{st.Height}))
	}
	if len(walls) > 0 {
		c.text += fmt.Sprintf(", %s of %s on each long wall at %s above the bottom rail", counted(len(walls), "wale"), wale.Name, c.list(heightsOf(walls)))
	}
	if n > 0 {
		c.text += fmt.Sprintf(", and %s of %s under the roof", counted(n, "purlin"), purlin.Name)
	}
	c.text += "."
	c.apply = func(p *model.Project) {
		r := &p.Strengthening.Ribs
		r.Spacing, r.Post, r.RoofBeam, r.FloorTie = spacing, frame.ID, frame.ID, frame.ID
		r.Joints, r.Struts = joints, slices.Clone(struts)
		if r.Purlins = n; n > 0 {
			r.Purlin = purlin.ID
		}
		p.Strengthening.Wales = slices.Clone(walls)
	}
	return c
}

// heightsOf are the heights of wales.
func heightsOf(ws []model.Wale) []float64 {
	out := make([]float64, len(ws))
	for i, w := range ws {
		out[i] = w.Height
	}
	return out
}

// list adds lengths to the values of a change and names them one after the
// other.
func (c *change) list(lengths []float64) string {
	var b strings.Builder
	for i, v := range lengths {
		switch {
		case i > 0 && i == len(lengths)-1:
			b.WriteString(" and ")
		case i > 0:
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "{%d}", len(c.q))
		c.q = append(c.q, quantity.Of("", v, quantity.Length))
	}
	return b.String()
}

// counted is a number of things in words.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
