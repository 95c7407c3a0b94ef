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
		if w := Within("thickness t", c.v, c.lo, c.hi, Thickness); (w == nil) != c.ok || w != nil && !errors.Is(w, ErrRange) {
			t.Errorf("%s: error %v", c.name, w)
		}
		if (err == nil) != c.ok {
			t.Errorf("%s: error %v", c.name, err)
		}
		if err != nil && (!errors.Is(err, ErrRange) || !strings.Contains(err.Error(), "thickness t")) {
			t.Errorf("%s: error %q does not name the field or wrap ErrRange", c.name, err)
		}
	}
}

func TestWithinHoldsItsValues(t *testing.T) {
	got := SI(Within("thickness t", 0.5, 0.001, 0.01, Thickness).Error())
	if want := "out of range: thickness t = 0.5 m, allowed 0.001 m to 0.01 m"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
