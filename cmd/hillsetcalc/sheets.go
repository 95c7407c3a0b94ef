package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// sheetsOptions are the options of the sheets command.
type sheetsOptions struct {
	file     string
	out      string
	size     string
	portrait bool
	units    string
	stage    string
	station  string
}

// usualSize is taken when neither the command nor the project names one.
const usualSize = "A3"

func sheetsCommand(args []string, out, errs io.Writer) int {
	var o sheetsOptions
	fl := flag.NewFlagSet("sheets", flag.ContinueOnError)
	fl.StringVar(&o.out, "o", "", "")
	fl.StringVar(&o.size, "size", "", "")
	fl.BoolVar(&o.portrait, "portrait", false, "")
	fl.StringVar(&o.units, "units", "", "")
	fl.StringVar(&o.stage, "stage", "", "")
	fl.StringVar(&o.station, "station", "", "")
	var err error
	if o.file, err = parse(fl, args); err != nil {
		return fail(errs, err)
	}
	if o.out == "" {
		return fail(errs, errors.New("-o OUT.pdf is needed"))
	}
	return runSheets(context.Background(), o, out, errs)
}

// runSheets assesses a project and writes its sheets.
func runSheets(ctx context.Context, o sheetsOptions, out, errs io.Writer) int {
	p, sys, err := openIn(o.file, o.units, errs)
	if err != nil {
		return fail(errs, err)
	}
	station := math.NaN()
	if o.station != "" {
		if station, err = units.Parse(quantity.Length, o.station, sys); err != nil {
			return fail(errs, fmt.Errorf("--station: %w", err))
		}
	}
	so := sheet.Options{Size: firstOf(o.size, p.Sheet.Size, usualSize), Landscape: !o.portrait, Units: sys, Version: version.Text}
	if _, err := sheet.SizeNamed(so.Size); err != nil {
		return fail(errs, err)
	}
	long, cross, err := sheet.Views(p, tables.Default(), o.stage, station)
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
	if made(r) > 0 {
		if so.Structure, err = sheet.StructureOf(ctx, r, tables.Default(), sys); err != nil {
			return fail(errs, err)
		}
	}
	if err := sheet.WriteFile(o.out, p, r, long, cross, so); err != nil {
		return unwritten(errs, err)
	}
	return printed(out, errs, o.out+"\n")
}

// unwritten tells a fault of the disk from one of the input.
func unwritten(errs io.Writer, err error) int {
	var path *fs.PathError
	var link *os.LinkError
	fail(errs, err)
	if errors.As(err, &path) || errors.As(err, &link) {
		return statusFailed
	}
	return statusInput
}

func firstOf(names ...string) string {
	for _, n := range names {
		if n != "" {
			return n
		}
	}
	return ""
}
