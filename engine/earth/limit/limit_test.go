package limit

import (
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"hillset/engine/quantity"
)

func TestWithin(t *testing.T) {
	for _, c := range []struct {
		v  float64
		ok bool
	}{
		{0, true}, {1, true}, {0.5, true},
		{-1e-9, false}, {1.0001, false},
		{math.NaN(), false}, {math.Inf(1), false}, {math.Inf(-1), false},
	} {
		if err := Within("x", c.v, 0, 1, quantity.None); (err == nil) != c.ok {
			t.Errorf("Within(%v) = %v", c.v, err)
		}
	}
}

func TestOneSided(t *testing.T) {
	if AtLeast("a", 2, 2, quantity.Length) != nil || AtLeast("a", 1.9, 2, quantity.Length) == nil {
		t.Error("AtLeast includes its end and nothing below")
	}
	if Positive("a", 0, quantity.Length) == nil || Positive("a", 1e-13, quantity.Length) == nil || Positive("a", 1e-8, quantity.Length) != nil {
		t.Error("Positive excludes zero and what is as good as zero")
	}
	if Finite("a", math.Inf(1), quantity.None) == nil || Finite("a", -1e13, quantity.None) == nil || Finite("a", -1e11, quantity.None) != nil {
		t.Error("Finite refuses infinities and what is as good as that")
	}
}

func TestMessageNamesFieldValueRange(t *testing.T) {
	cases := []struct {
		err  error
		want []string
	}{
		{Within("phi", 2, 0, 1, quantity.Angle), []string{"phi", "2 rad", "0 rad to 1 rad"}},
		{AtLeast("cover", -1, 0, quantity.Length), []string{"cover", "-1 m", "0 m or more"}},
		{Finite("q", math.NaN(), quantity.Pressure), []string{"q", "NaN kPa", "finite"}},
		{Within("q", 3, math.Inf(-1), 2, quantity.LineLoad), []string{"2 kN/m or less"}},
		{Positive("w", 0, quantity.Force), []string{"w = 0 kN", "above zero"}},
	}
	for _, c := range cases {
		for _, w := range c.want {
			if !strings.Contains(quantity.SI(c.err.Error()), w) {
				t.Errorf("%q lacks %q", c.err, w)
			}
		}
	}
}

func TestInAndFirst(t *testing.T) {
	e := In("layers[1]", Within("phi", 2, 0, 1, quantity.Angle))
	var le *Error
	if !errors.As(e, &le) || le.Field != "layers[1].phi" || le.Value != 2 {
		t.Errorf("In gave %v", e)
	}
	if !errors.Is(In("file", io.EOF), io.EOF) {
		t.Error("In must wrap other errors")
	}
	if In("x", nil) != nil || First(nil, nil) != nil {
		t.Error("no error must stay none")
	}
	if First(nil, io.EOF, e) != io.EOF {
		t.Error("First must give the first")
	}
}
