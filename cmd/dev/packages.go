package main

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
)

// systemPackage is a Debian package and the reason for it.
type systemPackage struct{ name, why string }

var (
	forBuilding = []systemPackage{
		{"ca-certificates", "the Go libraries are fetched over encrypted connections"},
		{"gcc", "the window toolkit is partly C"},
		{"libc6-dev", "headers for the C parts"},
		{"libgl1-mesa-dev", "OpenGL headers and drivers for the window"},
		{"xorg-dev", "X11 headers for the window"},
	}
	forTesting = []systemPackage{
		{"xvfb", "a display without a screen, for the window test"},
		{"xdotool", "pointer and keys for the window test"},
		{"poppler-utils", "turns the PDF sheets into pictures"},
	}
)

// install brings the packages that are missing. It says what and why before
// it asks for any right.
func install(wanted ...systemPackage) error {
	if runtime.GOOS != "linux" {
		fmt.Println("Not Linux: install a C compiler yourself if the build asks for one.")
		return nil
	}
	missing := missingOf(wanted)
	if len(missing) == 0 {
		return nil
	}
	if _, err := exec.LookPath("apt-get"); err != nil {
		return fmt.Errorf("these packages (Debian names) or their like are needed and there is no apt-get to bring them: %s", names(missing))
	}
	step("installing system packages that are missing")
	for _, p := range missing {
		fmt.Printf("   %-18s %s\n", p.name, p.why)
	}
	env := []string{"DEBIAN_FRONTEND=noninteractive"}
	if err := asRoot(env, "apt-get", "update", "-qq"); err != nil {
		return err
	}
	args := []string{"install", "-y", "-qq", "--no-install-recommends"}
	return asRoot(env, "apt-get", append(args, strings.Fields(names(missing))...)...)
}

// asRoot runs a program with sudo where we are not root already.
func asRoot(env []string, name string, args ...string) error {
	if os.Geteuid() == 0 {
		return do(env, name, args...)
	}
	if _, err := exec.LookPath("sudo"); err != nil {
		return fmt.Errorf("run this as root: %s %s", name, strings.Join(args, " "))
	}
	return do(nil, "sudo", append(append(env, name), args...)...)
}

func missingOf(wanted []systemPackage) []systemPackage {
	var out []systemPackage
	for _, p := range wanted {
		state, err := exec.Command("dpkg-query", "-W", "-f=${Status}", p.name).Output()
		if err != nil || !strings.Contains(string(state), "install ok installed") {
			out = append(out, p)
		}
	}
	return out
}

func names(ps []systemPackage) string {
	var out []string
	for _, p := range ps {
		out = append(out, p.name)
	}
	return strings.Join(out, " ")
}
