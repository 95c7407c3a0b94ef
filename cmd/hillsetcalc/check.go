package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/tables"
	"hillset/ui/units"
)

func checkCommand(args []string, out, errs io.Writer) int {
	var all bool
	q := askReport("check", out, errs)
	q.flags.BoolVar(&all, "all", false, "")
	p, err := q.open(args)
	if err != nil {
		return q.fail(err)
	}
	ctx := context.Background()
	r, err := assess.Run(ctx, p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	if made(r) > 0 {
		if err := assess.Follow(ctx, r, tables.Default()); err != nil {
			return q.fail(err)
		}
	}
	if s := q.answer(func() any { return report(r, q.system) }, func() string { return list(r, q.system, all) }); s != statusWithin {
		return s
	}
	return statusOf(r, q.system, errs)
}

// made counts the checks that were made at a stage: what needs no hill, such as
// a swale, is not why the project is given.
func made(r *assess.Result) int {
	n := 0
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Stage != "" && c.Verdict() != check.NotChecked {
			n++
		}
	}
	return n
}

// statusOf is the exit status of an assessment.
func statusOf(r *assess.Result, sys units.System, errs io.Writer) int {
	if made(r) == 0 {
		err := errors.New("no check could be made")
		if len(r.Blocks) > 0 {
			b := r.Blocks[0]
			err = fmt.Errorf("no check could be made: %s: %s", b.Field, units.FormatProblem(b, sys))
		}
		return fail(errs, err, sys)
	}
	for i := range r.Checks {
		if r.Checks[i].Verdict() == check.Beyond {
			return statusBeyond
		}
	}
	return statusWithin
}
