package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// sheetsOptions are the options of the sheets command alone.
type sheetsOptions struct {
	out      string
	size     string
	portrait bool
	stage    string
	station  string
	water    string
}

// usualSize is taken when neither the command nor the project names one.
const usualSize = "A3"

func sheetsCommand(args []string, out, errs io.Writer) int {
	var o sheetsOptions
	q := ask("sheets", out, errs)
	q.flags.StringVar(&o.out, "o", "", "")
	q.flags.StringVar(&o.size, "size", "", "")
	q.flags.BoolVar(&o.portrait, "portrait", false, "")
	q.flags.StringVar(&o.stage, "stage", "", "")
	q.flags.StringVar(&o.station, "station", "", "")
	q.flags.StringVar(&o.water, "water", "", "")
	p, err := q.open(args)
	if err != nil {
		return q.fail(err)
	}
	if o.out == "" {
		return q.fail(errors.New("-o OUT.pdf is needed"))
	}
	return o.write(context.Background(), p, q)
}

// write assesses a project and writes its sheets.
func (o sheetsOptions) write(ctx context.Context, p *model.Project, q *request) int {
	var err error
	station := math.NaN()
	if o.station != "" {
		if station, err = units.Parse(quantity.Length, o.station, q.system); err != nil {
			return q.fail(fmt.Errorf("--station: %w", err))
		}
	}
	so := sheet.Options{Size: firstOf(o.size, p.Sheet.Size, usualSize), Landscape: !o.portrait, Units: q.system, Version: version.Text}
	if so.Also, err = sheet.WaterNamed(o.water); err != nil {
		return q.fail(fmt.Errorf("--water: %w", err))
	}
	if _, err := sheet.SizeNamed(so.Size); err != nil {
		return q.fail(err)
	}
	long, cross, err := sheet.Views(p, tables.Default(), o.stage, station)
	if err != nil {
		return q.fail(err)
	}
	r, err := assess.Run(ctx, p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	if made(r) > 0 {
		if err := assess.Follow(ctx, r, tables.Default()); err != nil {
			return q.fail(err)
		}
	}
	if made(r) > 0 {
		if so.Structure, err = sheet.StructureOf(ctx, r, tables.Default(), q.system); err != nil {
			return q.fail(err)
		}
	}
	if err := sheet.WriteFile(o.out, p, r, long, cross, so); err != nil {
		return unwritten(q.errs, err, q.system)
	}
	return printed(q.out, q.errs, o.out+"\n")
}

// unwritten tells a fault of the disk from one of the input.
func unwritten(errs io.Writer, err error, sys units.System) int {
	var path *fs.PathError
	var link *os.LinkError
	fail(errs, err, sys)
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
