package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
	"hillset/ui/units"
)

func TestEverythingStandsInsideTheFrame(t *testing.T) {
	for _, o := range orientations() {
		for _, n := range []int{0, 3, 25, 120} {
			t.Run(fmt.Sprintf("%s, %d checks", o.name(), n), func(t *testing.T) {
				rec := record(t, handProject(), handResult(n), o)
				size, err := SizeNamed(o.Size)
				must(t, err)
				checkInside(t, rec, size.frame(o.Landscape))
			})
		}
	}
}

func checkInside(t *testing.T, rec *Recorder, f box) {
	t.Helper()
	const slack = 1e-6
	in := func(v geom.Vec) bool {
		return v[0] >= f.x-slack && v[0] <= f.right()+slack && v[1] >= f.y-slack && v[1] <= f.bottom()+slack
	}
	for i, pg := range rec.Pages {
		for _, x := range pg.Texts {
			for _, v := range x.corners() {
				if !in(v) {
					t.Errorf("page %d: text %s %q reaches (%.1f, %.1f)", i+1, x.Tag, x.Text, v[0], v[1])
				}
			}
			least := capLeast - slack
			if x.Layer == layerName(scene.PanelLayer) {
				least = 1.7 - slack // numbers in narrow bays
			}
			if x.Cap < least {
				t.Errorf("page %d: text %s %q is %.2f mm high", i+1, x.Tag, x.Text, x.Cap)
			}
		}
		for _, p := range pg.Paths {
			for _, part := range p.Parts {
				for _, v := range part {
					if !in(v) {
						t.Errorf("page %d: path %s reaches (%.1f, %.1f)", i+1, p.Tag, v[0], v[1])
					}
				}
			}
		}
	}
}

// ownText tells whether a text belongs to the sheet and not to a section.
func ownText(x Text) bool { return x.Layer == sheetLayer }

func TestTextsOfTheSheetDoNotOverlap(t *testing.T) {
	for _, o := range orientations() {
		t.Run(o.name(), func(t *testing.T) {
			rec := record(t, handProject(), handResult(25), o)
			for i, pg := range rec.Pages {
				checkApart(t, i, pg.Texts)
			}
		})
	}
}

// checkApart compares the ink of upright texts: capitals and half of the
// descenders.
func checkApart(t *testing.T, page int, texts []Text) {
	t.Helper()
	boxes := make([]geom.Rect, len(texts))
	for i, x := range texts {
		c := x.corners()
		boxes[i] = geom.Rect{Min: geom.Vec{c[3][0], c[3][1]}, Max: geom.Vec{c[1][0], c[1][1] - descent*x.Cap/2}}
	}
	for i, x := range texts {
		for j, y := range texts[:i] {
			if !ownText(x) || x.Angle != 0 || y.Angle != 0 {
				continue
			}
			if a, b := boxes[i], boxes[j]; a.Min[0] < b.Max[0] && b.Min[0] < a.Max[0] && a.Min[1] < b.Max[1] && b.Min[1] < a.Max[1] {
				t.Errorf("page %d: %s %q and %s %q overlap", page+1, x.Tag, x.Text, y.Tag, y.Text)
			}
		}
	}
}

func TestFirstSheetHasWhatAContractorNeeds(t *testing.T) {
	for _, o := range orientations() {
		t.Run(o.name(), func(t *testing.T) {
			rec := record(t, handProject(), handResult(12), o)
			first := rec.Pages[0].allText()
			for _, want := range []string{
				"Long section A-A", "Cross section B-B", "Seed store in the lower bank", "HS-01", "2024-03-01", "A. Drafter",
				Status, InventedNote, "Before and during the work", "Call before you dig", "Nobody goes between the box and the cut",
				"competent person", "licensed engineer decide", "Left side wall 1", "nail in the gate post",
			} {
				if !strings.Contains(strings.ReplaceAll(first, "\n", " "), want) && !strings.Contains(first, want) {
					t.Errorf("the first sheet does not say %q", want)
				}
			}
			all := ""
			for _, pg := range rec.Pages {
				all += strings.ReplaceAll(pg.allText(), "\n", " ")
			}
			for _, want := range []string{"Levels (existing in brackets)", "Cut and fill", "Legend", "Silty clay", "Ground as found", "Not checked", "beyond limits", "within limits", "What was assumed"} {
				if !strings.Contains(all, want) {
					t.Errorf("no sheet says %q", want)
				}
			}
			if strings.Contains(strings.ToLower(all), "safe") {
				t.Error("the sheets call something safe")
			}
			if n := len(rec.Pages); !strings.Contains(first, fmt.Sprintf("1 of %d", n)) {
				t.Errorf("the first of %d sheets is numbered otherwise", n)
			}
		})
	}
}

func TestLargeSheetsTakeAllOnOne(t *testing.T) {
	for _, o := range orientations() {
		if size, _ := SizeNamed(o.Size); size.Large {
			if n := len(record(t, handProject(), handResult(12), o).Pages); n != 1 {
				t.Errorf("%s: %d sheets", o.name(), n)
			}
		}
	}
}

