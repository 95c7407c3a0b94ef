// Package desk holds the project in hand: the current snapshot, the steps that
// can be undone, the file it belongs to, what is being looked at, and the
// engine that answers every change. It knows no toolkit.
//
// All methods are called from one goroutine, that of the user interface. Work
// goes on beside it and comes back through Options.Post.
package desk

import (
	"context"
	"fmt"
	"reflect"
	"time"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/water"
	"hillset/ui/units"
)

// Runner assesses a project. It must not change the project and should return
// soon, with the context's error, when the context ends.
type Runner func(ctx context.Context, p *model.Project) (*assess.Result, error)

// Options say what a Desk works with.
type Options struct {
	// Assess answers every change; nil leaves the desk without results.
	Assess Runner
	// Hillside and then Answers fill what is slower into copies of the result of
	// Assess: they may set fields of r but not write into its slices. Nil is none.
	Hillside func(ctx context.Context, r *assess.Result) error
	Answers  func(ctx context.Context, r *assess.Result) error
	// Line gives the water of one stage, which is shown before all of Assess is
	// done; nil, or a nil answer, shows none. It is asked for the stage that is
	// looked at.
	Line func(ctx context.Context, p *model.Project, st model.Stage) (*water.Field, error)
	// Post runs f on the goroutine of the user interface, soon and in order.
	// It is required.
	Post func(f func())
	// AutosaveDir is where unsaved work is kept; empty keeps none.
	AutosaveDir string
	// AutosaveDelay is how long the desk waits after a change; 0 is 2 s.
	AutosaveDelay time.Duration
	// ConfigDir is where the list of recent files is kept; empty keeps none.
	ConfigDir string
	// Now is the clock; nil is time.Now.
	Now func() time.Time
}

// EventKind says what an Event is about.
type EventKind int

// The kinds of event.
const (
	ModelChanged EventKind = iota // Project() is another snapshot
	ResultReady                   // Result() is another one, or the engine failed
	FileChanged                   // path, dirty mark, recent files or autosave
	ViewChanged                   // stage, station or units
	WaterReady                    // Water() is another one
)

// Event tells listeners what changed.
type Event struct {
	Kind EventKind
	// Err is what went wrong beside the user: the engine (ResultReady) or the
	// autosave (FileChanged).
	Err error
}

// state is one snapshot with a number of its own, by which a return to the
// saved state is recognised.
type state struct {
	project *model.Project
	number  uint64
}

// Desk is the project in hand. Make one with New.
type Desk struct {
	opts Options
	now  state
	last uint64 // number given to the newest state

	undo, redo []step
	doc        *model.Document // carries the unknown fields of the open file
	file       file
	view       view
	engine     engine
	saver      saver

	listeners []*listener
	closed    bool
}

type listener struct{ f func(Event) }

// New opens a desk with an empty project on it.
func New(o Options) *Desk {
	if o.Post == nil {
		panic("desk: Options.Post is nil")
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.AutosaveDelay == 0 {
		o.AutosaveDelay = 2 * time.Second
	}
	d := &Desk{opts: o}
	d.engine.start(d)
	d.saver.init(o.AutosaveDir)
	d.put(&model.Document{Project: model.New()}, "")
	return d
}

// Project is the current snapshot. Nobody may change it: use Edit.
func (d *Desk) Project() *model.Project { return d.now.project }

// Edit changes the project: change gets a copy and works on that. When change
// returns an error, or what it made holds a value that can never be stored,
// nothing is changed and the error is returned; in the second case it wraps a
// model.Problem. Otherwise the change is one step that can be undone, named
// what. Edits with the same merge text that is not empty follow each other
// into one step until EndGesture. A change that changes nothing is no step.
func (d *Desk) Edit(what, merge string, change func(*model.Project) error) error {
	p := d.now.project.Clone()
	if err := change(p); err != nil {
		return err
	}
	if reflect.DeepEqual(p, d.now.project) {
		return nil
	}
	if hard := model.FirstHard(p.Validate()); hard != nil {
		return fmt.Errorf("%s: %w", what, *hard)
	}
	d.record(what, merge)
	d.last++
	d.become(state{p, d.last})
	return nil
}

// become makes s the current state and tells everybody.
func (d *Desk) become(s state) {
	units := s.project.Display.Units != d.now.project.Display.Units
	d.now = s
	d.engine.ask(s.project, d.StageID())
	d.autosaveSoon()
	d.tell(Event{Kind: ModelChanged})
	if units {
		d.tell(Event{Kind: ViewChanged})
	}
}

// put lays a document on the desk in place of the one there.
func (d *Desk) put(doc *model.Document, path string) {
	d.last++
	d.now = state{doc.Project, d.last}
	d.doc = doc
	d.undo, d.redo = nil, nil
	d.file = file{path: path, saved: d.last, units: doc.Project.Display.Units}
	d.view = view{}
	d.engine.forget()
	d.engine.ask(d.now.project, d.StageID())
	d.tell(Event{Kind: ModelChanged})
	d.tell(Event{Kind: ViewChanged})
	d.tell(Event{Kind: FileChanged})
}

// document is what would be written now.
func (d *Desk) document() *model.Document {
	doc := *d.doc
	doc.Project = d.now.project
	return &doc
}

// Listen calls f for every event, through Post, until remove is called.
func (d *Desk) Listen(f func(Event)) (remove func()) {
	l := &listener{f}
	d.listeners = append(d.listeners, l)
	return func() {
		for i, other := range d.listeners {
			if other == l {
				d.listeners = append(d.listeners[:i:i], d.listeners[i+1:]...)
				break
			}
		}
		l.f = nil
	}
}

// tell posts an event to those who listen now.
func (d *Desk) tell(e Event) {
	for _, l := range d.listeners {
		d.opts.Post(func() {
			if l.f != nil {
				l.f(e)
			}
		})
	}
}

// Units is the system of units in use. It is stored in the project.
func (d *Desk) Units() units.System { return units.Of(d.now.project.Display.Units) }

// Close ends the work of the desk. Unsaved work stays in the autosave folder
// unless DiscardChanges was called or the project is clean.
func (d *Desk) Close() error {
	if d.closed {
		return nil
	}
	d.closed = true
	d.engine.stop()
	if d.Dirty() {
		return d.saver.write(d.draft())
	}
	return d.saver.remove()
}
