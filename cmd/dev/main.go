// Command dev does for a newcomer what the README promises in two commands:
// it installs what a fresh machine lacks, then runs the app or the tests.
//
// It is plain Go without cgo and imports nothing from this module, so that it
// builds before any of the system packages are there.
package main

import (
	"fmt"
	"os"
	"os/exec"
	"sort"
)

// command is one verb of the tool.
type command struct {
	help string
	run  func(args []string) error
}

var commands = map[string]command{
	"run":   {"install what is missing, build, open the app on the demo project (or on the FILE given)", runApp},
	"test":  {"install what is missing and run every check and test, the real window included", runTests},
	"bench": {"run the benchmarks of the engine, the drawing and the sheet", runBench},
	"fuzz":  {"run every fuzz target for a while (argument: time for each, default 30s)", runFuzz},
	"shots": {"write pictures of the main views and of the demo sheet to testdata/pictures", runShots},
}

// buildTags are needed by every build of the window: see the notes on threads
// in DEVELOPERS.md.
const buildTags = "migrated_fynedo"

func main() {
	if len(os.Args) < 2 || commands[os.Args[1]].run == nil {
		usage()
		os.Exit(2)
	}
	if err := commands[os.Args[1]].run(os.Args[2:]); err != nil {
		fmt.Fprintln(os.Stderr, "dev:", err)
		os.Exit(1)
	}
}

func usage() {
	fmt.Fprintln(os.Stderr, "usage: go run ./cmd/dev COMMAND")
	var names []string
	for n := range commands {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		fmt.Fprintf(os.Stderr, "  %-6s %s\n", n, commands[n].help)
	}
}

// do runs a program with our own streams.
func do(env []string, name string, args ...string) error {
	cmd := exec.Command(name, args...)
	cmd.Env = append(os.Environ(), env...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// step prints what is about to happen, so that a long wait has a reason.
func step(format string, args ...any) { fmt.Printf("== "+format+"\n", args...) }
