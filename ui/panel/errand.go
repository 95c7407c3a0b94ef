package panel

import (
	"context"
	"fmt"
	"time"
)

// errand is work done beside the window. A newer one takes the place of the
// one that is under way; what that still brings is dropped. All methods belong
// to the goroutine of the user interface.
type errand struct {
	w     *Window
	seq   int
	stop  context.CancelFunc
	timer *time.Timer
}

// drop ends what is under way and what waits to begin.
func (e *errand) drop() {
	e.seq++
	if e.timer != nil {
		e.timer.Stop()
		e.timer = nil
	}
	if e.stop != nil {
		e.stop()
		e.stop = nil
	}
}

// begin runs work on a goroutine of its own once wait has passed. What work
// gives to show runs on the goroutine of the user interface, while nothing
// newer has begun. failed gets the error of work, or its fault.
func (e *errand) begin(wait time.Duration, work func(ctx context.Context, show func(func())) error, failed func(error)) {
	e.drop()
	ctx, cancel := context.WithCancel(context.Background())
	seq := e.seq
	e.stop = cancel
	show := func(f func()) {
		e.w.post(func() {
			if e.seq == seq {
				f()
			}
		})
	}
	e.timer = time.AfterFunc(wait, func() {
		err := faultless(func() error { return work(ctx, show) })
		if err != nil && ctx.Err() == nil {
			show(func() { failed(err) })
		}
	})
}

// faultless turns a fault of a calculation into an error, so that no work is
// lost.
func faultless(f func() error) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("fault in the calculation: %v", v)
		}
	}()
	return f()
}
