package units

import "math"

// part is one number of a length with its unit as typed.
type part struct {
	n    num
	unit string
}

// length reads metres, feet and inches and their parts: 1.93, 193cm, 6'4",
// 6ft 4 1/2in, 6'-4", 6-4, 76".
func (p *parser) length() float64 {
	sign := p.sign()
	first := part{p.num(), p.unit()}
	parts := []part{first}
	dash := false
	for p.why == "" && !p.done() && len(parts) < 4 {
		_, d := p.take("-")
		dash = dash || d
		parts = append(parts, part{p.num(), p.unit()})
	}
	if p.why != "" {
		return 0
	}
	if len(parts) == 1 {
		return sign * p.single(first)
	}
	if first.unit == "" {
		if !dash || len(parts) > 2 || parts[1].unit != "" {
			return p.fail("the first number has no unit")
		}
		parts[0].unit = "'" // 6-4 is six feet four
	}
	return sign * p.sum(parts)
}

func (p *parser) single(a part) float64 {
	switch {
	case a.unit == "" && a.n.dashed:
		return p.fail("may be a mixed fraction or feet and inches: write the unit")
	case a.unit == "":
		return a.n.val * of(p.kind, p.sys).size
	case a.unit == "ga" || a.unit == "gauge":
		return p.fail("a gauge names no single thickness: read it as mm or in")
	}
	return a.n.val * p.size(a.unit)
}

// isFeet and isInches know the units that go together.
func isFeet(u string) bool   { return lengths[u] == foot }
func isInches(u string) bool { return lengths[u] == inch }

// sum adds the parts of a length that was typed in several units. They must go
// from large to small, whole but for the last, and none may reach the next one
// above.
func (p *parser) sum(parts []part) float64 {
	total, above := 0.0, math.Inf(1)
	for i, a := range parts {
		if a.unit == "" && i > 0 && isFeet(parts[i-1].unit) {
			a.unit = `"` // 6' 4
		}
		if a.unit == "" {
			return p.fail("the last number has no unit")
		}
		size := p.size(a.unit)
		if p.why != "" {
			return 0
		}
		english := isFeet(a.unit) || isInches(a.unit)
		before := i > 0 && (isFeet(parts[0].unit) || isInches(parts[0].unit))
		switch {
		case i > 0 && english != before:
			return p.fail("mixes metres with feet")
		case size >= above:
			return p.fail("the larger unit comes first, and each only once")
		case i > 0 && a.n.val*size >= above*(1-1e-12): // rounding of the units' sizes
			return p.fail("the smaller part reaches a whole of the larger unit")
		case i < len(parts)-1 && !a.n.whole:
			return p.fail("only the last part may have a fraction")
		}
		total += a.n.val * size
		above = size
	}
	return total
}
