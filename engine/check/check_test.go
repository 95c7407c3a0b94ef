package check

import (
	"math"
	"testing"
)

func TestVerdict(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		asd, lrfd float64
		missing   string
		want      string
		worst     float64
	}{
		{0.5, 0.7, "", "within limits", 0.7},
		{1, 1, "", "within limits", 1},
		{1, 1.0001, "", "beyond limits", 1.0001},
		{1.2, nan, "", "beyond limits", 1.2},
		{nan, 0.4, "", "within limits", 0.4},
		{nan, nan, "", "not checked", nan},
		{0.2, 0.2, "no soil report", "not checked", 0.2},
		{math.Inf(1), nan, "", "beyond limits", math.Inf(1)},
	} {
		k := Check{Ratio: c.asd, RatioLRFD: c.lrfd, Missing: c.missing}
		if got := k.Verdict().String(); got != c.want {
			t.Errorf("%g, %g, %q: %s, want %s", c.asd, c.lrfd, c.missing, got, c.want)
		}
		if w := k.Worst(); w != c.worst && !(math.IsNaN(w) && math.IsNaN(c.worst)) {
			t.Errorf("%g, %g: worst %g, want %g", c.asd, c.lrfd, w, c.worst)
		}
	}
	if u := Unchecked("a", "b", "c", "why"); u.Verdict() != NotChecked || u.Missing != "why" || u.Part != "c" {
		t.Errorf("%+v", u)
	}
}
