package desk

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"
	"time"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

// loop stands in for the goroutine of the user interface: what is posted waits
// until the test runs it.
type loop struct {
	mu   sync.Mutex
	jobs []func()
	more chan struct{}
}

func newLoop() *loop { return &loop{more: make(chan struct{}, 1)} }

func (l *loop) post(f func()) {
	l.mu.Lock()
	l.jobs = append(l.jobs, f)
	l.mu.Unlock()
	select {
	case l.more <- struct{}{}:
	default:
	}
}

// run does what is waiting now.
func (l *loop) run() {
	for {
		l.mu.Lock()
		jobs := l.jobs
		l.jobs = nil
		l.mu.Unlock()
		if len(jobs) == 0 {
			return
		}
		for _, f := range jobs {
			f()
		}
	}
}

// until runs jobs until done says so; a test that waits longer has failed.
func (l *loop) until(t *testing.T, what string, done func() bool) {
	t.Helper()
	limit := time.After(20 * time.Second)
	for {
		l.run()
		if done() {
			return
		}
		select {
		case <-l.more:
		case <-time.After(5 * time.Millisecond): // what is waited for may be a file
		case <-limit:
			t.Fatalf("waited in vain until %s", what)
		}
	}
}

func open(t *testing.T, o Options) (*Desk, *loop) {
	t.Helper()
	l := newLoop()
	o.Post = l.post
	d := New(o)
	t.Cleanup(func() {
		if err := d.Discard(); err != nil {
			t.Error(err)
		}
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	})
	return d, l
}

func retitle(s string) func(*model.Project) error {
	return func(p *model.Project) error { p.Title = s; return nil }
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestEditIsOneStep(t *testing.T) {
	d, l := open(t, Options{})
	before := d.Project()
	must(t, d.Edit("Rename", "", retitle("Store")))
	if d.Project().Title != "Store" || before.Title == "Store" {
		t.Error("the edit did not make a snapshot of its own")
	}
	if what, ok := d.CanUndo(); what != "Rename" || !ok || !d.Dirty() {
		t.Errorf("CanUndo = %q, %v; dirty %v", what, ok, d.Dirty())
	}
	if what, ok := d.Undo(); what != "Rename" || !ok || d.Project() != before || d.Dirty() {
		t.Errorf("Undo = %q, %v; dirty %v", what, ok, d.Dirty())
	}
	if _, ok := d.Undo(); ok {
		t.Error("there is nothing more to undo")
	}
	if what, ok := d.CanRedo(); what != "Rename" || !ok {
		t.Errorf("CanRedo = %q, %v", what, ok)
	}
	if what, ok := d.Redo(); what != "Rename" || !ok || d.Project().Title != "Store" {
		t.Errorf("Redo = %q, %v", what, ok)
	}
	if _, ok := d.Redo(); ok {
		t.Error("there is nothing more to redo")
	}
	l.run()
}

func TestEditRefuses(t *testing.T) {
	d, _ := open(t, Options{})
	before := d.Project()
	err := d.Edit("Batter", "", func(p *model.Project) error { p.Cut.Batter = -1; return nil })
	var pr model.Problem
	if !errors.As(err, &pr) || pr.Field != "cut.batter" {
		t.Errorf("a batter of -1 gives %v", err)
	}
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		if err := d.Edit("Level", "", func(p *model.Project) error { p.Box.Level = v; return nil }); !errors.As(err, &pr) {
			t.Errorf("a level of %v gives %v", v, err)
		}
	}
	own := errors.New("no such soil")
	if err := d.Edit("x", "", func(p *model.Project) error { p.Title = "x"; return own }); err != own {
		t.Errorf("error %v", err)
	}
	must(t, d.Edit("nothing", "", func(*model.Project) error { return nil }))
	if _, ok := d.CanUndo(); ok || d.Project() != before || d.Dirty() {
		t.Error("an edit that was refused or empty left a trace")
	}
}

