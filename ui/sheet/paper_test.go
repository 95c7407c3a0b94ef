package sheet

import (
	"bytes"
	"go/parser"
	"go/token"
	"image/color"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hillset/assets"
	"hillset/geom"
)

var someDay = time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC)

func plainPDF(t testing.TB) Paper {
	t.Helper()
	p, err := NewPDF(Meta{Title: "Test", Producer: "test", Date: someDay, Plain: true})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func finish(t testing.TB, p Paper) []byte {
	t.Helper()
	var b bytes.Buffer
	must(t, p.Finish(&b))
	return b.Bytes()
}

// papers are the implementations that must refuse the same things.
func papers(t *testing.T) map[string]Paper {
	all := map[string]Paper{"pdf": plainPDF(t), "recorder": &Recorder{}}
	for _, p := range all {
		must(t, p.Page(210, 297))
	}
	return all
}

func TestDR05TextHeight(t *testing.T) {
	// references/site.md DR-05 (derived), tolerance 0.005 pt.
	for _, c := range []struct{ cap, pt float64 }{{2.5, 9.806}, {3.5, 13.729}} {
		if got := FontPoints(c.cap); math.Abs(got-c.pt) > 0.005 {
			t.Errorf("capital of %g mm: %g pt, want %g", c.cap, got, c.pt)
		}
		p := plainPDF(t)
		must(t, p.Page(100, 100))
		must(t, p.Text(Text{X: 10, Y: 10, Text: "H", Cap: c.cap, Ink: black}))
		if got := parsePDF(t, finish(t, p))[0].texts[0].size; math.Abs(got-c.pt) > 0.005 {
			t.Errorf("capital of %g mm is written with %g pt, want %g", c.cap, got, c.pt)
		}
	}
}

func TestDR01Sheets(t *testing.T) {
	// references/site.md DR-01 (derived): A3 landscape 1190.551 x 841.890 pt,
	// frame 390 x 277 mm, 0.35 mm = 0.9921 pt, tolerance 0.001 pt.
	a3, err := SizeNamed("a3")
	must(t, err)
	w, h := a3.page(true)
	if math.Abs(w*ptPerMM-1190.551) > 0.001 || math.Abs(h*ptPerMM-841.890) > 0.001 {
		t.Errorf("A3 is %g x %g pt", w*ptPerMM, h*ptPerMM)
	}
	if f := a3.frame(true); math.Abs(f.w-390) > 1e-9 || math.Abs(f.h-277) > 1e-9 {
		t.Errorf("frame of A3 is %g x %g", f.w, f.h)
	}
	p := plainPDF(t)
	must(t, p.Page(w, h))
	must(t, p.Path(Path{Parts: []geom.Polyline{{{0, 0}, {1, 1}}}, Stroke: black, Width: 0.35}))
	pg := parsePDF(t, finish(t, p))[0]
	if math.Abs(pg.paths[0].width-0.9921) > 0.001 {
		t.Errorf("0.35 mm is written as %g pt", pg.paths[0].width)
	}
	// The file gives the page box with two decimals.
	if math.Abs(pg.w-1190.551) > 0.006 || math.Abs(pg.h-841.890) > 0.006 {
		t.Errorf("page box %g x %g", pg.w, pg.h)
	}
}

func TestPageBoxes(t *testing.T) {
	// mm, ISO 216 and ANSI A and B (references/site.md section 5, verified).
	want := map[string][2]float64{"A4": {210, 297}, "A3": {297, 420}, "letter": {215.9, 279.4}, "tabloid": {279.4, 431.8}}
	for _, s := range Sizes {
		for _, landscape := range []bool{false, true} {
			w, h := want[s.Name][0], want[s.Name][1]
			if landscape {
				w, h = h, w
			}
			p := plainPDF(t)
			pw, ph := s.page(landscape)
			must(t, p.Page(pw, ph))
			must(t, p.Page(ph, pw)) // a second one of another shape
			pages := parsePDF(t, finish(t, p))
			if pg := pages[0]; math.Abs(pg.w-w*72/25.4) > 0.006 || math.Abs(pg.h-h*72/25.4) > 0.006 {
				t.Errorf("%s landscape=%v: %g x %g pt", s.Name, landscape, pg.w, pg.h)
			}
			if pg := pages[1]; math.Abs(pg.w-h*72/25.4) > 0.006 {
				t.Errorf("%s landscape=%v: second page %g x %g pt", s.Name, landscape, pg.w, pg.h)
			}
		}
	}
	if _, err := SizeNamed("B7"); err == nil || !strings.Contains(err.Error(), "A4, A3, letter, tabloid") {
		t.Errorf("B7: %v", err)
	}
}

func TestRefusesWhatIsNotFinite(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	line := []geom.Polyline{{{0, 0}, {1, 1}}}
	paths := map[string]Path{
		"nan point":   {Parts: []geom.Polyline{{{0, nan}, {1, 1}}}, Stroke: black, Width: 1},
		"inf point":   {Parts: []geom.Polyline{{{0, 0}, {inf, 1}}}, Stroke: black, Width: 1},
		"nan width":   {Parts: line, Stroke: black, Width: nan},
		"minus width": {Parts: line, Stroke: black, Width: -1},
		"nan dash":    {Parts: line, Stroke: black, Width: 1, Dash: []float64{1, nan}},
		"no dash":     {Parts: line, Stroke: black, Width: 1, Dash: []float64{0, 0}},
		"half ink":    {Parts: line, Stroke: color.RGBA{1, 1, 1, 128}, Width: 1},
	}
	texts := map[string]Text{
		"nan x":     {X: nan, Text: "a", Cap: 2, Ink: black},
		"inf y":     {Y: inf, Text: "a", Cap: 2, Ink: black},
		"nan angle": {Text: "a", Cap: 2, Angle: nan, Ink: black},
		"no height": {Text: "a", Cap: 0, Ink: black},
		"half ink":  {Text: "a", Cap: 2, Ink: color.RGBA{A: 9}},
	}
	for name, p := range papers(t) {
		for what, path := range paths {
			path.Tag = "the-item"
			if err := p.Path(path); err == nil || !strings.Contains(err.Error(), "the-item") {
				t.Errorf("%s: %s: error %v", name, what, err)
			}
		}
		for what, text := range texts {
			text.Tag = "the-item"
			if err := p.Text(text); err == nil || !strings.Contains(err.Error(), "the-item") {
				t.Errorf("%s: text with %s: error %v", name, what, err)
			}
		}
		for _, d := range []float64{nan, inf, 0, -1} {
			if p.Page(d, 10) == nil || p.Page(10, d) == nil {
				t.Errorf("%s: page with a side of %g mm is taken", name, d)
			}
		}
	}
}

func TestNothingOutsideAPage(t *testing.T) {
	line := Path{Tag: "l", Parts: []geom.Polyline{{{0, 0}, {1, 1}}}, Stroke: black, Width: 1}
	for name, p := range map[string]Paper{"pdf": plainPDF(t), "recorder": &Recorder{}} {
		if p.Path(line) == nil || p.Text(Text{Tag: "t", Text: "a", Cap: 2, Ink: black}) == nil {
			t.Errorf("%s: draws before the first page", name)
		}
	}
	p := plainPDF(t)
	if p.Finish(&bytes.Buffer{}) == nil {
		t.Error("a file without a page is finished")
	}
	must(t, p.Page(10, 10))
	finish(t, p)
	if p.Path(line) == nil || p.Finish(&bytes.Buffer{}) == nil {
		t.Error("a finished file is drawn on")
	}
}

func TestTypefaceIsCheckedAtTheStart(t *testing.T) {
	good := assets.Regular()
	for name, bad := range map[string][]byte{
		"empty": nil, "garbage": []byte(strings.Repeat("no face", 10)), "postscript outlines": append([]byte("OTTO"), good[4:]...),
	} {
		if _, err := newPDF(Meta{Date: someDay}, bad, good); err == nil {
			t.Errorf("%s: taken as the upright face", name)
		}
		if _, err := newPDF(Meta{Date: someDay}, good, bad); err == nil {
			t.Errorf("%s: taken as the bold face", name)
		}
	}
	if _, err := newPDF(Meta{Date: someDay}, good, assets.Bold()); err != nil {
		t.Error(err)
	}
}

func TestSignsOutsideTheTypefaceAreRefusedByTheFile(t *testing.T) {
	p := plainPDF(t)
	must(t, p.Page(100, 100))
	if err := p.Text(Text{Tag: "smile", Text: "a🙂", Cap: 2, Ink: black}); err == nil || !strings.Contains(err.Error(), "smile") {
		t.Errorf("error %v", err)
	}
	finish(t, p) // and the file can still be finished
}

func TestStyleIsWholeInEveryItem(t *testing.T) {
	p := plainPDF(t)
	must(t, p.Page(100, 100))
	red := color.RGBA{255, 0, 0, 255}
	square := geom.Polyline{{10, 10}, {50, 10}, {50, 50}, {10, 50}}
	hole := geom.Polyline{{20, 20}, {40, 20}, {40, 40}, {20, 40}}
	must(t, p.Path(Path{Layer: "A", Parts: []geom.Polyline{square, hole}, Closed: true, Fill: red, Stroke: black, Width: 0.5, Dash: []float64{3, 1}}))
	must(t, p.Text(Text{Layer: "A", X: 10, Y: 20, Text: "red", Cap: 2, Ink: red}))
	must(t, p.Path(Path{Layer: "B", Parts: []geom.Polyline{square}, Closed: true, Fill: red}))
	must(t, p.Text(Text{Layer: "B", X: 10, Y: 20, Text: "turned", Cap: 2, Ink: red, Angle: math.Pi / 2, Bold: true}))
	must(t, p.Text(Text{X: 10, Y: 20, Text: "black", Cap: 2, Ink: black}))
	must(t, p.Path(Path{Parts: []geom.Polyline{square}, Stroke: black, Width: 0.25}))
	pg := parsePDF(t, finish(t, p))[0]

	if len(pg.paths) != 3 {
		t.Fatalf("%d paths", len(pg.paths))
	}
	a, b, c := pg.paths[0], pg.paths[1], pg.paths[2]
	if a.op != "B*" || a.closed != 2 || len(a.parts) != 2 {
		t.Errorf("ring with a hole: op %s, %d closed of %d", a.op, a.closed, len(a.parts))
	}
	if a.fill != "1.000 0.000 0.000" || a.stroke != "0.000 0.000 0.000" || math.Abs(a.width-0.5*72/25.4) > 1e-3 {
		t.Errorf("first path: %+v", a)
	}
	if b.op != "f*" || b.closed != 1 || b.layer == a.layer || b.layer == "" {
		t.Errorf("second path: %+v", b)
	}
	if c.op != "S" || c.closed != 0 || c.layer != "" {
		t.Errorf("third path: %+v", c)
	}
	if strings.Count(pg.ops, "] 0 d") != 1 {
		t.Error("the dash is set by others than the dashed path")
	}
	if pg.begun != 2 || pg.ended != 2 {
		t.Errorf("layers: %d begun, %d ended", pg.begun, pg.ended)
	}
	if pg.open != pg.shut {
		t.Errorf("%d states saved, %d restored", pg.open, pg.shut)
	}
	// The turned text starts where it was put, and black text sets no colour
	// left over from the red.
	turned := pg.texts[1]
	if !turned.turned || math.Abs(turned.x-10*ptPerMM) > 1e-3 || math.Abs(turned.y-80*ptPerMM) > 1e-3 {
		t.Errorf("turned text at %g, %g", turned.x, turned.y)
	}
	if i := strings.Index(pg.ops, "q 1.000 0.000 0.000 rg BT"); i < 0 {
		t.Error("red text is not red")
	}
	if last := pg.ops[strings.LastIndex(pg.ops, "Tf ET"):]; strings.Contains(last, "1.000 0.000 0.000 rg") {
		t.Error("the last text is still red")
	}
}

func TestSameInputSameBytes(t *testing.T) {
	var first []byte
	for run := range 20 {
		p, err := NewPDF(Meta{Title: "Ω ½", Author: "x", Producer: "v", Date: someDay})
		must(t, err)
		for _, layer := range []string{"Ground", "Box", "Water", "Ground"} {
			if layer == "Ground" {
				must(t, p.Page(297, 210))
			}
			must(t, p.Text(Text{Layer: layer, X: 10, Y: 10, Text: "π ≥ √2 −½ " + layer, Cap: 2.5, Ink: black}))
			must(t, p.Text(Text{Layer: layer, X: 10, Y: 20, Text: "Bold", Cap: 2.5, Bold: true, Ink: grey}))
		}
		got := finish(t, p)
		if run == 0 {
			first = got
		} else if !bytes.Equal(got, first) {
			t.Fatalf("run %d differs", run)
		}
	}
	if !bytes.Contains(first, []byte("/CreationDate (D:20240301000000)")) || !bytes.Contains(first, []byte("/ModDate (D:20240301000000)")) {
		t.Error("dates are not those of the sheet")
	}
}

func TestRecorderWritesADisplayList(t *testing.T) {
	r := &Recorder{}
	must(t, r.Page(100, 50))
	must(t, r.Path(Path{Tag: "p", Layer: "L", Parts: []geom.Polyline{{{1, 2}, {3, 4}, {5, 2}}}, Closed: true, Fill: black, Stroke: grey, Width: 0.25, Dash: []float64{2, 1}}))
	must(t, r.Text(Text{Tag: "t", X: 1, Y: 2, Text: "½", Cap: 2.5, Bold: true, Angle: 0.5, Ink: black}))
	want := "page 1 100.0 x 50.0\n" +
		"path p layer=\"L\" fill=#000000 stroke=#505050 width=0.25 dash=[2 1] [1.00,2.00 3.00,4.00 5.00,2.00 z]\n" +
		"text t layer=\"\" at=1.00,2.00 cap=2.50 ink=#000000 bold angle=0.5000 \"½\"\n"
	if got := string(finish(t, r)); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// hatchLines draws n strokes as items of their own, the costliest way.
func hatchLines(t testing.TB, n int) []byte {
	p, err := NewPDF(Meta{Date: someDay})
	must(t, err)
	must(t, p.Page(420, 297))
	for i := range n {
		x, y := float64(i%200)*2, float64(i/200)*5
		must(t, p.Path(Path{Tag: "hatch", Layer: "Ground", Parts: []geom.Polyline{{{x, y}, {x + 2, y + 5}}}, Stroke: black, Width: 0.13}))
	}
	return finish(t, p)
}

func TestTenThousandLinesStaySmall(t *testing.T) {
	if n := len(hatchLines(t, 10000)); n > 1<<20 {
		t.Errorf("%d bytes, want at most 1 MB", n)
	}
}

func BenchmarkTenThousandLines(b *testing.B) {
	for b.Loop() {
		hatchLines(b, 10000)
	}
}

func TestOneFileKnowsTheLibrary(t *testing.T) {
	files, err := filepath.Glob("*.go")
	must(t, err)
	var knows []string
	for _, f := range files {
		src, err := parser.ParseFile(token.NewFileSet(), f, nil, parser.ImportsOnly)
		must(t, err)
		for _, i := range src.Imports {
			if strings.Contains(i.Path.Value, "gofpdf") {
				knows = append(knows, f)
			}
		}
	}
	if len(knows) != 1 || knows[0] != "gofpdf.go" {
		t.Errorf("the PDF library is known to %v", knows)
	}
}
