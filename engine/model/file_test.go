package model

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strings"
	"testing"
)

func write(t *testing.T, d *Document) string {
	t.Helper()
	var b bytes.Buffer
	if err := d.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func read(t *testing.T, text string) (*Document, []Problem) {
	t.Helper()
	d, ps, err := Read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return d, ps
}

func TestWriteThenRead(t *testing.T) {
	for name, p := range map[string]*Project{"sample": sample(), "new": New()} {
		text := write(t, &Document{Project: p})
		d, _ := read(t, text)
		if !reflect.DeepEqual(d.Project, p) {
			t.Errorf("%s: read back %+v\nwrote %+v", name, d.Project, p)
		}
		if again := write(t, d); again != text {
			t.Errorf("%s: the second writing differs from the first", name)
		}
	}
}

func TestEveryFieldIsWritten(t *testing.T) {
	p := full()
	p.Format = Format
	text := write(t, &Document{Project: p})
	root, err := parseTree([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	q := new(Project)
	dec := decoder{data: []byte(text)}
	if err := dec.value(root, reflect.ValueOf(q).Elem(), ""); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(p, q) || len(dec.unknown) > 0 {
		t.Errorf("a field got lost between writing and reading; unknown: %v", dec.unknown)
	}
}

func TestFileIsReadable(t *testing.T) {
	text := write(t, &Document{Project: sample()})
	for _, want := range []string{
		"{\n  \"format\": 1,\n  \"title\": \"Seed store in the pasture bank\",\n",
		"\n      [5, 101],\n",
		"\"by_stratum\": {\n",
		"\"set_by_user\": [\"phi\"]",
		"\n}\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the file does not hold %q:\n%s", want, text)
		}
	}
}

func TestNumbersKeepTheirValue(t *testing.T) {
	for _, v := range []float64{0.1, 1.0 / 3, 6.096, -0.0254, 1e-13, 5e-324, math.MaxFloat64, 123456789.123} {
		var e encoder
		e.number(v, "x")
		n, err := parseTree(e.buf.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := n.float(); !ok || got != v {
			t.Errorf("%v was written as %s", v, e.buf.Bytes())
		}
	}
}

func TestWriteRefusesWhatIsNoNumber(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		p := sample()
		p.Site.Soils[1].Phi = v
		var b bytes.Buffer
		err := (&Document{Project: p}).Write(&b)
		var pr Problem
		if !errors.As(err, &pr) || pr.Field != "site.soils[1].phi" || b.Len() != 0 {
			t.Errorf("writing phi = %v: %v, %d bytes", v, err, b.Len())
		}
	}
}

// with puts text into the file of the sample behind the first place where
// after stands.
func with(t *testing.T, after, text string) string {
	t.Helper()
	file := write(t, &Document{Project: sample()})
	if !strings.Contains(file, after) {
		t.Fatalf("the sample does not hold %q", after)
	}
	return strings.Replace(file, after, after+text, 1)
}

func TestUnknownFieldsAreReportedAndKept(t *testing.T) {
	for _, c := range []struct{ name, after, text, field string }{
		{"top", `"format": 1,`, ` "weather": {"wind": [1, 2.50, "x"], "sun": null},`, "weather"},
		{"deep", `"drain": {`, ` "fabric": true,`, "water_defence.drain.fabric"},
		{"list item with id", `"id": "stone",`, ` "colour": "grey",`, "site.soils[1].colour"},
		{"list item without id", `"benches": [` + "\n      {", ` "mark": 1e3,`, "cut.benches[0].mark"},
		{"other spelling", `"format": 1,`, ` "Title": "x",`, "Title"},
		{"odd key", `"format": 1,`, ` "a\"b\u00e4": [],`, "a\"bä"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, ps := read(t, with(t, c.after, c.text))
			found := at(ps, c.field)
			if len(found) != 1 || found[0].Hard || len(ps) != 1 {
				t.Fatalf("problems %v, want a soft one for %s", ps, c.field)
			}
			if !reflect.DeepEqual(d.Project, sample()) {
				t.Error("the unknown field changed the project")
			}
			text := write(t, d)
			d2, ps2 := read(t, text)
			if len(at(ps2, c.field)) != 1 || at(ps2, c.field)[0] != found[0] {
				t.Errorf("after writing: %v", ps2)
			}
			if again := write(t, d2); again != text {
				t.Error("the second writing differs from the first")
			}
		})
	}
}

