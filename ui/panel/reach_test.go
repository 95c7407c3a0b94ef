package panel

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/ui/units"
)

// unreached are the fields of a project that no page shows, each with the
// reason.
var unreached = map[string]string{
	"format":                     "the version of the file; the program writes it",
	"display.units":              "the buttons m and ft above the drawing change it",
	"site.soils[].id":            "names a soil inside the file; the page shows its name",
	"site.soils[].uscs":          "the class that a soil was taken from the table by; another class is another soil",
	"site.soils[].set_by_user[]": "written when a value is typed, and shown as “yours”",
	"site.strata[].id":           "names a layer inside the file; the page shows its number",
	"site.surcharges[].id":       "names a load inside the file; the page shows its name",
	"box.openings[].id":          "names an opening inside the file; the page shows its number",
	"stages[].id":                "names a stage inside the file; the page shows its name",
}

// leaf is one value of a project: where it is and how it is changed.
type leaf struct {
	path   string
	change func(p *model.Project)
}

// leaves walks through all values of a project, of each list the first item
// that has them.
func leaves(at func(p *model.Project) reflect.Value, sample reflect.Value, path string) []leaf {
	var out []leaf
	switch sample.Kind() {
	case reflect.Struct:
		for i := range sample.NumField() {
			name, _, _ := strings.Cut(sample.Type().Field(i).Tag.Get("json"), ",")
			if path != "" {
				name = path + "." + name
			}
			out = append(out, leaves(func(p *model.Project) reflect.Value { return at(p).Field(i) }, sample.Field(i), name)...)
		}
	case reflect.Pointer:
		if sample.IsNil() {
			return nil
		}
		return leaves(func(p *model.Project) reflect.Value { return at(p).Elem() }, sample.Elem(), path)
	case reflect.Slice:
		for k := range sample.Len() {
			out = append(out, leaves(func(p *model.Project) reflect.Value { return at(p).Index(k) }, sample.Index(k), path+"[]")...)
		}
	case reflect.Array:
		for k := range sample.Len() {
			out = append(out, leaves(func(p *model.Project) reflect.Value { return at(p).Index(k) }, sample.Index(k), fmt.Sprintf("%s(%d)", path, k))...)
		}
	case reflect.Map:
		return []leaf{{path + ".*", func(p *model.Project) {
			m := at(p)
			for _, k := range m.MapKeys() {
				m.SetMapIndex(k, reflect.ValueOf(m.MapIndex(k).Float()+0.25))
			}
		}}}
	default:
		return []leaf{{path, func(p *model.Project) { alter(at(p)) }}}
	}
	return out
}

// alter changes one value so that whoever shows it shows something else.
func alter(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(v.Float()*1.5 + 0.25)
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	default:
		panic("panel: no way to alter " + v.String())
	}
}

// crowded is a project in which every list holds something and every value
// that may be missing is there.
func crowded(t *testing.T, b *bench) *model.Project {
	t.Helper()
	p := b.project().Clone()
	level := 99.5
	p.Site.Soils[0].Sieves = []model.Sieve{{Size: 0.075, Passes: 0.5}, {Size: 2, Passes: 0.9}}
	p.Site.Rock = []model.Vec{{0, 90}, {30, 92}}
	p.Site.Water.DesignHigh, p.Site.Water.Seasonal = &level, &level
	p.Site.Water.Observed = []model.WaterPoint{{Pos: model.Vec{5, 98}, Season: "March", Note: "ditch"}}
	y := 1.5
	p.Site.Surcharges = []model.Surcharge{
		{ID: "a", Name: "Hay", Kind: model.AreaLoad, X1: 12, X2: 15, Y1: &y, Y2: &y, Q: 5},
		{ID: "m", Name: "Loader", Kind: model.Vehicle, X1: 12, Y1: &y, Vehicle: b.tables.VehicleIDs()[0], Heading: "up"},
	}
	p.Box.Openings = []model.Opening{{ID: "o", Wall: "left", From: 1, Width: 0.9, Sill: 1, Height: 0.6, Framed: true, Bar: "shs60x4"}}
	p.Cut.ByStratum = map[string]float64{p.Site.Strata[0].ID: 1}
	p.Cut.Benches = []model.Bench{{Height: 1.2, Width: 1}}
	p.Fill.Line = []model.Vec{{0, 100}, {30, 108}}
	p.Fill.Roof = []model.RoofLayer{{Kind: "foam", Name: "Foam", Thickness: 0.05, Gamma: 0.3, Grade: "EPS19"}}
	p.Strengthening.Wales = []model.Wale{{Height: 1, Section: "shs75x5"}}
	p.Strengthening.BackWales = []model.Wale{{Height: 1, Section: "shs75x5"}}
	lumber, _ := b.tables.Lumber(b.tables.LumberIDs()[0])
	p.Strengthening.Stud = model.StudSkin{Species: lumber.Species, Size: lumber.Size, Spacing: 0.4, Plywood: b.tables.PlywoodIDs()[0]}
	p.Strengthening.Cavity = model.Cavity{Width: 0.1, Fill: "gravel"}
	p.Strengthening.RoofSlab = model.RoofSlab{Thickness: 0.15, CrossBeam: ribBar, Post: ribBar, EdgeBeam: ribBar}
	p.Strengthening.Ribs.Struts = []model.Strut{{Height: 1, Section: "shs75x5"}}
	p.Defence.Layers = []model.DefenceLayer{{Kind: "coating", Name: "Bitumen", Thickness: 0.002}}
	p.Wings = model.WingWalls{Courses: 3, BlockLength: 1.8, BlockWidth: 0.6, BlockHeight: 0.6, Splay: 45, Length: 3.6, Batter: 5}
	p.Prices = map[string]float64{"Drainage rock, m3": 45}
	p.Sheet = model.Sheet{Owner: "A", Place: "B", DrawnBy: "C", Number: "1", Revision: "A", Date: "2026-01-02", Size: "A3", Notes: "N"}
	p.Stages = p.Stages[len(p.Stages)-1:]
	p.Stages[0].Surcharges = []string{"a"}
	var empty []string
	for _, l := range leaves(func(p *model.Project) reflect.Value { return reflect.ValueOf(p).Elem() }, reflect.ValueOf(p).Elem(), "") {
		empty = append(empty, l.path)
	}
	want := fieldsIn(reflect.TypeFor[model.Project]())
	for _, path := range want {
		found := false
		for _, e := range empty {
			found = found || e == path || strings.HasPrefix(e, path+"(")
		}
		if !found {
			t.Fatalf("the sample holds no %s: fill it in crowded", path)
		}
	}
	return p
}

