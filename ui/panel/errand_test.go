package panel

import (
	"context"
	"errors"
	"testing"
	"time"
)

// A newer errand ends the older one and drops what that still brings.
func TestNewerErrandTakesThePlace(t *testing.T) {
	q := &queue{}
	e := &errand{w: &Window{post: q.post}}
	var got []string
	begun, ended := make(chan bool), make(chan bool)
	e.begin(0, func(ctx context.Context, show func(func())) error {
		show(func() { got = append(got, "old, first") })
		begun <- true
		<-ctx.Done()
		show(func() { got = append(got, "old, second") })
		ended <- true
		return ctx.Err()
	}, func(err error) { got = append(got, err.Error()) })
	<-begun
	q.drain()
	done := make(chan bool)
	e.begin(0, func(_ context.Context, show func(func())) error {
		show(func() { got = append(got, "new") })
		done <- true
		return nil
	}, func(err error) { got = append(got, err.Error()) })
	<-ended
	<-done
	q.drain()
	if len(got) != 2 || got[0] != "old, first" || got[1] != "new" {
		t.Errorf("shown %q", got)
	}
}

// What is dropped while it waits never begins; errors and faults are told.
func TestErrandsWaitAndFail(t *testing.T) {
	q := &queue{}
	e := &errand{w: &Window{post: q.post}}
	ran := make(chan bool, 1)
	e.begin(30*time.Millisecond, func(context.Context, func(func())) error { ran <- true; return nil }, nil)
	e.drop()
	select {
	case <-ran:
		t.Error("an errand that was dropped began")
	case <-time.After(60 * time.Millisecond):
	}
	for _, c := range []struct {
		name string
		work func() error
		want string
	}{
		{"error", func() error { return errors.New("no tables") }, "no tables"},
		{"fault", func() error { panic("index") }, "fault in the calculation: index"},
	} {
		said := ""
		e.begin(0, func(context.Context, func(func())) error { return c.work() }, func(err error) { said = err.Error() })
		for start := time.Now(); said == "" && time.Since(start) < 10*time.Second; time.Sleep(time.Millisecond) {
			q.drain()
		}
		if said != c.want {
			t.Errorf("%s: said %q, want %q", c.name, said, c.want)
		}
	}
}
