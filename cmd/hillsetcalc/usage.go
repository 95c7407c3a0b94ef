package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"hillset/engine/model"
	"hillset/ui/units"
)

const usage = `hillsetcalc: checks of a steel box let into a hillside, without a window

  hillsetcalc check FILE [--json] [--units m|ft] [--all]
      Runs every check at every stage and prints one line for each part, the
      largest ratio first, then what was not checked and why.
      --json    the same for another program; values in SI (m, kN, kPa)
      --units   m for metres and kPa, ft for feet, inches and psf;
                otherwise those of the project
      --all     also the working, the source and the remedy of each check

  hillsetcalc sheets FILE -o OUT.pdf [--size A4|A3|letter|tabloid] [--portrait]
                     [--units m|ft] [--stage ID] [--station X]
                     [--water line|flow|heads|mesh]
      Writes the dimensioned sections with the check summary.
      --size    otherwise that of the project, or A3
      --stage   otherwise the finished stage with the highest water
      --station where the cross section is taken along the long section, as
                6.5, "6.5 m" or "21'4"; otherwise the middle of the box
      --water   what of the computed water is on the first sheet: the water
                table alone (line), with flow lines, with flow lines and heads,
                or with the mesh; otherwise line

  hillsetcalc burial FILE [--json] [--units m|ft]
      How high each soil may stand against the bare sheet, drained and
      flooded, how deep it may lie on the roof, and whether the saying that a
      box may be buried 4 to 6 ft holds there.

  hillsetcalc curves FILE [--json] [--units m|ft] [--only ID]
      How deep the box may sit, how high fill and water may stand beside it,
      how heavy a vehicle may be and how near it may come, and after how many
      years of rust a part reaches its limit: the answers, and the largest
      ratio at every value that was tried.
      --only    one of cover, backfill, water, vehicle, distance, years

  hillsetcalc advise FILE [--json] [--units m|ft]
      What would bring the checks beyond limits within them: changes of the
      project that were tried, each by the full assessment, with what they
      add. The first is a way to the end, step by step, where there is one.

  hillsetcalc scenarios FILE [--json] [--units m|ft]
      What the water does to the finished box when its drains work, half
      work, are blocked, when the pump is dead, and when the water is high:
      how high it stands, the worst check, and the hours left to act. The
      water of the project is to be computed (page 3 of the window).

  hillsetcalc version

Exit status
  0  done; for check: every check that could be made is within limits
  1  the output could not be written
  2  bad input: the command line, the file, or a project nothing can be
     computed from
  3  check only: at least one check is beyond limits

What is not checked does not change the status: read the list. A licensed
engineer and the code in force decide, not this program.
`

// parse reads flags and one file name in any order.
func parse(fs *flag.FlagSet, args []string) (file string, err error) {
	fs.SetOutput(io.Discard)
	fs.Usage = func() {}
	var names []string
	for len(args) > 0 {
		if err := fs.Parse(args); err != nil {
			return "", err
		}
		if args = fs.Args(); len(args) > 0 {
			names, args = append(names, args[0]), args[1:]
		}
	}
	if len(names) != 1 {
		return "", fmt.Errorf("one project file is needed, %d given %s", len(names), strings.Join(names, " "))
	}
	return names[0], nil
}

// system reads the --units flag; empty takes the project's own.
func system(name string, p *model.Project) (units.System, error) {
	switch name {
	case "":
		return units.Of(p.Display.Units), nil
	case "m":
		return units.Metric, nil
	case "ft":
		return units.US, nil
	}
	return 0, fmt.Errorf("--units = %q (allowed: m, ft)", name)
}

// open reads a project, and tells what is odd about it in the named units; empty
// takes its own.
func open(path string, errs io.Writer, name string) (*model.Project, error) {
	doc, problems, err := model.ReadFile(path)
	if err != nil {
		return nil, err
	}
	if hard := model.FirstHard(problems); hard != nil {
		return nil, *hard
	}
	sys, err := system(name, doc.Project)
	if err != nil {
		return nil, err
	}
	for _, p := range problems {
		fmt.Fprintln(errs, "hillsetcalc: note:", units.FormatError(p, sys))
	}
	return doc.Project, nil
}

// fail reports bad input in the units sys; a call for help is none.
func fail(errs io.Writer, err error, sys units.System) int {
	if errors.Is(err, flag.ErrHelp) {
		return printed(errs, errs, usage)
	}
	fmt.Fprintln(errs, "hillsetcalc:", units.FormatError(err, sys))
	return statusInput
}

// printed writes a text and reports when that fails.
func printed(out, errs io.Writer, text string) int {
	if _, err := io.WriteString(out, text); err != nil {
		fmt.Fprintln(errs, "hillsetcalc: writing:", err)
		return statusFailed
	}
	return statusWithin
}
