package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// checkOptions are the options of the check command.
type checkOptions struct {
	file  string
	json  bool
	units string
	all   bool
}

func checkCommand(args []string, out, errs io.Writer) int {
	var o checkOptions
	fs := flag.NewFlagSet("check", flag.ContinueOnError)
	fs.BoolVar(&o.json, "json", false, "")
	fs.StringVar(&o.units, "units", "", "")
	fs.BoolVar(&o.all, "all", false, "")
	var err error
	if o.file, err = parse(fs, args); err != nil {
		return fail(errs, err)
	}
	return runCheck(context.Background(), o, out, errs)
}

// runCheck assesses a project and prints the outcome.
func runCheck(ctx context.Context, o checkOptions, out, errs io.Writer) int {
	p, sys, err := openIn(o.file, o.units, errs)
	if err != nil {
		return fail(errs, err)
	}
	r, err := assess.Run(ctx, p, tables.Default())
	if err != nil {
		return fail(errs, err)
	}
	if made(r) > 0 {
		if err := assess.Answers(ctx, r, tables.Default()); err != nil {
			return fail(errs, err)
		}
	}
	text := ""
	if o.json {
		b, err := json.MarshalIndent(report(r, sys), "", "  ")
		if err != nil {
			return fail(errs, err)
		}
		text = string(b) + "\n"
	} else {
		text = list(r, sys, o.all)
	}
	if s := printed(out, errs, text); s != statusWithin {
		return s
	}
	return statusOf(r, sys, errs)
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
		return fail(errs, err)
	}
	for i := range r.Checks {
		if r.Checks[i].Verdict() == check.Beyond {
			return statusBeyond
		}
	}
	return statusWithin
}
