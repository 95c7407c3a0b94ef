package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/units"
)

func testFile(name string) string {
	return filepath.Join("..", "..", "testdata", name+".hillset")
}

var (
	asDrawn  = testFile("potato-store-as-drawn")
	putRight = testFile("potato-store-put-right")
)

// call runs the command and gives its status and what it printed.
func call(args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

// altered writes a changed copy of the demonstration project.
func altered(t *testing.T, change func(p *model.Project)) string {
	t.Helper()
	doc, _, err := model.ReadFile(putRight)
	if err != nil {
		t.Fatal(err)
	}
	change(doc.Project)
	path := filepath.Join(t.TempDir(), "changed.hillset")
	if err := doc.WriteFile(path); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestExitStatus(t *testing.T) {
	garbage := filepath.Join(t.TempDir(), "garbage.hillset")
	if err := os.WriteFile(garbage, []byte("{ not a project"), 0o600); err != nil {
		t.Fatal(err)
	}
	noGround := altered(t, func(p *model.Project) { p.Site.Ground = nil })
	pdf := filepath.Join(t.TempDir(), "out.pdf")
	for _, c := range []struct {
		name   string
		args   []string
		status int
		says   string // on either stream
	}{
		{"within", []string{"check", putRight}, 0, "0 beyond limits"},
		{"beyond", []string{"check", asDrawn}, 3, "beyond limits"},
		{"beyond, as JSON", []string{"check", "--json", asDrawn}, 3, `"beyond limits"`},
		{"flags behind the file", []string{"check", asDrawn, "--json", "--units", "ft"}, 3, "psf"},
		{"no file", []string{"check"}, 2, "one project file is needed"},
		{"two files", []string{"check", asDrawn, putRight}, 2, "one project file is needed"},
		{"missing file", []string{"check", "nowhere.hillset"}, 2, "nowhere.hillset"},
		{"garbage", []string{"check", garbage}, 2, "garbage.hillset"},
		{"nothing to compute from", []string{"check", noGround}, 2, "site.ground"},
		{"unknown flag", []string{"check", asDrawn, "--fast"}, 2, "fast"},
		{"unknown units", []string{"check", asDrawn, "--units", "cubits"}, 2, "allowed: m, ft"},
		{"unknown command", []string{"draw"}, 2, "draw"},
		{"no command", nil, 2, "Exit status"},
		{"help", []string{"--help"}, 0, "Exit status"},
		{"help of a command", []string{"check", "--help"}, 0, "Exit status"},
		{"version", []string{"version"}, 0, version.Text},
		{"burial", []string{"burial", asDrawn}, 0, "Well-graded gravel"},
		{"burial in feet", []string{"burial", asDrawn, "--units", "ft"}, 0, "'-"},
		{"burial, unknown flag", []string{"burial", asDrawn, "--all"}, 2, "all"},
		{"burial, no file", []string{"burial"}, 2, "one project file is needed"},
		{"curves", []string{"curves", asDrawn, "--only", "years"}, 0, "YEARS SINCE THE BOX WAS SET"},
		{"curves in feet", []string{"curves", putRight, "--only", "cover", "--units", "ft"}, 0, "as drawn"},
		{"curves as JSON", []string{"curves", putRight, "--only", "distance", "--json"}, 0, `"at_least": true`},
		{"curves, unknown question", []string{"curves", asDrawn, "--only", "depth"}, 2, "allowed: cover, backfill"},
		{"curves, unknown units", []string{"curves", asDrawn, "--units", "cubits"}, 2, "allowed: m, ft"},
		{"curves, nothing to compute", []string{"curves", noGround}, 0, "Not solved"},
		{"advise, nothing to mend", []string{"advise", putRight}, 0, "every check that was made is within limits"},
		{"advise, nothing to mend, as JSON", []string{"advise", putRight, "--json"}, 0, `"remedies": []`},
		{"advise, nothing to compute from", []string{"advise", noGround}, 2, "site.ground"},
		{"advise, unknown flag", []string{"advise", asDrawn, "--fast"}, 2, "fast"},
		{"advise, no file", []string{"advise"}, 2, "one project file is needed"},
		{"sheets", []string{"sheets", asDrawn, "-o", pdf}, 0, pdf},
		{"sheets without -o", []string{"sheets", asDrawn}, 2, "-o"},
		{"sheets, unknown size", []string{"sheets", asDrawn, "-o", pdf, "--size", "A9"}, 2, "A4, A3, letter, tabloid"},
		{"sheets, unknown water", []string{"sheets", asDrawn, "-o", pdf, "--water", "waves"}, 2, "line, flow, heads, mesh"},
		{"sheets, unknown stage", []string{"sheets", asDrawn, "-o", pdf, "--stage", "nonsense"}, 2, "natural"},
		{"sheets, station beyond the hill", []string{"sheets", asDrawn, "-o", pdf, "--station", "900"}, 2, "station"},
		{"sheets, station not a length", []string{"sheets", asDrawn, "-o", pdf, "--station", "far"}, 2, "--station"},
		{"sheets, no such folder", []string{"sheets", asDrawn, "-o", filepath.Join(t.TempDir(), "no", "x.pdf")}, 1, "x.pdf"},
		{"sheets, nothing to draw", []string{"sheets", noGround, "-o", pdf}, 2, "ground"},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, errs := call(c.args...)
			if status != c.status {
				t.Errorf("status %d, want %d\n%s%s", status, c.status, out, errs)
			}
			if !strings.Contains(out+errs, c.says) {
				t.Errorf("does not say %q:\n%s%s", c.says, out, errs)
			}
			if status == statusInput && out != "" && c.name != "nothing to compute from" {
				t.Errorf("bad input prints on the output: %s", out)
			}
		})
	}
}

