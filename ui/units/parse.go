package units

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/quantity"
)

// ParseError says why a typed value cannot be read and shows how it may look.
type ParseError struct {
	Text    string // what was typed
	Why     string
	Example string
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("%q: %s. Write for example %s", e.Text, e.Why, e.Example)
}

// Parse reads a value of a kind as a person types it and returns it in the SI
// unit of the kind. Units of both systems are taken whichever is active; a
// bare number is in Unit(kind, sys). Slopes are read horizontal to vertical.
// The error is a *ParseError. What is in range is for others to say.
func Parse(kind quantity.Kind, text string, sys System) (float64, error) {
	p := &parser{scanner: newScanner(text), kind: kind, sys: sys}
	v := p.value()
	if p.why == "" && !p.done() {
		p.why = fmt.Sprintf("cannot read %q", p.rest())
	}
	if p.why == "" && (math.IsNaN(v) || math.IsInf(v, 0)) {
		p.why = "is too large"
	}
	if p.why != "" {
		return 0, &ParseError{Text: text, Why: p.why, Example: examples[kind]}
	}
	return v, nil
}

// parser stops at the first fault and keeps why.
type parser struct {
	*scanner
	kind quantity.Kind
	sys  System
	why  string
}

func (p *parser) fail(format string, args ...any) float64 {
	if p.why == "" {
		p.why = fmt.Sprintf(format, args...)
	}
	return 0
}

// num reads a number or fails.
func (p *parser) num() num {
	n, why := p.number()
	if why != "" {
		if r := p.rest(); r != "" && strings.HasPrefix(why, "a number is missing") {
			why = fmt.Sprintf("expected a number where %q stands", r)
		}
		p.fail("%s", why)
	}
	return n
}

func (p *parser) value() float64 {
	if p.done() {
		return p.fail("is empty")
	}
	switch p.kind {
	case quantity.Length, quantity.Thickness:
		return p.length()
	case quantity.Slope:
		return p.slope()
	case quantity.Gradient:
		return p.gradient()
	case quantity.Angle:
		return p.angle()
	}
	return p.plain()
}

// plain reads a number with one unit.
func (p *parser) plain() float64 {
	sign := p.sign()
	n := p.num()
	if n.dashed {
		return p.fail("has a sign inside")
	}
	name := p.unit()
	if name == "" {
		return sign*n.val*of(p.kind, p.sys).size + zeroOf(p.kind, p.sys)
	}
	if p.kind == quantity.Temperature && strings.HasSuffix(name, "f") {
		return sign*n.val*p.size(name) + zeroF
	}
	return sign * n.val * p.size(name)
}

// size is the SI value of a named unit of the kind.
func (p *parser) size(name string) float64 {
	if s, ok := names[p.kind][name]; ok {
		return s
	}
	if other, ok := otherKind(name); ok {
		return p.fail("%s is a unit of %s, not of %s", name, other, kindNames[p.kind])
	}
	return p.fail("the unit %q is not known here", name)
}

// angle reads degrees, degrees and minutes and seconds, or a percentage of
// rise, which is not an angle but its tangent.
func (p *parser) angle() float64 {
	sign := p.sign()
	n := p.num()
	name := p.unit()
	switch {
	case name == "":
		return sign * n.val * math.Pi / 180
	case name == "%":
		return sign * math.Atan(n.val/100)
	case name == "°" && !p.done():
		return sign * p.sexagesimal(n.val)
	}
	return sign * n.val * p.size(name)
}

// sexagesimal reads the minutes and seconds behind degrees.
func (p *parser) sexagesimal(deg float64) float64 {
	part, whole := 1.0, deg == math.Trunc(deg)
	for _, mark := range []string{"'", `"`} {
		if p.done() {
			break
		}
		part /= 60
		n := p.num()
		if u := p.unit(); u != mark {
			return p.fail("the minutes of an angle end in ', its seconds in \"")
		}
		if n.val >= 60 || !whole {
			return p.fail("minutes and seconds must be below 60 and follow whole degrees")
		}
		deg += n.val * part
	}
	return deg * math.Pi / 180
}

// slope reads a batter as run per rise: 1.5:1, 1.5H:1V, 1V:1.5H, 1 in 2, 34°,
// 50 %, or the bare run.
func (p *parser) slope() float64 {
	a := p.num()
	au := p.unit()
	switch au {
	case "°", "deg", "degrees", "degree":
		return p.fromDegrees(a.val)
	case "%":
		if a.val == 0 {
			return p.fail("a level line has no slope to write as H:V")
		}
		return 100 / a.val
	case "in":
		return p.ratio(p.num().val, a.val)
	}
	if _, ok := p.take(":"); !ok {
		if au != "" {
			return p.fail("the unit %q is not known here", au)
		}
		return a.val
	}
	b := p.num()
	bu := p.unit()
	switch {
	case au == "" && bu == "", au == "h" && bu == "v":
		return p.ratio(a.val, b.val)
	case au == "v" && bu == "h":
		return p.ratio(b.val, a.val)
	}
	return p.fail("name both sides, one with H and one with V, or neither")
}

func (p *parser) ratio(run, rise float64) float64 {
	if rise == 0 {
		return p.fail("a level line has no slope to write as H:V")
	}
	return run / rise
}

// fromDegrees turns an angle from the horizontal into run per rise.
func (p *parser) fromDegrees(deg float64) float64 {
	if deg <= 0 || deg > 90 {
		return p.fail("the angle of a slope lies above 0° and not over 90°")
	}
	if deg == 90 {
		return 0
	}
	return 1 / math.Tan(deg*math.Pi/180)
}

// gradient reads rise per run: 2 %, 1 in 50, 1.1°; a bare number is a
// percentage. A colon is refused, as 1:50 and 50:1 are read both ways.
func (p *parser) gradient() float64 {
	sign := p.sign()
	a := p.num()
	name := p.unit()
	switch name {
	case "", "%":
		if _, colon := p.take(":"); colon {
			return p.fail("a gradient with a colon can be read both ways")
		}
		return sign * a.val / 100
	case "in":
		b := p.num()
		if b.val == 0 {
			return p.fail("a gradient of 1 in 0 is a wall")
		}
		return sign * a.val / b.val
	case "°", "deg", "degrees", "degree":
		if a.val >= 90 {
			return p.fail("a gradient lies below 90°")
		}
		return sign * math.Tan(a.val*math.Pi/180)
	}
	return p.fail("the unit %q is not known here", name)
}
