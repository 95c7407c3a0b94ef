package model

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Validate checks every field by itself and then how the parts fit together.
// It never changes p. Hard problems are those that Problem names; a project
// without any problem can be computed as far as the model can tell: whether a
// row of a table exists and whether a formula holds is said by those who use
// them.
func (p *Project) Validate() []Problem {
	c := checker{p: p}
	c.walk(reflect.ValueOf(p).Elem(), &projectPlan, &place{})
	c.site()
	c.box()
	c.fill()
	c.stages()
	return c.found
}

type checker struct {
	p     *Project
	found []Problem
}

// hard and soft add a problem of the field.
func (c *checker) hard(field, value, allowed, text string) {
	c.found = append(c.found, Problem{Field: field, Value: value, Allowed: allowed, Text: text, Hard: true})
}

func (c *checker) soft(field, value, allowed, text string) {
	c.found = append(c.found, Problem{Field: field, Value: value, Allowed: allowed, Text: text})
}

// walk checks each value against what the plan says of it.
func (c *checker) walk(v reflect.Value, s *step, at *place) {
	if s.rngZ != nil {
		c.float(v.Index(0).Float(), s.rng, at, " (x)")
		c.float(v.Index(1).Float(), s.rngZ, at, " (level)")
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range s.subs {
			sub := &s.subs[i]
			c.walk(v.Field(sub.index), sub, &place{at, sub.name, 0})
		}
	case reflect.Slice:
		c.size(v.Len(), at)
		for i := range v.Len() {
			c.walk(v.Index(i), &s.subs[0], &place{at, "", i})
		}
	case reflect.Map:
		c.table(v, s, at)
	case reflect.Pointer:
		if !v.IsNil() {
			c.walk(v.Elem(), s, at)
		}
	case reflect.String:
		c.text(v.String(), s, at)
	case reflect.Float64:
		c.float(v.Float(), s.rng, at, "")
	case reflect.Int:
		c.float(float64(v.Int()), s.rng, at, "")
	}
}

func (c *checker) table(v reflect.Value, s *step, at *place) {
	c.size(v.Len(), at)
	keys := make([]string, 0, v.Len())
	for _, k := range v.MapKeys() {
		keys = append(keys, k.String())
	}
	slices.Sort(keys)
	for _, k := range keys {
		here := &place{at, k, 0}
		c.text(k, &step{}, here)
		c.walk(v.MapIndex(reflect.ValueOf(k)), &s.subs[0], here)
	}
}

func (c *checker) size(n int, at *place) {
	if n > maxItems {
		c.hard(at.String(), fmt.Sprintf("%d entries", n), fmt.Sprintf("at most %d entries", maxItems), "is too long")
	}
}

// float checks one number. 0 where the range starts above it means that the
// value has not been given yet; that is no hard problem.
func (c *checker) float(v float64, r *Range, at *place, which string) {
	if r.contains(v) {
		return
	}
	p := r.problem(at.String(), v, "is out of range"+which)
	p.Hard = true
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		p.Text = "is not a number" + which
	case v == 0 && r.Min > 0:
		p.Text, p.Hard = "is not given yet", false
	}
	c.found = append(c.found, p)
}

func (c *checker) text(v string, s *step, at *place) {
	if s.words != nil {
		c.word(v, s.words, at)
		return
	}
	most := maxText
	if s.long {
		most = maxNotes
	}
	bad := func(r rune) bool { return unicode.IsControl(r) && !(s.long && (r == '\n' || r == '\t')) }
	switch {
	case !utf8.ValidString(v) || strings.ContainsFunc(v, bad):
		c.hard(at.String(), fmt.Sprintf("%q", shorten(v)), "printable characters", "holds characters that cannot be shown")
	case utf8.RuneCountInString(v) > most:
		c.hard(at.String(), fmt.Sprintf("%q", shorten(v)), fmt.Sprintf("at most %d characters", most), "is too long")
	}
}

func (c *checker) word(v string, allowed []string, at *place) {
	if slices.Contains(allowed, v) {
		return
	}
	list := strings.TrimPrefix(strings.Join(allowed, ", "), ", ")
	if v == "" {
		c.soft(at.String(), `""`, list, "is not chosen yet")
		return
	}
	c.hard(at.String(), fmt.Sprintf("%q", shorten(v)), list, "is not one of the words allowed here")
}
