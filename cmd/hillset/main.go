// Command hillset opens the window: a sketcher for letting a steel shipping
// container into a hillside, and the checks that go with it.
package main

import (
	"flag"
	"fmt"
	"os"

	"hillset/ui/panel"
)

func main() {
	var o panel.Options
	flag.StringVar(&o.Size, "size", "", "size of the window, WIDTHxHEIGHT")
	flag.StringVar(&o.Look, "look", "", "light, dark or daylight")
	flag.StringVar(&o.Units, "units", "", "m or ft")
	flag.StringVar(&o.Page, "tab", "", "page to show: hill, soil, water, box, cut, fill, brace, stages, checks, sheet, limits, advice, flows, scenarios, climate")
	flag.StringVar(&o.Stage, "stage", "", "stage to show, by its id in the file")
	flag.StringVar(&o.Station, "station", "", "where the cross section is taken, e.g. 10.5 m")
	flag.StringVar(&o.View, "view", "", "what the middle shows: both, long, cross, panels")
	flag.StringVar(&o.Show, "show", "", "layers that are off at first, e.g. deformed,moments,thrusts,flow,heads,mesh")
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "usage: hillset [options] [FILE.hillset]")
		flag.PrintDefaults()
	}
	var err error
	if o.File, err = parse(os.Args[1:]); err == nil {
		err = panel.Run(o)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "hillset:", err)
		os.Exit(1)
	}
}

// parse reads the flags, which may stand before and after the file.
func parse(args []string) (file string, err error) {
	for {
		if err := flag.CommandLine.Parse(args); err != nil {
			return "", err
		}
		args = flag.CommandLine.Args()
		if len(args) == 0 {
			return file, nil
		}
		if file != "" {
			return "", fmt.Errorf("one file at a time: %s or %s", file, args[0])
		}
		file, args = args[0], args[1:]
	}
}