func TestGestureIsOneStep(t *testing.T) {
	d, _ := open(t, Options{})
	start := d.Project()
	move := func(x float64) {
		must(t, d.Edit("Move box", "box", func(p *model.Project) error { p.Box.Front = x; return nil }))
	}
	for x := 1.0; x < 50; x++ {
		move(x)
	}
	d.EndGesture()
	move(60)
	must(t, d.Edit("Rename", "", retitle("a")))
	must(t, d.Edit("Rename", "", retitle("b")))
	steps := 0
	for _, ok := d.Undo(); ok; _, ok = d.Undo() {
		steps++
	}
	if steps != 4 || d.Project() != start {
		t.Errorf("%d steps led back to %v; want 4 steps to the start", steps, d.Project() == start)
	}
	move(1)
	must(t, d.Edit("Level", "level", func(p *model.Project) error { p.Box.Level = 3; return nil }))
	move(2)
	if n := len(d.undo); n != 3 {
		t.Errorf("two gestures that alternate are %d steps, want 3", n)
	}
	d.EndGesture()
	d.Undo()
	move(5)
	if n := len(d.undo); n != 3 {
		t.Errorf("an edit after an undo belongs to no earlier gesture: %d steps", n)
	}
	if _, ok := d.CanRedo(); ok {
		t.Error("an edit leaves nothing to redo")
	}
}

func TestGestureBackToItsStartLeavesNoStep(t *testing.T) {
	d, _ := open(t, Options{})
	for _, x := range []float64{1, 2, 0} {
		must(t, d.Edit("Move box", "box", func(p *model.Project) error { p.Box.Front = x; return nil }))
	}
	d.EndGesture()
	if _, ok := d.CanUndo(); ok || d.Dirty() {
		t.Error("a drag there and back counts as a change")
	}
}

// Undo of any row of edits restores the start, and redo the end.
func TestUndoOfAnyEditsRestoresTheStart(t *testing.T) {
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 1))
		d, _ := open(t, Options{})
		must(t, d.Edit("Ground", "", func(p *model.Project) error {
			p.Site.Ground = []model.Vec{{0, 100}, {10, 104}, {20, 109}}
			return nil
		}))
		start, startCopy := d.Project(), d.Project().Clone()
		base := len(d.undo)
		for range 60 {
			randomEdit(t, d, r)
		}
		d.EndGesture()
		end := d.Project().Clone()
		steps := 0
		for len(d.undo) > base {
			d.Undo()
			steps++
		}
		if d.Project() != start || !reflect.DeepEqual(start, startCopy) {
			t.Fatalf("seed %d: the start was not restored, or was changed", seed)
		}
		for range steps {
			d.Redo()
		}
		if !reflect.DeepEqual(d.Project(), end) {
			t.Fatalf("seed %d: the end was not restored", seed)
		}
	}
}

func randomEdit(t *testing.T, d *Desk, r *rand.Rand) {
	t.Helper()
	switch r.IntN(8) {
	case 0:
		must(t, d.Edit("Add point", "", func(p *model.Project) error {
			g := p.Site.Ground
			p.Site.Ground = append(g, model.Vec{g[len(g)-1][0] + 1, 100 + r.Float64()})
			return nil
		}))
	case 1, 2:
		must(t, d.Edit("Move point", "point", func(p *model.Project) error {
			p.Site.Ground[r.IntN(len(p.Site.Ground))][1] += r.Float64()
			return nil
		}))
	case 3:
		must(t, d.Edit("Water", "", func(p *model.Project) error {
			v := r.Float64() * 100
			p.Site.Water.DesignHigh = &v
			return nil
		}))
	case 4:
		must(t, d.Edit("Price", "", func(p *model.Project) error {
			if p.Prices == nil {
				p.Prices = map[string]float64{}
			}
			p.Prices[string(rune('a'+r.IntN(5)))] = r.Float64()
			return nil
		}))
	case 5:
		if d.Edit("Bad", "point", func(p *model.Project) error { p.Site.Ground[0][1] = math.NaN(); return nil }) == nil {
			t.Fatal("NaN was taken")
		}
	case 6:
		d.EndGesture()
	case 7:
		if n := r.IntN(3); n > 0 {
			d.EndGesture() // undo in mid-gesture is tested elsewhere
			must(t, d.Edit("Stage", "", func(p *model.Project) error {
				p.Stages[n].Years = r.Float64()
				p.Stages = p.Stages[:len(p.Stages):len(p.Stages)]
				return nil
			}))
		}
	}
}

