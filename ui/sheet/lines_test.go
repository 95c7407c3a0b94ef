package sheet

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

func TestBreakLines(t *testing.T) {
	s := style{cap: 2.5, ink: black}
	wide := func(text string) float64 { return s.width(text) + tiny }
	for _, c := range []struct {
		name, text string
		w          float64
		want       []string
	}{
		{"fits", "one two", wide("one two"), []string{"one two"}},
		{"at a space", "one two", wide("one"), []string{"one", "two"}},
		{"after a hyphen", "one-two", wide("one-"), []string{"one-", "two"}},
		{"after a slash", "m/s", wide("m/"), []string{"m/", "s"}},
		{"inside a word", "mmmm", wide("mm"), []string{"mm", "mm"}},
		{"no room at all", "ab", 0, []string{"a", "b"}},
		{"empty", "", 10, []string{""}},
		{"only spaces", "   ", 10, []string{""}},
		{"line ends kept", "a\nb", 100, []string{"a", "b"}},
		{"Greek and fractions", "σ′v ½ γ", wide("σ′v ½"), []string{"σ′v ½", "γ"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := breakLines(s, c.text, c.w); !reflect.DeepEqual(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestBreakLinesKeepsEveryLetterAndTheWidth(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	s := style{cap: 2.5, ink: black}
	for range 500 {
		var b strings.Builder
		for range rng.IntN(80) {
			b.WriteRune([]rune("abcdefghim -/½γ   ")[rng.IntN(18)])
		}
		text, w := b.String(), 4+rng.Float64()*60
		lines := breakLines(s, text, w)
		if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""), strings.ReplaceAll(text, " ", ""); got != want {
			t.Fatalf("%q broken into %q", text, lines)
		}
		for _, l := range lines {
			if s.width(l) > w && len([]rune(l)) > 1 {
				t.Fatalf("%q is %g mm wide, field %g", l, s.width(l), w)
			}
		}
	}
}

func TestFitted(t *testing.T) {
	s := style{cap: 2.5, ink: black}
	long := strings.Repeat("storehouse ", 20)
	for _, w := range []float64{0, 1, 5, 30, 1000} {
		if got := fitted(s, long, w); s.width(got) > w {
			t.Errorf("field %g: %q is %g wide", w, got, s.width(got))
		}
	}
	if got := fitted(s, "short", 100); got != "short" {
		t.Errorf("short text became %q", got)
	}
}
