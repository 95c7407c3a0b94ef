package desk

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/water"
	"hillset/ui/units"
)

func plainRun(_ context.Context, p *model.Project) (*assess.Result, error) {
	return &assess.Result{Project: p}, nil
}

func TestEveryChangeIsAssessed(t *testing.T) {
	d, l := open(t, Options{Assess: plainRun})
	l.until(t, "the empty project is assessed", d.Fresh)
	must(t, d.Edit("Rename", "", retitle("a")))
	if d.Fresh() || d.Result() == nil {
		t.Error("the result of the old snapshot must stay, but not be fresh")
	}
	l.until(t, "the change is assessed", d.Fresh)
	if d.Result().Project != d.Project() {
		t.Error("the result is of another project")
	}
	d.Undo()
	l.until(t, "the undo is assessed", d.Fresh)
	if d.Result().Project != d.Project() {
		t.Error("the result is of another project")
	}
	d.SetUnits(units.US)
	if !d.Fresh() {
		t.Error("the units do not make a result stale")
	}
}

func TestNewerChangeEndsTheOlder(t *testing.T) {
	var ended atomic.Int32
	started := make(chan string, 100)
	d, l := open(t, Options{Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
		started <- p.Title
		if p.Title == "last" {
			return &assess.Result{Project: p}, nil
		}
		<-ctx.Done() // would go on for ever
		ended.Add(1)
		return &assess.Result{Project: p}, ctx.Err()
	}})
	for i := range 5 {
		must(t, d.Edit("Rename", "", retitle(fmt.Sprint(i))))
		if i == 2 {
			<-started // let at least one be worked on
		}
	}
	must(t, d.Edit("Rename", "", retitle("last")))
	l.until(t, "the last one is assessed", d.Fresh)
	if d.Result().Project.Title != "last" || ended.Load() == 0 {
		t.Errorf("result of %q, %d ended", d.Result().Project.Title, ended.Load())
	}
}

// A result that comes although its question has been overtaken is dropped on
// the user's goroutine, where nothing can come between.
func TestStaleResultIsDropped(t *testing.T) {
	d, l := open(t, Options{Assess: plainRun})
	l.until(t, "the empty project is assessed", d.Fresh)
	old := d.Result()
	must(t, d.Edit("Rename", "", retitle("a")))
	stale := &assess.Result{}
	d.engine.deliver(question{seq: d.engine.seq - 1}, stale, nil)
	l.run()
	if d.Result() == stale {
		t.Error("a stale result was taken")
	}
	l.until(t, "the change is assessed", d.Fresh)
	if d.Result() == old || d.Result() == stale {
		t.Error("the fresh result did not come")
	}
}

func TestAnswersComeSecond(t *testing.T) {
	release := make(chan struct{})
	d, l := open(t, Options{
		Assess: plainRun,
		Answers: func(ctx context.Context, r *assess.Result) error {
			select {
			case <-release:
			case <-ctx.Done():
				return ctx.Err()
			}
			r.Depth.Question = "solved"
			return nil
		},
	})
	l.until(t, "there is a first result", d.Fresh)
	first := d.Result()
	if first.Depth.Question != "" {
		t.Error("the first result waited for the answers")
	}
	close(release)
	l.until(t, "the answers are there", func() bool { return d.Result().Depth.Question == "solved" })
	if d.Result() == first || first.Depth.Question != "" {
		t.Error("the answers were written into the result that was handed out")
	}
}