func TestUnitsAreNoStep(t *testing.T) {
	d, l := open(t, Options{})
	must(t, d.Edit("Rename", "", retitle("a")))
	var kinds []EventKind
	l.run()
	d.Listen(func(e Event) { kinds = append(kinds, e.Kind) })
	d.SetUnits(units.US)
	l.run()
	if d.Units() != units.US || d.Project().Display.Units != model.US || !reflect.DeepEqual(kinds, []EventKind{ViewChanged, FileChanged}) {
		t.Errorf("units %v, events %v", d.Units(), kinds)
	}
	d.Undo()
	if d.Units() != units.US || d.Project().Title == "a" {
		t.Error("undo brought the units back")
	}
	if !d.Dirty() {
		t.Error("the units are stored in the file, so switching them makes it dirty")
	}
	d.SetUnits(units.Metric)
	if d.Dirty() {
		t.Error("back in the units of the file nothing is left to save")
	}
}

func TestView(t *testing.T) {
	d, l := open(t, Options{})
	l.run()
	n := 0
	remove := d.Listen(func(e Event) {
		if e.Kind == ViewChanged {
			n++
		}
	})
	if d.StageID() != "cover" {
		t.Errorf("the first view is of stage %q", d.StageID())
	}
	must(t, d.SetStage("cut"))
	must(t, d.SetStage("cut"))
	must(t, d.SetStation(4.5))
	l.run()
	if d.StageID() != "cut" || d.Station() != 4.5 || n != 2 {
		t.Errorf("stage %q, station %v, %d events", d.StageID(), d.Station(), n)
	}
	if d.SetStage("lunch") == nil || d.SetStation(math.NaN()) == nil || d.SetStation(math.Inf(1)) == nil {
		t.Error("a stage or station that cannot be was taken")
	}
	must(t, d.Edit("Stages", "", func(p *model.Project) error { p.Stages = p.Stages[:1]; return nil }))
	if d.StageID() != "natural" || d.Dirty() != true {
		t.Errorf("stage %q after it was taken away", d.StageID())
	}
	must(t, d.Edit("Stages", "", func(p *model.Project) error { p.Stages = nil; return nil }))
	if d.StageID() != "" {
		t.Errorf("stage %q of a project without stages", d.StageID())
	}
	remove()
	n = 0
	must(t, d.SetStation(5))
	l.run()
	if n != 0 {
		t.Error("a listener that left still hears")
	}
}

func TestStationStartsInTheMiddleOfTheBox(t *testing.T) {
	d, l := open(t, Options{Assess: func(_ context.Context, p *model.Project) (*assess.Result, error) {
		long := &section.View{Long: true, HasBox: true, Box: geom.Rect{Min: geom.Vec{2, 0}, Max: geom.Vec{8, 3}}}
		return &assess.Result{Project: p, Views: []*section.View{nil, {Long: true}, long}}, nil
	}})
	if d.Station() != d.Project().Box.Front {
		t.Errorf("station %v without a result", d.Station())
	}
	l.until(t, "there is a result", d.Fresh)
	if d.Station() != 5 {
		t.Errorf("station %v, want the middle of 2 to 8", d.Station())
	}
}

func TestEventsComeThroughPost(t *testing.T) {
	d, l := open(t, Options{})
	l.run()
	heard := 0
	d.Listen(func(e Event) { heard++ })
	must(t, d.Edit("Rename", "", retitle("a")))
	if heard != 0 {
		t.Error("an event came before it was posted")
	}
	l.run()
	if heard == 0 {
		t.Error("no event came")
	}
}
