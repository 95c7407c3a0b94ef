package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestRange(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name      string
		v, lo, hi float64
		ok        bool
	}{
		{"inside", 1, 0, 2, true},
		{"on the lower bound", 0, 0, 2, true},
		{"on the upper bound", 2, 0, 2, true},
		{"below", -1e-9, 0, 2, false},
		{"above", 2.1, 0, 2, false},
		{"NaN", math.NaN(), -inf, inf, false},
		{"infinite with open bounds", inf, 0, inf, false},
		{"open bounds", -1e300, -inf, inf, true},
	} {
		err := Range("thickness t", c.v, c.lo, c.hi)
		if (err == nil) != c.ok {
			t.Errorf("%s: error %v", c.name, err)
		}
		if err != nil && (!errors.Is(err, ErrRange) || !strings.Contains(err.Error(), "thickness t")) {
			t.Errorf("%s: error %q does not name the field or wrap ErrRange", c.name, err)
		}
	}
}
