package main

import (
	"os"
	"path/filepath"
)

// demo is the project that run opens.
const demo = "testdata/potato-store-as-drawn.hillset"

// build makes a program of this module and returns its path. It lies in the
// user's cache, not in the checkout.
func build(pkg string) (string, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		dir = os.TempDir()
	}
	out := filepath.Join(dir, "hillset-dev", filepath.Base(pkg))
	step("building %s (the first build takes some minutes)", pkg)
	return out, do(nil, "go", "build", "-tags", buildTags, "-o", out, "./"+pkg)
}

// runApp is the first promise of the README.
func runApp(args []string) error {
	if err := install(forBuilding...); err != nil {
		return err
	}
	app, err := build("cmd/hillset")
	if err != nil {
		return err
	}
	if len(args) == 0 {
		args = []string{demo}
	}
	step("opening %s", args[len(args)-1])
	return do(nil, app, args...)
}
