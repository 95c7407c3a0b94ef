package main

import (
	"bytes"
	"errors"
	"fmt"
	"os/exec"
	"strings"
)

// staticcheck is pinned, so that a new release does not fail an old tree.
const staticcheck = "honnef.co/go/tools/cmd/staticcheck@v0.8.2"

// runTests is the second promise of the README.
func runTests([]string) error {
	if err := install(append(append([]systemPackage(nil), forBuilding...), forTesting...)...); err != nil {
		return err
	}
	steps := []struct {
		what string
		run  func() error
	}{
		{"gofmt", gofmt},
		{"go vet", func() error { return do(nil, "go", "vet", "-tags", buildTags+",window", "./...") }},
		{"staticcheck", func() error { return do(nil, "go", "run", staticcheck, "-tags", buildTags+",window", "./...") }},
		{"tests without a window", func() error {
			return do([]string{"LANG=C"}, "go", "test", "-tags", buildTags, "./...")
		}},
		{"tests in the real window, on a display without a screen", windowTests},
	}
	for _, s := range steps {
		step("%s", s.what)
		if err := s.run(); err != nil {
			return fmt.Errorf("%s: %w", s.what, err)
		}
	}
	step("all passed")
	return nil
}

func gofmt() error {
	out, err := exec.Command("gofmt", "-l", ".").Output()
	if err != nil {
		return err
	}
	if len(bytes.TrimSpace(out)) > 0 {
		return fmt.Errorf("these files are not formatted:\n%s", out)
	}
	return nil
}

func windowTests() error {
	x, err := startDisplay(1280, 800)
	if err != nil {
		return err
	}
	defer x.stop()
	env := append(x.env(), "LANG=C")
	return do(env, "go", "test", "-count=1", "-v", "-tags", buildTags+",window", "-run", "Window", "./cmd/hillset")
}

func runBench([]string) error {
	return do(nil, "go", "test", "-tags", buildTags, "-run", "^$", "-bench", ".", "-benchmem", "./...")
}

// runFuzz finds every fuzz target and runs one after the other: the go tool
// takes only one at a time.
func runFuzz(args []string) error {
	each := "30s"
	if len(args) > 0 {
		each = args[0]
	}
	out, err := exec.Command("go", "test", "-tags", buildTags, "-list", "^Fuzz", "./geom/...", "./engine/...", "./ui/...").Output()
	if err != nil {
		return err
	}
	var targets []string
	ran := 0
	for _, line := range strings.Split(string(out), "\n") {
		switch f := strings.Fields(line); {
		case strings.HasPrefix(line, "Fuzz"):
			targets = append(targets, strings.TrimSpace(line))
		case len(f) > 1 && f[0] == "ok":
			for _, t := range targets {
				step("%s in %s for %s", t, f[1], each)
				if err := do(nil, "go", "test", "-tags", buildTags, "-run", "^$", "-fuzz", "^"+t+"$", "-fuzztime", each, f[1]); err != nil {
					return err
				}
				ran++
			}
			targets = nil
		}
	}
	if ran == 0 {
		return errors.New("no fuzz target found")
	}
	return nil
}
