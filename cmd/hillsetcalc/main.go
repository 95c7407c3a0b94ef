// Command hillsetcalc is Hillset without a window: it checks a project file
// and writes its sheets.
package main

import (
	"fmt"
	"io"
	"os"

	"hillset/engine/version"
	"hillset/ui/units"
)

// Exit statuses.
const (
	statusWithin = 0 // every check that could be made is within limits
	statusFailed = 1 // the output could not be written
	statusInput  = 2 // the command line or the project file is at fault
	statusBeyond = 3 // a check is beyond limits
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole command, apart from the process that holds it.
func run(args []string, out, errs io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(errs, usage)
		return statusInput
	}
	switch args[0] {
	case "check":
		return checkCommand(args[1:], out, errs)
	case "sheets":
		return sheetsCommand(args[1:], out, errs)
	case "burial":
		return burialCommand(args[1:], out, errs)
	case "curves":
		return curvesCommand(args[1:], out, errs)
	case "advise":
		return adviseCommand(args[1:], out, errs)
	case "scenarios":
		return scenariosCommand(args[1:], out, errs)
	case "version", "--version", "-version":
		return printed(out, errs, version.Text+"\n")
	case "help", "--help", "-help", "-h":
		return printed(out, errs, usage)
	}
	return fail(errs, fmt.Errorf("no command %q; there are check, sheets, burial, curves, advise, scenarios, version and help", args[0]), units.Metric)
}
