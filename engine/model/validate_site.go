package model

import (
	"fmt"
	"slices"

	"hillset/engine/quantity"
	"hillset/geom"
)

// ids checks that the ids of a list are given and stand once.
func (c *checker) ids(field string, n int, id func(i int) string) {
	seen := make(map[string]int, n)
	for i := range n {
		at, s := fmt.Sprintf("%s[%d].id", field, i), id(i)
		if s == "" {
			c.hard(at, `""`, "a name of its own", "is missing")
			continue
		}
		if first, twice := seen[s]; twice {
			c.hard(at, fmt.Sprintf("%q", s), "a name of its own", fmt.Sprintf("stands already at %s[%d]", field, first))
			continue
		}
		seen[s] = i
	}
}

// soilRef checks that a soil is named and exists.
func (c *checker) soilRef(field, id string) {
	if id == "" {
		c.soft(field, `""`, "the id of a soil", "is not chosen yet")
		return
	}
	if !slices.ContainsFunc(c.p.Site.Soils, func(s Soil) bool { return s.ID == id }) {
		c.soft(field, fmt.Sprintf("%q", id), "the id of a soil", "names a soil that does not exist")
	}
}

// line checks the order of the points of a line; it is true when the line can
// be used. Too few points are left to the caller.
func (c *checker) line(field string, pts []Vec) bool {
	for i := 1; i < len(pts); i++ {
		if a, b := pts[i-1][0], pts[i][0]; b <= a {
			c.hard(fmt.Sprintf("%s[%d]", field, i), "x = "+metre(b), "more than "+metre(a),
				"does not lie beyond the point before it; distances must increase")
			return false
		}
	}
	return len(pts) >= 2 && geom.Polyline(pts).Validate() == nil
}

func (c *checker) site() {
	s := &c.p.Site
	ground := c.ground()
	c.ids("site.soils", len(s.Soils), func(i int) string { return s.Soils[i].ID })
	for i := range s.Soils {
		c.soil(fmt.Sprintf("site.soils[%d]", i), &s.Soils[i])
	}
	c.strata(ground)
	if len(s.Rock) > 0 {
		ok := c.line("site.rock", s.Rock)
		if len(s.Rock) == 1 {
			c.soft("site.rock", "1 point", "2 points or more, or none", "is not a line yet")
		}
		c.below("site.rock", s.Rock, ok, "the ground", s.Ground, ground)
	}
	c.ids("site.surcharges", len(s.Surcharges), func(i int) string { return s.Surcharges[i].ID })
	for i := range s.Surcharges {
		c.surcharge(fmt.Sprintf("site.surcharges[%d]", i), &s.Surcharges[i])
	}
}

// ground is true when there is a usable ground line.
func (c *checker) ground() bool {
	g := c.p.Site.Ground
	ok := c.line("site.ground", g)
	if len(g) < 2 {
		c.soft("site.ground", fmt.Sprintf("%d points", len(g)), "2 points or more", "has no line yet: draw it or type the shots")
		return false
	}
	if !ok {
		return false
	}
	l := g[len(g)-1][0] - g[0][0]
	r := metres(MinGroundLen, MaxGroundLen)
	if !r.contains(l) {
		p := r.problem("site.ground", l, "is too short or too long from end to end")
		p.Hard = l > MaxGroundLen
		c.found = append(c.found, p)
	}
	return true
}

func (c *checker) soil(field string, s *Soil) {
	if s.GammaSat < s.Gamma {
		r := kNm3(s.Gamma, 27)
		c.found = append(c.found, r.problem(field+".gamma_sat", s.GammaSat, "is less than the moist unit weight"))
	}
	var prev float64
	for _, d := range []struct {
		name string
		v    float64
	}{{"d15", s.D15}, {"d50", s.D50}, {"d85", s.D85}} {
		if d.v > 0 && d.v < prev {
			c.found = append(c.found, grains(prev, 2000).problem(field+"."+d.name, d.v, "is finer than a smaller share of the grading"))
		}
		prev = max(prev, d.v)
	}
	for i, name := range s.Set {
		if _, ok := ranges["site.soils[]."+name]; !ok && !slices.Contains([]string{"name", "uscs", "dig_class"}, name) {
			c.soft(fmt.Sprintf("%s.set_by_user[%d]", field, i), fmt.Sprintf("%q", name), "the name of a value of the soil", "names no value of a soil")
		}
	}
}

// strata checks the layers: the first starts at the ground, each other one
// lies below the one before it; they may touch but not cross.
func (c *checker) strata(ground bool) {
	s := &c.p.Site
	if len(s.Strata) == 0 {
		c.soft("site.strata", "none", "1 or more", "says nothing of the natural ground yet")
	}
	c.ids("site.strata", len(s.Strata), func(i int) string { return s.Strata[i].ID })
	above, aboveName, aboveOK := s.Ground, "the ground", ground
	for i := range s.Strata {
		st := &s.Strata[i]
		field := fmt.Sprintf("site.strata[%d]", i)
		c.soilRef(field+".soil", st.Soil)
		if i == 0 {
			if len(st.Top) > 0 {
				c.soft(field+".top", fmt.Sprintf("%d points", len(st.Top)), "none", "is not used: the first stratum starts at the ground line")
			}
			continue
		}
		ok := c.line(field+".top", st.Top)
		if len(st.Top) < 2 {
			c.soft(field+".top", fmt.Sprintf("%d points", len(st.Top)), "2 points or more", "is not a line yet")
		}
		c.below(field+".top", st.Top, ok, aboveName, above, aboveOK)
		if ok {
			above, aboveName, aboveOK = st.Top, "the stratum above it", true
		}
	}
}

// below checks that a line does not rise above another over their common
// range by more than geom.TolTouch.
func (c *checker) below(field string, line []Vec, ok bool, name string, other []Vec, otherOK bool) {
	if !ok || !otherOK {
		return
	}
	if x, crossed := geom.CrossAbove(other, line); crossed {
		c.soft(field, "crosses at x = "+quantity.Text(x, quantity.Length), "below "+name+" or touching it", "rises above "+name)
	}
}

func (c *checker) surcharge(field string, s *Surcharge) {
	if s.Kind == Vehicle {
		if s.Vehicle == "" {
			c.soft(field+".vehicle", `""`, "a machine of the table", "is not chosen yet")
		}
		if s.Heading == "" {
			c.soft(field+".heading", `""`, "along, up", "is not chosen yet")
		}
		return
	}
	if s.X2 <= s.X1 {
		c.soft(field+".x2", metre(s.X2), "more than x1 = "+metre(s.X1), "leaves the loaded area without a width")
	}
	if s.Y1 != nil && s.Y2 != nil && *s.Y2 <= *s.Y1 {
		c.soft(field+".y2", metre(*s.Y2), "more than y1 = "+metre(*s.Y1), "leaves the loaded area without a width")
	}
	if s.Q == 0 {
		c.soft(field+".q", quantity.Typed.Text(0, quantity.Pressure), ranges["site.surcharges[].q"].String(), "loads nothing yet")
	}
}
