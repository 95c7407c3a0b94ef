package scene

import (
	"image/color"
	"math"
	"testing"
)

// DR-04 (references/site.md, derived from sRGB and CIE 15): lightness of the
// sets and contrast on white; tolerance 0.1 L*, 0.01 contrast.
func TestGreyAndContrast(t *testing.T) {
	for _, c := range []struct {
		name string
		c    color.RGBA
		l    float64
	}{
		{"black", okBlack, 0}, {"blue", okBlue, 46.0}, {"vermillion", okVerm, 54.2}, {"bluish green", okGreen, 57.7},
		{"reddish purple", okPurple, 61.0}, {"sky blue", okSky, 69.8}, {"orange", okOrange, 70.6}, {"yellow", okYellow, 89.1},
		{"high-contrast blue", tolBlue, 29.2}, {"high-contrast red", tolRed, 49.5}, {"high-contrast yellow", rgb(0xDDAA33), 72.5},
	} {
		if got := Lightness(c.c); math.Abs(got-c.l) > 0.1 {
			t.Errorf("DR-04 %s: L* %.2f, want %.1f", c.name, got, c.l)
		}
	}
	for _, c := range []struct {
		name string
		c    color.RGBA
		want float64
	}{{"blue", okBlue, 5.19}, {"vermillion", okVerm, 3.87}, {"green", okGreen, 3.42}, {"orange", okOrange, 2.25}, {"yellow", okYellow, 1.32}} {
		if got := Contrast(c.c, white); math.Abs(got-c.want) > 0.01 {
			t.Errorf("DR-04 %s: contrast %.3f on white, want %.2f", c.name, got, c.want)
		}
	}
	if d := Lightness(okOrange) - Lightness(okSky); math.Abs(d-0.8) > 0.1 {
		t.Errorf("DR-04: orange and sky blue differ by %.2f L*, want 0.8", d)
	}
}

var (
	textRoles = []Role{Ink, WaterLine, Pressure, WithinMark, BeyondMark, UnknownMark}
	lineRoles = []Role{Ink, Thin, Earth, Steel, WaterLine, Pressure, Selection}
	tintRoles = []Role{Paper, Gravel, Sand, Silt, Clay, Organic, Bedrock, FillTint, StoneTint, Concrete, FoamTint, Room, Dug, WaterTint, PressTint}
)

// The least contrast is that of WCAG 2.1: 4.5 for text, 3 for lines that
// matter; in the sun and on paper text has 7.
func TestContrastOfLooks(t *testing.T) {
	for _, look := range Looks() {
		p := Colours(look)
		text := 4.5
		if look == Daylight || look == Print {
			text = 7
		}
		for _, r := range textRoles {
			if c := Contrast(p[r], p[Paper]); c < text {
				t.Errorf("%s: text %s has contrast %.2f on the paper, want %.1f", look, r, c, text)
			}
		}
		for _, r := range lineRoles {
			for _, g := range tintRoles {
				if c := Contrast(p[r], p[g]); c < 3 {
					t.Errorf("%s: line %s has contrast %.2f on %s, want 3", look, r, c, g)
				}
			}
		}
		for _, g := range tintRoles {
			for _, h := range []Role{HatchSoil, HatchFill} {
				if c := Contrast(p[h], p[g]); c < 2.5 {
					t.Errorf("%s: %s has contrast %.2f on %s, want 2.5", look, h, c, g)
				}
			}
		}
	}
}

// The verdicts must stay apart in grey as well; form and words do the rest.
func TestVerdictsInGrey(t *testing.T) {
	for _, look := range Looks() {
		p := Colours(look)
		if d := math.Abs(Lightness(p[WithinMark]) - Lightness(p[BeyondMark])); look != Dark && d < 1 {
			t.Errorf("%s: within and beyond differ by %.1f L* only", look, d)
		}
		if p[WithinMark] == p[BeyondMark] || p[WithinMark] == p[UnknownMark] {
			t.Errorf("%s: verdicts share a colour", look)
		}
	}
}

func TestPalettesAreWhole(t *testing.T) {
	light := Colours(Light)
	for _, look := range Looks() {
		p := Colours(look)
		if len(p) != len(light) {
			t.Errorf("%s has %d roles, light has %d", look, len(p), len(light))
		}
		for r, c := range p {
			if _, ok := light[r]; !ok || c.A != 0xFF {
				t.Errorf("%s: role %s is unknown or not opaque", look, r)
			}
		}
	}
	if Colours("no such look")[Ink] != light[Ink] {
		t.Error("an unknown look is not the light one")
	}
}
