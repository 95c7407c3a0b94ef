package face

import (
	"math"
	"sync"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"hillset/assets"
	"hillset/geom"
)

// unit is one font unit in em: what the font itself is rounded to.
const unit = 1.0 / 2048

func ring(c Contour) geom.Ring { return c.Flatten(unit) }

func area(r geom.Ring) float64 {
	sum := 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		sum += p[0]*q[1] - q[0]*p[1]
	}
	return sum / 2
}

func TestCapHeightIsThatOfTheFont(t *testing.T) {
	for _, bold := range []bool{false, true} {
		for _, r := range "HEIZ" {
			top, low := math.Inf(-1), math.Inf(1)
			for _, c := range Outline(r, bold) {
				for _, p := range ring(c) {
					top, low = math.Max(top, p[1]), math.Min(low, p[1])
				}
			}
			if math.Abs(top-CapPerEm) > unit || math.Abs(low) > unit {
				t.Errorf("%c bold=%v stands from %.4f to %.4f em, want 0 to %.4f", r, bold, low, top, CapPerEm)
			}
		}
	}
}

// DR-05 (references/site.md, derived): a capital of 2.5 mm needs a font of
// 3.4595 mm = 9.806 pt, one of 3.5 mm 13.729 pt.
func TestFontSize(t *testing.T) {
	for _, c := range []struct{ cap, pt float64 }{{2.5, 9.806}, {3.5, 13.729}} {
		if pt := c.cap / CapPerEm * 72 / 25.4; math.Abs(pt-c.pt) > 0.005 {
			t.Errorf("DR-05: capital %.1f mm gives %.4f pt, want %.3f", c.cap, pt, c.pt)
		}
	}
}

// The second route is another reader of the same font: the opentype face at a
// size where its 26.6 rounding is 1/64 of a font unit.
func TestWidthAgainstFontFace(t *testing.T) {
	for bold, ttf := range map[bool][]byte{false: assets.Regular(), true: assets.Bold()} {
		f, err := opentype.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		ff, err := opentype.NewFace(f, &opentype.FaceOptions{Size: 2048, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{"", "I", "Lean clay (CL)", "σ'v = γ·z − u ≥ 2 kPa", "6' 4½\"", "0.62×", "ÅÄÖ €"} {
			em := 0.0
			for _, r := range text {
				a, ok := ff.GlyphAdvance(r)
				if !ok {
					t.Fatalf("the font lacks %q", r)
				}
				em += float64(a) / 64 / 2048
			}
			want := em * 2.5 / CapPerEm
			if got := Width(text, 2.5, bold); math.Abs(got-want) > 1e-9 {
				t.Errorf("Width(%q, bold=%v) = %.6f, want %.6f", text, bold, got, want)
			}
		}
	}
}

func TestWidthIsLinear(t *testing.T) {
	const a, b = "drain rock", " (GP)"
	if got, want := Width(a+b, 3.5, false), Width(a, 3.5, false)+Width(b, 3.5, false); math.Abs(got-want) > 1e-12 {
		t.Errorf("widths do not add up: %g and %g", got, want)
	}
	if got, want := Width(a, 5, false), 2*Width(a, 2.5, false); math.Abs(got-want) > 1e-12 {
		t.Errorf("width does not grow with height: %g and %g", got, want)
	}
	if Width("wide", 1, true) <= Width("wide", 1, false) {
		t.Error("bold is not wider than regular")
	}
}

func TestHas(t *testing.T) {
	for _, r := range "AZaz09 .,:;'\"()×·±°≥≤√−–½¼¾²³⁴σγφδβΔ→←↑↓≈€Åéüß" {
		if !Has(r) {
			t.Errorf("the typeface lacks %q (%U)", r, r)
		}
	}
	for _, r := range "∇😀漢\u0007" {
		if Has(r) {
			t.Errorf("the typeface is said to have %q", r)
		}
	}
}

func TestClean(t *testing.T) {
	for _, c := range []struct {
		in, out  string
		replaced bool
	}{
		{"", "", false},
		{"Seed store", "Seed store", false},
		{"two\nlines\tand\rmore", "two lines and more", false},
		{"bell\a and nul\x00", "bell and nul", false},
		{"joined\u200dhere\ufeff", "joinedhere", false},
		{"goat 🐐", "goat ?", true},
		{"bad \xff byte", "bad ? byte", true},
		{"∇", "?", true},
		{"why?", "why?", false},
	} {
		out, replaced := Clean(c.in)
		if out != c.out || replaced != c.replaced {
			t.Errorf("Clean(%q) = %q, %v; want %q, %v", c.in, out, replaced, c.out, c.replaced)
		}
		if again, r := Clean(out); again != out || r {
			t.Errorf("Clean is not settled: %q becomes %q", out, again)
		}
	}
}

func TestOutlineShapes(t *testing.T) {
	for _, c := range []struct {
		r        rune
		contours int
	}{{' ', 0}, {'I', 1}, {'L', 1}, {'O', 2}, {'i', 2}, {'8', 3}, {'%', 5}} {
		if n := len(Outline(c.r, false)); n != c.contours {
			t.Errorf("%q has %d contours, want %d", c.r, n, c.contours)
		}
	}
	o := Outline('O', false)
	if a, b := area(ring(o[0])), area(ring(o[1])); a*b >= 0 {
		t.Errorf("the hole of O turns the same way as its rim: areas %g and %g", a, b)
	}
	lacking, mark := Outline('漢', false), Outline(Replacement, false)
	if &lacking[0] != &mark[0] {
		t.Error("a lacking rune is not drawn as the replacement")
	}
}

// The area of a flattened curve settles as the tolerance falls.
func TestFlattenSettles(t *testing.T) {
	c := Outline('O', true)[0]
	fine := area(c.Flatten(1e-6))
	for _, tol := range []float64{1e-2, 1e-3, 1e-4} {
		r := c.Flatten(tol)
		rim := 0.0
		for i, p := range r {
			rim += r[(i+1)%len(r)].Sub(p).Len()
		}
		if d := math.Abs(area(r) - fine); d > tol*rim {
			t.Errorf("tolerance %g: area off by %g over a rim of %g", tol, d, rim)
		}
	}
}

func TestFlattenRefusesBadTolerance(t *testing.T) {
	for _, tol := range []float64{0, -1, math.NaN()} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("tolerance %g was taken", tol)
				}
			}()
			Outline('I', false)[0].Flatten(tol)
		}()
	}
}

func TestConcurrentUse(t *testing.T) {
	want := Width("σ'v 0.62× beyond", 2.5, false)
	var wg sync.WaitGroup
	for range 8 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for r := rune(0x20); r < 0x250; r++ {
				Outline(r, r%2 == 0)
				Advance(r, true)
			}
			if got := Width("σ'v 0.62× beyond", 2.5, false); got != want {
				t.Errorf("width %g, want %g", got, want)
			}
		}()
	}
	wg.Wait()
}

func BenchmarkWidth(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		Width("Lean clay with sand (CL)", 2.5, false)
	}
}

func BenchmarkOutline(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		for _, r := range "Lean clay (CL)" {
			Outline(r, false)
		}
	}
}
