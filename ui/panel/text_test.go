package panel

import (
	"image/color"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	fx "golang.org/x/image/math/fixed"

	"hillset/assets"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/scene"
	"hillset/ui/units"
)

func TestBrokenLinesFitAndLoseNothing(t *testing.T) {
	test.NewTempApp(t)
	rng := rand.New(rand.NewPCG(7, 9))
	letters := []rune("abcdefgh ijkl mno  pq rstu vwxyz§°²½ ")
	for range 300 {
		n := rng.IntN(120)
		var b strings.Builder
		for range n {
			b.WriteRune(letters[rng.IntN(len(letters))])
		}
		width := float32(20 + rng.IntN(300))
		lines := broken(b.String(), width, 13, fyne.TextStyle{})
		for _, l := range lines {
			if w := fyne.MeasureText(l, 13, fyne.TextStyle{}).Width; w > width && len([]rune(l)) > 1 {
				t.Fatalf("%q is %v wide in %v", l, w, width)
			}
		}
		joined := strings.ReplaceAll(strings.Join(lines, ""), " ", "")
		if want := strings.ReplaceAll(b.String(), " ", ""); joined != want {
			t.Fatalf("%q became %q", want, joined)
		}
		if f := fitted(b.String(), width, 13, fyne.TextStyle{}); fyne.MeasureText(f, 13, fyne.TextStyle{}).Width > width {
			t.Fatalf("%q does not fit in %v", f, width)
		}
	}
}