func TestFaultsOfTheEngineAreShown(t *testing.T) {
	d, l := open(t, Options{
		Assess: func(_ context.Context, p *model.Project) (*assess.Result, error) {
			switch p.Title {
			case "panic":
				var r *assess.Result
				return r, fmt.Errorf("%v", r.Checks[3]) // a fault as programs have them
			case "error":
				return nil, errors.New("no equilibrium")
			case "nothing":
				return nil, nil
			}
			return &assess.Result{Project: p}, nil
		},
		Answers: func(_ context.Context, r *assess.Result) error {
			if r.Project.Title == "answers" {
				panic("no answer")
			}
			return nil
		},
	})
	var last error
	d.Listen(func(e Event) {
		if e.Kind == ResultReady && e.Err != nil {
			last = e.Err
		}
	})
	l.until(t, "the empty project is assessed", d.Fresh)
	for _, c := range []struct{ title, says string }{
		{"panic", "fault in the calculation: runtime error"},
		{"error", "no equilibrium"},
		{"nothing", "no result"},
		{"answers", "no answer"},
	} {
		last = nil
		must(t, d.Edit("Rename", "", retitle(c.title)))
		l.until(t, c.title+" is told", func() bool { return last != nil })
		if !strings.Contains(last.Error(), c.says) || d.Err() == nil {
			t.Errorf("%s: %v, Err %v", c.title, last, d.Err())
		}
		if d.Fresh() != (c.title == "answers") {
			t.Errorf("%s: fresh %v", c.title, d.Fresh())
		}
	}
	must(t, d.Edit("Rename", "", retitle("well")))
	l.until(t, "it works again", d.Fresh)
	if d.Err() != nil {
		t.Errorf("the error stayed: %v", d.Err())
	}
}

func TestCloseEndsTheWork(t *testing.T) {
	l := newLoop()
	begun, ended := make(chan struct{}), make(chan struct{})
	d := New(Options{Post: l.post, Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
		close(begun)
		<-ctx.Done()
		close(ended)
		return nil, ctx.Err()
	}})
	<-begun
	must(t, d.Close())
	must(t, d.Close())
	select {
	case <-ended:
	case <-time.After(10 * time.Second):
		t.Error("the work went on after Close")
	}
	l.run()
	if d.Result() != nil {
		t.Error("a result came after Close")
	}
}

// The desk's own share of a step of a drag: clone, check, record, ask.
func BenchmarkEdit(b *testing.B) {
	d := New(Options{Post: func(func()) {}})
	x := 0.0
	for b.Loop() {
		x += 1e-6
		if err := d.Edit("Move box", "box", func(p *model.Project) error { p.Box.Front = x; return nil }); err != nil {
			b.Fatal(err)
		}
	}
}

// The line of the stage looked at comes before the result, and gives way to it;
// one whose question has been overtaken is dropped, and what cannot be computed
// is left to the result to tell.
func TestWaterComesBeforeTheResult(t *testing.T) {
	hold := make(chan struct{})
	line, whole := &water.Field{}, &water.Field{}
	var asked atomic.Value
	fail := atomic.Bool{}
	d, l := open(t, Options{
		Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
			select {
			case <-hold:
			case <-ctx.Done():
			}
			return &assess.Result{Project: p, Water: whole}, ctx.Err()
		},
		Line: func(_ context.Context, p *model.Project, st model.Stage) (*water.Field, error) {
			asked.Store(st.ID)
			if fail.Load() {
				return nil, errors.New("no far level")
			}
			return line, nil
		},
	})
	must(t, d.Edit("Stages", "", func(p *model.Project) error { p.Stages = model.DefaultStages(); return nil }))
	must(t, d.Edit("Rename", "", retitle("a")))
	l.until(t, "the line is there", func() bool { return d.Water() == line })
	if d.Fresh() || asked.Load() != d.StageID() {
		t.Errorf("fresh %v, asked for stage %v, looked at %q", d.Fresh(), asked.Load(), d.StageID())
	}
	hold <- struct{}{}
	l.until(t, "the result is there", d.Fresh)
	if d.Water() != whole {
		t.Error("the water is not that of the result")
	}
	fail.Store(true)
	must(t, d.Edit("Rename", "", retitle("b")))
	if d.Water() != whole {
		t.Error("the old water must stay until newer has come")
	}
	hold <- struct{}{}
	l.until(t, "the result is there although the line failed", d.Fresh)
	if d.Err() != nil || d.Water() != whole {
		t.Errorf("error %v", d.Err())
	}
}