func TestUnknownFieldsGoWithTheirItem(t *testing.T) {
	d, _ := read(t, with(t, `"id": "stone",`, ` "colour": "grey",`))
	p := d.Project.Clone()
	p.Site.Soils = []Soil{p.Site.Soils[1], p.Site.Soils[0], {ID: "new"}}
	d.Project = p
	text := write(t, d)
	root, err := parseTree([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"grey", "", ""} {
		got := ""
		if n := root.get("site").get("soils").kids[i].get("colour"); n != nil {
			got = n.text
		}
		if got != want {
			t.Errorf("soil %d has the colour %q, want %q", i, got, want)
		}
	}
	p = p.Clone()
	p.Site.Soils = p.Site.Soils[1:]
	d.Project = p
	if strings.Contains(write(t, d), "grey") {
		t.Error("the colour of a soil that was taken away is still in the file")
	}
}

func TestReadRefuses(t *testing.T) {
	ok := write(t, &Document{Project: sample()})
	for _, c := range []struct{ name, text, says string }{
		{"nothing", "", "line 1, column 1"},
		{"half a file", ok[:len(ok)/2], "unexpected end"},
		{"a comma too many", "{\n  \"format\": 1,\n  \"title\": \"x\",,\n}", "line 3, column 16"},
		{"letters before the place", "{\n\"format\": 1, \"title\": \"äöü\" x}", "line 2, column 29"},
		{"not a number", `{"format": 1, "box": {"level": NaN}}`, "NaN and Inf are not numbers"},
		{"infinite", `{"format": 1, "box": {"level": Infinity}}`, "NaN and Inf are not numbers"},
		{"minus infinite", `{"format": 1, "box": {"level": -Infinity}}`, "NaN and Inf are not numbers"},
		{"too large a number", `{"format": 1, "box": {"level": 1e999}}`, "box.level = 1e999"},
		{"a list", "[]", "not a project file"},
		{"another file", `{"name": "x"}`, "not a project file"},
		{"newer", `{"format": 2}`, "newer than this program"},
		{"half a format", `{"format": 0.5}`, "not the number of a file format"},
		{"negative format", `{"format": -1}`, "not the number of a file format"},
		{"format as text", `{"format": "1"}`, "not the number of a file format"},
		{"text for a number", "{\"format\": 1,\n \"box\": {\"level\": \"98\"}}", `line 2, column 19: box.level = "98"`},
		{"number for a text", `{"format": 1, "title": 3}`, "title = 3: has the wrong form (allowed: a text)"},
		{"object for a list", `{"format": 1, "stages": {}}`, "allowed: a list"},
		{"list for an object", `{"format": 1, "site": []}`, "allowed: an object"},
		{"null for a number", `{"format": 1, "box": {"level": null}}`, "allowed: a number"},
		{"half a purlin", `{"format": 1, "strengthening": {"ribs": {"purlins": 1.5}}}`, "a whole number"},
		{"three coordinates", `{"format": 1, "site": {"ground": [[1, 2, 3]]}}`, "site.ground[0] = a list of 3"},
		{"text coordinate", `{"format": 1, "site": {"ground": [[1, "2"]]}}`, "a point of two numbers"},
		{"twice the same key", `{"format": 1, "title": "a", "title": "b"}`, "stands twice"},
		{"too deep", `{"format": 1, "x": ` + strings.Repeat("[", 100) + strings.Repeat("]", 100) + "}", "nested more than"},
		{"far too deep", strings.Repeat("[", 1<<20), "depth"},
		{"out of range", strings.Replace(ok, `"phi": 30`, `"phi": 70`, 1), "site.soils[0].phi = 70 degrees"},
		{"two of one id", strings.Replace(ok, `"id": "stone"`, `"id": "till"`, 1), "site.soils[1].id"},
		{"something behind", ok + "x", "after top-level value"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, _, err := Read(strings.NewReader(c.text))
			if err == nil || d != nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("error %v, want %q", err, c.says)
			}
		})
	}
}