// fieldsIn lists the paths of all values that a type can hold.
func fieldsIn(t reflect.Type) []string {
	var out []string
	switch t.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
			for _, sub := range fieldsIn(t.Field(i).Type) {
				out = append(out, strings.TrimSuffix(name+"."+sub, "."))
			}
		}
		for i := range out {
			out[i] = strings.ReplaceAll(out[i], ".[]", "[]")
		}
	case reflect.Slice:
		for _, sub := range fieldsIn(t.Elem()) {
			out = append(out, strings.TrimSuffix("[]."+sub, "."))
		}
	case reflect.Map:
		return []string{"*"}
	case reflect.Pointer:
		return fieldsIn(t.Elem())
	default:
		return []string{""}
	}
	return out
}

// shown is what the fields, lists and ticks of a page hold for a project.
func shown(pg *page, p *model.Project) string {
	var out strings.Builder
	for _, r := range pg.make(p) {
		r.show(p, units.Metric)
		for _, e := range entriesOf(r) {
			out.WriteString(e.Text + "\x00")
		}
		switch r := r.(type) {
		case *choice:
			out.WriteString(r.label + "=" + r.sel.Selected + "\x00")
		case *toggle:
			fmt.Fprintf(&out, "%s %v\x00", r.label, r.box.Checked)
		}
	}
	return out.String()
}

// typedPages are the pages of typed values.
func typedPages(b *bench) []*page {
	var out []*page
	for _, pg := range b.pages {
		if pg, ok := pg.(*page); ok {
			out = append(out, pg)
		}
	}
	return out
}

// Every value of a project can be seen and changed on a page: changing it in
// the project changes what a field, a list or a tick of some page holds.
func TestEveryFieldIsOnAPage(t *testing.T) {
	b := newBench(t, right)
	p := crowded(t, b)
	if hard := model.FirstHard(p.Validate()); hard != nil {
		t.Fatal(hard)
	}
	if err := b.desk.Edit("crowd", "", func(q *model.Project) error { *q = *p.Clone(); return nil }); err != nil {
		t.Fatal(err)
	}
	var before []string
	pages := typedPages(b)
	for _, pg := range pages {
		before = append(before, shown(pg, p))
	}
	differs := func(path string, q *model.Project) bool {
		likely := b.nextStep(model.Problem{Field: path}).page // where to look first
		for _, first := range []bool{true, false} {
			for i, pg := range pages {
				if first == (pg.key == likely) && shown(pg, q) != before[i] {
					return true
				}
			}
		}
		return false
	}
	seen := map[string]bool{} // by path, of any item of a list
	for _, l := range leaves(func(p *model.Project) reflect.Value { return reflect.ValueOf(p).Elem() }, reflect.ValueOf(p).Elem(), "") {
		q := p.Clone()
		l.change(q)
		if reflect.DeepEqual(p, q) {
			t.Errorf("%s was not changed", l.path)
		}
		seen[l.path] = seen[l.path] || unreached[l.path] == "" && differs(l.path, q)
	}
	for path, yes := range seen {
		if !yes && unreached[path] == "" {
			t.Errorf("%s is on no page", path)
		}
	}
	for path := range unreached {
		if _, there := seen[path]; !there {
			t.Errorf("%s is listed as on no page and does not exist", path)
		}
	}
}