func TestEveryCheckIsListedOnce(t *testing.T) {
	for _, o := range orientations() {
		rec := record(t, handProject(), handResult(120), o)
		found := map[string]int{}
		for _, pg := range rec.Pages {
			for _, x := range pg.Texts {
				if x.Tag == "checks:cell" && strings.HasPrefix(x.Text, "left side wall ") {
					found[x.Text]++
				}
			}
		}
		for i := 1; i <= 120; i++ {
			if n := found[fmt.Sprintf("left side wall %d", i)]; n != 1 {
				t.Errorf("%s: check %d is listed %d times", o.name(), i, n)
			}
		}
	}
}

// inMM turns points of a PDF page into millimetres.
func inMM(v float64) float64 { return v * 25.4 / 72 }

func TestTrueToScale(t *testing.T) {
	long, cross := handViews()
	boxLength := long.Box.W()
	for _, o := range orientations() {
		t.Run(o.name(), func(t *testing.T) {
			d, err := plan(handProject(), handResult(8), long, cross, o)
			must(t, err)
			s := d.fig.scale
			pg := parsePDF(t, write(t, handProject(), handResult(8), o))[0]
			if pg.open != pg.shut || pg.begun != pg.ended || pg.begun == 0 {
				t.Errorf("states %d/%d, layers %d/%d", pg.open, pg.shut, pg.begun, pg.ended)
			}
			bar, box := 0.0, 0.0
			for _, p := range pg.paths {
				if len(p.parts) != 1 {
					continue
				}
				r := p.parts[0].Bounds()
				w, h := r.W(), r.H()
				if math.Abs(p.width-thin*ptPerMM) < 1e-3 && h == 0 && math.Abs(w-s.Bar*ptPerMM) < 0.5 {
					bar = w
				}
				if math.Abs(p.width-0.7*ptPerMM) < 1e-3 && math.Abs(h/w-long.Box.H()/boxLength) < 1e-3 {
					box = w
				}
			}
			// pdf.md, item 9: a bar of 100 mm measures 283.46 pt (derived: 72/25.4 per mm).
			want := 283.46
			if s.Feet {
				want = s.Real * 12 / s.Den * 72 // feet to inches on paper to points
			}
			if math.Abs(bar-want) > 0.01 {
				t.Errorf("the scale bar measures %g pt, want %g", bar, want)
			}
			if got, want := inMM(box), boxLength*1000/s.Den; math.Abs(got-want) > 0.05 {
				t.Errorf("the box measures %g mm at %s, want %g", got, s.Name, want)
			}
		})
	}
}

func TestScaleIsTheLargestThatFits(t *testing.T) {
	for _, o := range orientations() {
		d := planned(t, handProject(), handResult(8), o)
		list := scales(o.Units == units.US)
		at := slices.IndexFunc(list, func(s Scale) bool { return s.Name == d.fig.scale.Name })
		for _, s := range list[:at] {
			f, err := d.atScale(s, d.inner(), d.pieces())
			must(t, err)
			if f != nil {
				t.Errorf("%s: %s would fit as well as %s", o.name(), s.Name, d.fig.scale.Name)
			}
		}
		// A sheet with half the area more never has a smaller drawing.
		if o.Size == "A4" {
			o.Size = "A3"
			if big := planned(t, handProject(), handResult(8), o); big.fig.scale.Den > d.fig.scale.Den {
				t.Errorf("%s is drawn at %s, A4 at %s", o.name(), big.fig.scale.Name, d.fig.scale.Name)
			}
		}
	}
}

func planned(t testing.TB, p *model.Project, r *assess.Result, o Options) *document {
	t.Helper()
	long, cross := handViews()
	d, err := plan(p, r, long, cross, o)
	must(t, err)
	return d
}

// checkRooms holds the places of the first sheet against each other, one by
// one: figures with their captions, title block, tables and scale bar.
func checkRooms(t *testing.T, d *document) {
	t.Helper()
	f := d.first
	rooms := []box{f.tbox}
	for _, r := range f.fig.room {
		rooms = append(rooms, box{r.x + f.at[0], r.y + f.at[1], r.w, r.h})
	}
	for i, fig := range f.fig.figs {
		ext := fig.ext
		ext.x, ext.y = ext.x+f.at[0]+f.fig.at[i][0], ext.y+f.at[1]+f.fig.at[i][1]
		if r := rooms[1+i]; !r.holds(ext) {
			t.Errorf("figure %d at %v stands outside its room %v", i, ext, r)
		}
	}
	must := map[string]bool{"scale-bar": true, "answers": true, "cautions": d.size.Large}
	for _, p := range f.placed {
		rooms = append(rooms, p.at)
		delete(must, p.tag())
	}
	for tag, asked := range must {
		if asked {
			t.Errorf("the first sheet has no %s", tag)
		}
	}
	for i, r := range rooms {
		if !d.inner().holds(r) {
			t.Errorf("room %d, %v, leaves the field %v", i, r, d.inner())
		}
		for j, o := range rooms[:i] {
			if r.overlaps(o) {
				t.Errorf("rooms %d, %v, and %d, %v, overlap", i, r, j, o)
			}
		}
	}
}