func TestReadTakesAByteOrderMark(t *testing.T) {
	read(t, "\xef\xbb\xbf"+write(t, &Document{Project: sample()}))
}

// endless gives spaces for ever.
type endless struct{ n int }

func (e *endless) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = ' '
	}
	e.n += len(b)
	return len(b), nil
}

func TestReadStopsAtTheLargestSize(t *testing.T) {
	e := new(endless)
	if _, _, err := Read(e); err == nil || !strings.Contains(err.Error(), "larger than 32 MB") {
		t.Errorf("error %v", err)
	}
	if e.n > MaxFile+1<<20 {
		t.Errorf("%d bytes were read", e.n)
	}
	if _, _, err := Read(io.MultiReader(strings.NewReader("{"), badReader{})); err == nil || !strings.Contains(err.Error(), "the cable") {
		t.Errorf("a failing reader gives %v", err)
	}
}

type badReader struct{}

func (badReader) Read([]byte) (int, error) { return 0, errors.New("the cable is out") }

func FuzzRead(f *testing.F) {
	for _, p := range []*Project{sample(), New()} {
		var b bytes.Buffer
		if err := (&Document{Project: p}).Write(&b); err != nil {
			f.Fatal(err)
		}
		f.Add(b.Bytes())
	}
	f.Add([]byte(`{"format": 0, "site": {"surcharges": [{"id": "a"}]}, "x": [{"y": 1.50}, null]}`))
	f.Add([]byte(`{"format": 1, "site": {"ground": [[0, 1], [1, 2]], "soils": [{"id": "a", "new": [[]]}]}, "stages": null}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, _, err := Read(bytes.NewReader(data))
		if err != nil {
			return
		}
		var first, second bytes.Buffer
		if err := d.Write(&first); err != nil {
			t.Fatalf("what was read does not write: %v", err)
		}
		d2, _, err := Read(bytes.NewReader(first.Bytes()))
		if err != nil {
			t.Fatalf("what was written does not read: %v\n%s", err, first.Bytes())
		}
		if !reflect.DeepEqual(d.Project, d2.Project) {
			t.Fatalf("read back\n%+v\nwrote\n%+v", d2.Project, d.Project)
		}
		if err := d2.Write(&second); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("the second writing differs (%v):\n%s\n%s", err, first.Bytes(), second.Bytes())
		}
	})
}

func benchDocument() *Document {
	p := sample()
	p.Site.Ground = nil
	for i := range 1000 {
		p.Site.Ground = append(p.Site.Ground, Vec{float64(i) / 4, 100 + math.Sin(float64(i)/100)})
	}
	p.Site.Strata, p.Site.Rock = p.Site.Strata[:1], nil
	return &Document{Project: p}
}

func BenchmarkWrite(b *testing.B) {
	d := benchDocument()
	for b.Loop() {
		if err := d.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	var buf bytes.Buffer
	if err := benchDocument().Write(&buf); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(buf.Len()))
	for b.Loop() {
		if _, _, err := Read(bytes.NewReader(buf.Bytes())); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleSyntaxError() {
	_, _, err := Read(strings.NewReader("{\n  \"format\": 1,\n  \"title\": 'x'\n}"))
	fmt.Println(err)
	// Output: reading the project: line 3, column 12: invalid character '\'' looking for beginning of value
}