func TestRoomyFontsKeepTheirLetters(t *testing.T) {
	for name, ttf := range map[string][]byte{"regular": assets.Regular(), "bold": assets.Bold()} {
		a, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		b, err := sfnt.Parse(roomy(ttf))
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		em := fx.I(int(a.UnitsPerEm()))
		ma, err := a.Metrics(&buf, em, font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		mb, err := b.Metrics(&buf, em, font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		if mb.Descent-ma.Descent != fx.I(tails) || mb.Ascent != ma.Ascent || a.NumGlyphs() != b.NumGlyphs() {
			t.Errorf("%s: %+v became %+v", name, ma, mb)
		}
		// the tail of a g reaches as deep as the font says, at 13 px to the pixel
		i, err := b.GlyphIndex(&buf, 'g')
		if err != nil {
			t.Fatal(err)
		}
		bounds, _, err := b.GlyphBounds(&buf, i, fx.I(13), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		at13, err := b.Metrics(&buf, fx.I(13), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		if bounds.Max.Y.Ceil() > at13.Descent.Floor() {
			t.Errorf("%s: the tail of g reaches %v below the line, %v are drawn", name, bounds.Max.Y, at13.Descent)
		}
	}
}

func TestBrief(t *testing.T) {
	for _, c := range []struct {
		v    float64
		kind quantity.Kind
		sys  units.System
		want string
	}{
		{1.93, quantity.Length, units.Metric, "1.93 m"},
		{2.3456789, quantity.Length, units.Metric, "2.346 m"},
		{0, quantity.Length, units.Metric, "0 m"},
		{-1.93, quantity.Length, units.Metric, "−1.93 m"},
		{76 * in, quantity.Length, units.US, `6'-4"`},
		{1.2, quantity.Length, units.US, `3'-11¼"`}, // 47.244 in
		{0.15, quantity.Length, units.US, `5⅞"`},    // 5.906 in, nearest 1/16 is 5 14/16
		{20, quantity.UnitWeight, units.US, "127.318 pcf"},
		{1e-7, quantity.None, units.Metric, "1e-07"},
		{1.5, quantity.Slope, units.US, "1.5:1"},
		{0.02, quantity.Gradient, units.Metric, "2 %"},
	} {
		if got := brief(c.v, c.kind, c.sys); got != c.want {
			t.Errorf("%v in %v: %q, want %q", c.v, c.sys, got, c.want)
		}
	}
	if got := decimal(100.1, quantity.Length, units.US); got != "328.412 ft" {
		t.Errorf("level: %q", got)
	}
}

func TestTableKeepsWhatNobodyTouched(t *testing.T) {
	before := []model.Vec{{1.00004, 99.123456}, {2.5, 100}, {4.33333333, 101.777777}}
	for _, sys := range []units.System{units.Metric, units.US} {
		lines := strings.Split(strings.TrimSpace(lineText(before, sys)), "\n")
		var typed []model.Vec
		for i, l := range lines {
			x, z, _ := strings.Cut(l, "\t")
			if i == 1 {
				x, z = "2.6 m", "100.5 m"
			}
			vx, err := units.Parse(quantity.Length, x, sys)
			if err != nil {
				t.Fatal(err)
			}
			vz, err := units.Parse(quantity.Length, z, sys)
			if err != nil {
				t.Fatal(err)
			}
			typed = append(typed, model.Vec{vx, vz})
		}
		want := []model.Vec{before[0], {2.6, 100.5}, before[2]}
		if got := kept(typed, before, sys); !reflect.DeepEqual(got, want) {
			t.Errorf("%v: %v, want %v", sys, got, want)
		}
	}
}

func TestObservedWaterReadsBack(t *testing.T) {
	pts := []model.WaterPoint{{Pos: model.Vec{3, 98.5}, Season: "March", Note: "wet ditch"}, {Pos: model.Vec{15, 101.25}}, {Pos: model.Vec{16, 100}, Note: "dry"}}
	for _, sys := range []units.System{units.Metric, units.US} {
		got, err := readWater(waterText(pts, sys), sys)
		if err != nil {
			t.Fatal(err)
		}
		keptWater(got, pts, sys)
		if !reflect.DeepEqual(got, pts) {
			t.Errorf("%v: %+v", sys, got)
		}
	}
	for text, says := range map[string]string{
		"3 98.5":                "line 1",
		"3; 98.5\n\n4; high":    "line 3",
		"1; 2; spring; a; b":    "5 cells",
		"x; 98.5; March; ditch": "line 1",
	} {
		if _, err := readWater(text, units.Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// Every text keeps a contrast of 4.5:1 to what it stands on in every look
// (WCAG 2.1, 1.4.3).
func TestLooksCanBeRead(t *testing.T) {
	for _, name := range shownLooks {
		l := newLook(name, 1)
		for _, pair := range [][2]fyne.ThemeColorName{
			{"foreground", "background"}, {"foreground", "inputBackground"}, {"foreground", "button"}, {"foreground", "hover"}, {"foreground", "selection"},
			{"placeholder", "background"}, {"error", "background"}, {"success", "background"}, {"foregroundOnPrimary", "primary"}, {"foreground", "focus"},
		} {
			a, b := rgba(l.Color(pair[0], 0)), over(rgba(l.Color(pair[1], 0)), rgba(l.Color("background", 0)))
			if c := scene.Contrast(a, b); c < 4.5 {
				t.Errorf("%s: %s on %s has a contrast of %.2f", name, pair[0], pair[1], c)
			}
		}
	}
}

func TestNothingIsCutOff(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	const menu = 24 // height of the menu bar, which the driver of the tests has not
	if m := b.win.Content().MinSize(); m.Width > 1280 || m.Height > 800-menu {
		t.Errorf("the window needs %v", m)
	}
	for _, scale := range []float32{1, 1.3} {
		b.setLetters(scale)
		for _, sys := range []units.System{units.Metric, units.US} {
			b.units(sys)
			for _, pg := range order {
				b.openPage(pg)
				b.page.relay()
				texts(b.win.Content(), func(x *canvas.Text) {
					if w := x.MinSize().Width; w > x.Size().Width+1 && x.Size().Width > 0 {
						t.Errorf("letters %v, %v, page %s: %q is %v wide and has %v", scale, sys, pg, x.Text, w, x.Size().Width)
					}
				})
			}
		}
	}
}

func rgba(c color.Color) color.RGBA {
	r, g, b, a := c.RGBA()
	return color.RGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), uint8(a >> 8)}
}

// over lays a colour, its parts multiplied by its alpha, over an opaque one.
func over(c, below color.RGBA) color.RGBA {
	mix := func(a, b uint8) uint8 { return a + uint8(uint16(b)*uint16(255-c.A)/255) }
	return color.RGBA{mix(c.R, below.R), mix(c.G, below.G), mix(c.B, below.B), 255}
}
