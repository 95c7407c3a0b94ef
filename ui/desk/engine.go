package desk

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/water"
)

// engine answers the newest question. One question is worked on at a time, so
// that a row of changes does not set all cores against each other; a newer one
// ends the older by its context and takes the place of one that still waits.
// Only box and the questions themselves cross between goroutines.
type engine struct {
	desk   *Desk
	seq    uint64 // of the newest question
	got    uint64 // of the question that result answers
	result *assess.Result
	err    error
	line   *water.Field // of the stage looked at, ahead of result
	lineOf uint64       // the question that line answers
	cancel context.CancelFunc
	box    chan question
}

type question struct {
	ctx     context.Context
	seq     uint64
	project *model.Project
	stage   string // looked at when it was asked
}

// PanicError is a fault of the engine itself, caught so that work is not lost.
type PanicError struct {
	Value any
	Stack []byte
}

func (e *PanicError) Error() string { return fmt.Sprintf("fault in the calculation: %v", e.Value) }

func (e *engine) start(d *Desk) {
	e.desk = d
	e.cancel = func() {}
	if d.opts.Assess == nil {
		return
	}
	e.box = make(chan question, 1)
	go func() {
		for q := range e.box {
			e.work(q)
		}
	}()
}

// ask puts a question in place of all earlier ones; stage is looked at.
func (e *engine) ask(p *model.Project, stage string) {
	e.seq++
	e.cancel()
	if e.box == nil || e.desk.closed {
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	e.cancel = cancel
	select {
	case <-e.box:
	default:
	}
	e.box <- question{ctx, e.seq, p, stage}
}

// forget drops the result of a project that is no longer on the desk.
func (e *engine) forget() { e.result, e.err, e.line = nil, nil, nil }

func (e *engine) stop() {
	e.seq++
	e.cancel()
	if e.box != nil {
		close(e.box)
	}
}

func (e *engine) work(q question) {
	if q.ctx.Err() != nil {
		return
	}
	e.first(q)
	o := &e.desk.opts
	var r *assess.Result
	err := guarded(func() (err error) {
		r, err = o.Assess(q.ctx, q.project)
		if err == nil && r == nil {
			err = errors.New("the calculation gave no result")
		}
		return err
	})
	if q.ctx.Err() != nil {
		return
	}
	e.deliver(q, r, err)
	for _, follow := range [...]func(context.Context, *assess.Result) error{o.Hillside, o.Answers} {
		if err != nil || follow == nil {
			continue
		}
		full := *r
		err = guarded(func() error { return follow(q.ctx, &full) })
		if q.ctx.Err() != nil {
			return
		}
		r = &full
		e.deliver(q, r, err)
	}
}

// first works out the water of the stage looked at, so that its line follows a
// drag without waiting for everything else. What keeps it from being computed is
// told by the full answer.
func (e *engine) first(q question) {
	i := slices.IndexFunc(q.project.Stages, func(s model.Stage) bool { return s.ID == q.stage })
	if e.desk.opts.Line == nil || i < 0 {
		return
	}
	var f *water.Field
	err := guarded(func() (err error) {
		f, err = e.desk.opts.Line(q.ctx, q.project, q.project.Stages[i])
		return err
	})
	if err != nil || f == nil || q.ctx.Err() != nil {
		return
	}
	e.desk.opts.Post(func() {
		if q.seq != e.seq || e.desk.closed {
			return
		}
		e.line, e.lineOf = f, q.seq
		e.desk.tell(Event{Kind: WaterReady})
	})
}

// guarded turns a panic of f into an error.
func guarded(f func() error) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = &PanicError{v, debug.Stack()}
		}
	}()
	return f()
}

// deliver brings an answer to the user's goroutine and drops it there when the
// project has changed in the meantime.
func (e *engine) deliver(q question, r *assess.Result, err error) {
	e.desk.opts.Post(func() {
		if q.seq != e.seq || e.desk.closed {
			return
		}
		e.err = err
		if err == nil {
			e.result, e.got = r, q.seq
		}
		e.desk.tell(Event{Kind: ResultReady, Err: err})
	})
}

// Water is the newest ground water: that of the result, or, while the result is
// still of an earlier snapshot, what was worked out for the stage looked at
// alone. It is nil where none is computed or none has come yet.
func (d *Desk) Water() *water.Field {
	e := &d.engine
	if e.line != nil && e.lineOf == e.seq && !d.Fresh() {
		return e.line
	}
	if e.result == nil {
		return nil
	}
	return e.result.Water
}

// Result is the newest result, nil before the first one. While a change is
// being worked on it is still that of an earlier snapshot: ask Fresh. Its
// Project may differ from Project() in the display units.
func (d *Desk) Result() *assess.Result { return d.engine.result }

// Fresh tells whether Result belongs to Project.
func (d *Desk) Fresh() bool { return d.engine.result != nil && d.engine.got == d.engine.seq }

// Err is why the last assessment failed, nil when it did not.
func (d *Desk) Err() error { return d.engine.err }
