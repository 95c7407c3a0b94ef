package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// shot is one picture of the app: a file name, the size of the screen and the
// start options.
type shot struct {
	name string
	w, h int
	args []string
	// wait is how long the window works before its picture is worth taking, and
	// press is where it is then pressed, from the top left; the picture is taken
	// after that, once it has worked again.
	wait  time.Duration
	press image.Point
}

const (
	pictures = "testdata/pictures"
	mended   = "testdata/potato-store-put-right.hillset"
)

// none presses nothing.
var none image.Point

var shots = []shot{
	{"drawn-light", 1280, 800, []string{"-look", "light", "-units", "m", demo}, 0, none},
	{"mended-light", 1280, 800, []string{"-look", "light", "-units", "m", mended}, 0, none},
	{"mended-dark-feet", 1280, 800, []string{"-look", "dark", "-units", "ft", mended}, 0, none},
	{"drawn-daylight", 1280, 800, []string{"-look", "daylight", "-units", "m", "-tab", "checks", demo}, 0, none},
	{"mended-strength", 1280, 800, []string{"-look", "light", "-units", "m", "-tab", "strength", mended}, 0, none},
	{"drawn-large-feet", 1920, 1080, []string{"-look", "light", "-units", "ft", "-tab", "checks", demo}, 0, none},
	{"drawn-panels", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "panels", "-tab", "limits", demo}, 25 * time.Second, none},
	{"mended-panels", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "panels", "-tab", "limits", mended}, 25 * time.Second, none},
	{"mended-lines", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "cross", "-show", "deformed,moments", "-stage", "snow", "-tab", "checks", mended}, 0, none},
	{"advice-before", 1280, 800, []string{"-look", "light", "-units", "m", "-tab", "advice", demo}, 30 * time.Second, none},
	{"advice-after", 1280, 800, []string{"-look", "light", "-units", "m", "-tab", "advice", demo}, 40 * time.Second, image.Pt(963, 438)},
	{"water-before", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "long", "-stage", "high", "-show", "flow", "-tab", "flows", demo}, 6 * time.Second, none},
	{"water-after", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "long", "-stage", "high", "-show", "flow", "-tab", "flows", mended}, 6 * time.Second, none},
	{"water-blocked", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "long", "-stage", "blocked", "-tab", "scenarios", mended}, 15 * time.Second, none},
	{"mended-air", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "long", "-tab", "climate", mended}, 6 * time.Second, none},
	{"slope-cut", 1280, 800, []string{"-look", "light", "-units", "m", "-view", "long", "-stage", "cut", "-tab", "checks", mended}, 20 * time.Second, none},
	{"slope-finished-feet", 1280, 800, []string{"-look", "light", "-units", "ft", "-view", "long", "-stage", "blocked", "-tab", "checks", mended}, 20 * time.Second, none},
	{"cut-open", 1280, 800, []string{"-look", "light", "-units", "m", "-stage", "cut", "-tab", "cut", demo}, 0, none},
}

// runShots takes the pictures for the README from the real window.
func runShots(args []string) error {
	if err := install(append(append([]systemPackage(nil), forBuilding...), forTesting...)...); err != nil {
		return err
	}
	app, err := build("cmd/hillset")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(pictures, 0o755); err != nil {
		return err
	}
	for _, s := range shots {
		if len(args) > 0 && args[0] != s.name {
			continue
		}
		step("%s.png, %d x %d", s.name, s.w, s.h)
		if err := s.take(app); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
	}
	if len(args) > 0 {
		return nil
	}
	return sheetShot()
}

// sheetShot makes the demo sheet and a picture of its first page.
func sheetShot() error {
	calc, err := build("cmd/hillsetcalc")
	if err != nil {
		return err
	}
	step("sheet.png")
	pdf := filepath.Join(pictures, "sheet.pdf")
	if err := do(nil, calc, "sheets", mended, "-o", pdf); err != nil {
		return err
	}
	return do(nil, "pdftoppm", "-png", "-r", "90", "-singlefile", pdf, filepath.Join(pictures, "sheet"))
}

// take runs the app on a display of its own until the picture stands still.
func (s shot) take(app string) error {
	x, err := startDisplay(s.w, s.h)
	if err != nil {
		return err
	}
	defer x.stop()
	home, err := os.MkdirTemp("", "hillset-home")
	if err != nil {
		return err
	}
	defer os.RemoveAll(home)
	cmd := exec.Command(app, append([]string{"-size", fmt.Sprintf("%dx%d", s.w, s.h)}, s.args...)...)
	cmd.Env = append(append(os.Environ(), x.env()...), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_CACHE_HOME="+home, "LANG=C")
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		return err
	}
	defer func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	}()
	if _, err := still(x, 60*time.Second); err != nil {
		return err
	}
	time.Sleep(s.wait)
	if s.press != none {
		if err := do(x.env(), "xdotool", "mousemove", fmt.Sprint(s.press.X), fmt.Sprint(s.press.Y), "click", "1"); err != nil {
			return err
		}
		time.Sleep(s.wait)
	}
	// the pointer is to stand out of the picture
	if err := do(x.env(), "xdotool", "mousemove", fmt.Sprint(s.w-1), fmt.Sprint(s.h-1)); err != nil {
		return err
	}
	img, err := still(x, 60*time.Second)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(&b, img); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(pictures, s.name+".png"), b.Bytes(), 0o644)
}

// still waits until the display shows something and has not changed for a
// while.
func still(x *display, limit time.Duration) (*image.RGBA, error) {
	const calm = 2 * time.Second
	var last *image.RGBA
	since := time.Now()
	for start := time.Now(); time.Since(start) < limit; time.Sleep(200 * time.Millisecond) {
		img, err := x.picture()
		if err != nil {
			return nil, err
		}
		if last == nil || !bytes.Equal(img.Pix, last.Pix) || blank(img) {
			last, since = img, time.Now()
			continue
		}
		if time.Since(since) > calm {
			return img, nil
		}
	}
	return nil, errors.New("the window never stood still")
}

// blank tells whether the picture is of one colour only.
func blank(img *image.RGBA) bool {
	for i := 4; i < len(img.Pix); i += 4 {
		if !bytes.Equal(img.Pix[i:i+4], img.Pix[:4]) {
			return false
		}
	}
	return true
}
