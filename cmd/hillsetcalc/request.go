package main

import (
	"encoding/json"
	"flag"
	"io"

	"hillset/engine/model"
	"hillset/ui/units"
)

// request is what every command that reads a project is given.
type request struct {
	flags  *flag.FlagSet
	json   bool // of reports; sheets have no such form
	units  string
	errs   io.Writer
	out    io.Writer
	system units.System // once it is opened
}

// ask makes the request of a command with the flags that all of them share. A
// command adds its own before it opens it.
func ask(name string, out, errs io.Writer) *request {
	r := &request{flags: flag.NewFlagSet(name, flag.ContinueOnError), out: out, errs: errs}
	r.flags.StringVar(&r.units, "units", "", "")
	return r
}

// askReport is ask for a command that also answers another program.
func askReport(name string, out, errs io.Writer) *request {
	r := ask(name, out, errs)
	r.flags.BoolVar(&r.json, "json", false, "")
	return r
}

// open reads the command line and the project that it names, and finds the units
// that it is to be told in.
func (r *request) open(args []string) (*model.Project, error) {
	file, err := parse(r.flags, args)
	if err != nil {
		return nil, err
	}
	if r.system, err = system(r.units, &model.Project{}); err != nil { // for what keeps it from being opened
		return nil, err
	}
	p, err := open(file, r.errs, r.units)
	if err != nil {
		return nil, err
	}
	r.system, err = system(r.units, p)
	return p, err
}

// fail reports bad input.
func (r *request) fail(err error) int { return fail(r.errs, err, r.system) }

// answer prints a report, for another program or for reading.
func (r *request) answer(data func() any, text func() string) int {
	if !r.json {
		return printed(r.out, r.errs, text())
	}
	b, err := json.MarshalIndent(data(), "", "  ")
	if err != nil {
		return r.fail(err)
	}
	return printed(r.out, r.errs, string(b)+"\n")
}