func TestFirstSheetIsPacked(t *testing.T) {
	for _, o := range orientations() {
		for _, n := range []int{0, 3, 25, 120} {
			checkRooms(t, planned(t, handProject(), handResult(n), o))
		}
	}
}

func TestWriteGivesTheSameBytes(t *testing.T) {
	o := orientations()[2]
	o.Plain = false
	first := write(t, handProject(), handResult(30), o)
	for range 19 {
		if !bytes.Equal(write(t, handProject(), handResult(30), o), first) {
			t.Fatal("the same project gives another file")
		}
	}
	p := handProject()
	p.Sheet.Date = ""
	if b := write(t, p, handResult(3), o); !bytes.Contains(b, []byte("D:20000101000000")) {
		t.Error("a project without a date has not the date set down for it")
	}
}

func TestLongestNamesAndOddSigns(t *testing.T) {
	long := strings.Repeat("Very long name of a place beyond the hills ", 8)
	names := map[string]string{
		"longest": long, "one word": strings.Repeat("m", 300), "Greek": "Λόφος γ′ σ′v ≤ ½ ¾", "emoji": "Store 🥔🏔 in the hill",
		"empty": "", "control": "a\tb\x00c\nd\u202e", "broken": string([]byte{'a', 0xff, 'b'}), "paragraphs": strings.Repeat("A note that goes on. ", 100),
	}
	for what, name := range names {
		for _, o := range orientations() {
			t.Run(what+" "+o.name(), func(t *testing.T) {
				p := handProject()
				p.Title, p.Sheet = name, model.Sheet{Owner: name, Place: name, DrawnBy: name, Number: name, Revision: name, Notes: name}
				p.Site.Benchmark.Description = name
				r := handResult(3)
				r.Checks[0].Part, r.Checks[0].Title, r.Checks[1].Stage = name, name, name
				r.Checks[3].Missing = name + "."
				r.Assumed = []string{name}
				d, rec, paper := planned(t, p, r, o), &Recorder{}, plainPDF(t)
				must(t, d.draw(rec))
				checkInside(t, rec, d.size.frame(o.Landscape))
				must(t, d.draw(paper))
				pages := parsePDF(t, finish(t, paper))
				if len(pages) != len(rec.Pages) {
					t.Errorf("%d pages, recorded %d", len(pages), len(rec.Pages))
				}
				all := ""
				for _, pg := range pages {
					all += pg.allText()
				}
				reported := strings.Contains(strings.Join(strings.Fields(all), " "), "printed as ?")
				if odd := what == "emoji" || what == "broken"; reported != odd {
					t.Errorf("lost signs reported: %v, want %v", reported, odd)
				}
			})
		}
	}
}

func TestWhatCannotBeDrawnIsRefused(t *testing.T) {
	p, r := handProject(), handResult(3)
	long, cross := handViews()
	o := orientations()[0]
	bad := func(change func(sc *scene.Scene)) Options {
		o := o
		o.Scene = func(v *section.View, d Drawing) (*scene.Scene, error) {
			sc, err := handScene(v, d)
			change(sc)
			return sc, err
		}
		return o
	}
	for _, c := range []struct {
		name, want string
		o          Options
	}{
		{"size", "sheet size", Options{Size: "A9", Scene: handScene}},
		{"nan in a path", "odd-item", bad(func(sc *scene.Scene) {
			sc.Items = append(sc.Items, scene.Item{Path: &scene.Path{Tag: "odd-item", Parts: []geom.Polyline{{{math.NaN(), 0}}}}})
		})},
		{"inf in a label", "odd-item", bad(func(sc *scene.Scene) {
			sc.Items = append(sc.Items, scene.Item{Label: &scene.Label{Tag: "odd-item", Text: "x", Height: 2, At: geom.Vec{0, math.Inf(1)}}})
		})},
		{"unknown colour", "no-such-role", bad(func(sc *scene.Scene) {
			sc.Items = append(sc.Items, scene.Item{Label: &scene.Label{Text: "x", Height: 2.5, Role: "no-such-role", At: long.Box.Min}})
		})},
		{"nothing drawn", "empty", bad(func(sc *scene.Scene) { sc.Items = nil })},
		{"too wide", "smallest scale", bad(func(sc *scene.Scene) {
			sc.Items = append(sc.Items, scene.Item{Path: &scene.Path{Parts: []geom.Polyline{{{0, 0}, {1e5, 0}}}}})
		})},
		{"no scene", "out of ink", func() Options {
			o := o
			o.Scene = func(*section.View, Drawing) (*scene.Scene, error) { return nil, errors.New("out of ink") }
			return o
		}()},
	} {
		if err := Write(&bytes.Buffer{}, p, r, long, cross, c.o); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", c.name, err, c.want)
		}
	}
	if err := Write(&bytes.Buffer{}, p, nil, long, cross, o); err == nil {
		t.Error("no result: no error")
	}
	p.Sheet.Date = "last Tuesday"
	if err := Write(&bytes.Buffer{}, p, r, long, cross, o); err == nil || !strings.Contains(err.Error(), "sheet.date") {
		t.Errorf("date: error %v", err)
	}
}