// full is an output that takes nothing.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

func TestFullDisk(t *testing.T) {
	var errs bytes.Buffer
	if s := run([]string{"check", asDrawn}, full{}, &errs); s != statusFailed || !strings.Contains(errs.String(), "the disk is full") {
		t.Errorf("status %d, %s", s, errs.String())
	}
}

func result(t *testing.T, path string) *assess.Result {
	t.Helper()
	doc, _, err := model.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := assess.Run(context.Background(), doc.Project, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	if err := assess.Hillside(context.Background(), r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	return r
}

// columns are the fields of a printed line: two blanks or more part them.
var columns = regexp.MustCompile(` {2,}`)

func TestListNamesEveryCheck(t *testing.T) {
	for _, path := range []string{asDrawn, putRight} {
		_, out, _ := call("check", path)
		var made, not [][]string
		for _, l := range strings.Split(out, "\n") {
			switch f := columns.Split(l, -1); {
			case len(f) >= 7 && f[0] != "RATIO":
				made = append(made, f)
			case len(f) == 3:
				not = append(not, f)
			}
		}
		for _, c := range result(t, path).Checks {
			list, want := &made, []string{ratio(c.Worst()), c.Verdict().String(), c.Part, c.Title}
			if c.Verdict() == check.NotChecked {
				list, want = &not, []string{c.Part, c.Title, units.Fill(c.Missing, c.MissingQ, units.Metric)}
				if c.Demand.Kind != quantity.None { // what is asked for is known
					want[2] += "; asked for: " + units.FormatQ(c.Demand, units.Metric)
				}
			}
			if len(*list) == 0 {
				t.Fatalf("%s: the list ends before %v", path, want)
			}
			if got := (*list)[0][:len(want)]; !slices.Equal(got, want) {
				t.Errorf("%s: line %v, want %v", path, got, want)
			}
			*list = (*list)[1:]
		}
		if len(made)+len(not) > 0 {
			t.Errorf("%s: %d lines too many", path, len(made)+len(not))
		}
		if strings.Contains(strings.ToLower(out), "safe") {
			t.Errorf("%s: the list calls something safe", path)
		}
	}
}

func TestAllShowsTheWorking(t *testing.T) {
	_, short, _ := call("check", asDrawn)
	_, long, _ := call("check", asDrawn, "--all")
	for _, c := range result(t, asDrawn).Checks {
		if c.Source != "" && c.Verdict() != check.NotChecked && !strings.Contains(long, "source: "+c.Source) {
			t.Errorf("%s: the source is not shown", c.ID)
		}
	}
	if strings.Contains(short, "source:") || strings.Contains(long, "{0}") {
		t.Error("sources without --all, or a remedy without its values")
	}
}

func TestJSONHoldsTheNumbers(t *testing.T) {
	for _, path := range []string{asDrawn, putRight} {
		_, out, _ := call("check", "--json", path)
		var got struct {
			Checks []struct {
				ID, Part, Verdict, Missing string
				Ratio                      *float64
				Demand                     *struct{ SI *float64 }
			}
			Beyond int `json:"beyond_limits"`
			Not    int `json:"not_checked"`
		}
		if err := json.Unmarshal([]byte(out), &got); err != nil {
			t.Fatal(err)
		}
		want := result(t, path).Checks
		if len(got.Checks) != len(want) {
			t.Fatalf("%d checks, want %d", len(got.Checks), len(want))
		}
		beyond, not := 0, 0
		for i, c := range want {
			g := got.Checks[i]
			if g.ID != c.ID || g.Part != c.Part || g.Verdict != c.Verdict().String() || g.Missing != units.Fill(c.Missing, c.MissingQ, units.Metric) {
				t.Errorf("check %d is %+v, want %s of %s", i, g, c.ID, c.Part)
			}
			if c.Verdict() == check.Beyond {
				beyond++
			}
			if c.Verdict() == check.NotChecked {
				not++
				continue
			}
			if g.Demand == nil || !same(g.Demand.SI, c.Demand.Val) || !same(g.Ratio, c.Ratio) {
				t.Errorf("%s of %s: other numbers", c.ID, c.Part)
			}
		}
		if got.Beyond != beyond || got.Not != not {
			t.Errorf("counts %d and %d, want %d and %d", got.Beyond, got.Not, beyond, not)
		}
	}
}

// A check that could not be made for want of a pump still says how much water
// there is to pump: in the list, in the working and in JSON.
func TestUncheckedSaysHowMuch(t *testing.T) {
	r := *result(t, putRight)
	c := check.Unchecked("pump", "Pump", "sump", "no pump is given")
	c.Demand = quantity.Of("Q", 2e-3, quantity.Flow)
	c.Working = []check.Line{{Text: "What comes", Formula: "Q = 2·q", Result: c.Demand, Terms: []quantity.Q{quantity.Of("q", 1e-3, quantity.Flow)}}}
	r.Checks = append(slices.Clone(r.Checks), c)
	for all, want := range map[bool]string{false: "no pump is given; asked for: 2.00 L/s", true: "What comes: Q = 2·q = 2·(1.00 L/s) = 2.00 L/s"} {
		if text := list(&r, units.Metric, all); !strings.Contains(text, want) {
			t.Errorf("%q is not in the list (all: %v)", want, all)
		}
	}
	got := report(&r, units.Metric).Checks
	if j := got[len(got)-1]; j.Demand == nil || j.Demand.SI == nil || *j.Demand.SI != 2e-3 || j.Capacity != nil || j.Ratio != nil {
		t.Errorf("%+v", j)
	}
}

func same(got *float64, want float64) bool {
	if math.IsNaN(want) || math.IsInf(want, 0) {
		return got == nil
	}
	return got != nil && *got == want
}

func TestNumberThatDoesNotExist(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if number(v) != nil {
			t.Errorf("%g is written as a number", v)
		}
	}
	if ratio(math.Inf(1)) != "unbounded" || ratio(0.955) != "0.95" && ratio(0.955) != "0.96" {
		t.Error("ratios in words")
	}
}

func TestSheetsTakeTheirOptions(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		name, box string
		args      []string
	}{
		{"A3 landscape", "1190.55 841.89", []string{"--size", "a3"}},
		{"A4 portrait", "595.28 841.89", []string{"--size", "A4", "--portrait"}},
		{"letter", "792.00 612.00", []string{"--size", "letter", "--units", "ft", "--station", "35'"}},
		{"a stage", "1224.00 792.00", []string{"--size", "tabloid", "--stage", "cut"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(dir, c.name+".pdf")
			if status, out, errs := call(append([]string{"sheets", putRight, "-o", path}, c.args...)...); status != statusWithin {
				t.Fatalf("status %d: %s%s", status, out, errs)
			}
			b, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.HasPrefix(b, []byte("%PDF-")) || !bytes.Contains(b, []byte("[0 0 "+c.box+"]")) {
				t.Errorf("no page of %s points", c.box)
			}
			if !bytes.Contains(b, []byte("/Producer")) {
				t.Error("the file does not name its program")
			}
		})
	}
}

func TestNoWindowToolkitInside(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, dep := range strings.Fields(string(out)) {
		if strings.HasPrefix(dep, "fyne.io/") || strings.Contains(dep, "go-gl/gl") || dep == "hillset/ui/panel" || dep == "hillset/ui/desk" {
			t.Errorf("imports %s", dep)
		}
	}
	if !strings.Contains(string(out), "hillset/engine/assess") {
		t.Error("the list of imports is not that of this command")
	}
}
