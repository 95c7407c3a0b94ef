package main

import (
	"flag"
	"strings"
	"testing"
)

func TestFlagsOnBothSidesOfTheFile(t *testing.T) {
	for _, c := range []struct{ args, file, tab, wrong string }{
		{"", "", "", ""},
		{"a.hillset", "a.hillset", "", ""},
		{"-tab water a.hillset", "a.hillset", "water", ""},
		{"a.hillset -tab water", "a.hillset", "water", ""},
		{"a.hillset b.hillset", "", "", "a.hillset or b.hillset"},
		{"a.hillset -tab", "", "", "needs an argument"},
	} {
		flag.CommandLine = flag.NewFlagSet("hillset", flag.ContinueOnError)
		flag.CommandLine.SetOutput(new(strings.Builder))
		tab := flag.String("tab", "", "")
		file, err := parse(strings.Fields(c.args))
		if c.wrong != "" {
			if err == nil || !strings.Contains(err.Error(), c.wrong) {
				t.Errorf("%q: error %v", c.args, err)
			}
			continue
		}
		if err != nil || file != c.file || *tab != c.tab {
			t.Errorf("%q: file %q, page %q, error %v", c.args, file, *tab, err)
		}
	}
}
