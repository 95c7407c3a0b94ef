package geom

import "math/bits"

// orient is the sign of the area of the triangle abc: +1 when c lies left of
// the line from a to b, 0 when on it. It is exact for every coordinate that
// snap lets through.
func orient(a, b, c gpt) int { return crossSign(b.sub(a), c.sub(a)) }

// half31 bounds factors whose products, and the difference of two, fit int64.
const half31 = 1 << 31

func crossSign(d, e gpt) int {
	if small(d.x) && small(d.y) && small(e.x) && small(e.y) {
		v := d.x*e.y - d.y*e.x
		return int(v>>63) | int(uint64(-v)>>63)
	}
	return cmpProducts(d.x, e.y, d.y, e.x)
}

func small(v int64) bool { return v < half31 && v > -half31 }

// cmpProducts compares a*b with c*d through 128-bit products.
func cmpProducts(a, b, c, d int64) int {
	s1, h1, l1 := product(a, b)
	s2, h2, l2 := product(c, d)
	if s1 != s2 {
		if s1 > s2 {
			return 1
		}
		return -1
	}
	switch {
	case h1 == h2 && l1 == l2:
		return 0
	case h1 > h2 || h1 == h2 && l1 > l2:
		return s1
	}
	return -s1
}

// product is the sign and the 128-bit magnitude of a*b.
func product(a, b int64) (sign int, hi, lo uint64) {
	if a == 0 || b == 0 {
		return 0, 0, 0
	}
	sign = 1
	if (a < 0) != (b < 0) {
		sign = -1
	}
	hi, lo = bits.Mul64(magnitude(a), magnitude(b))
	return sign, hi, lo
}

func magnitude(a int64) uint64 {
	if a < 0 {
		return uint64(-a)
	}
	return uint64(a)
}
