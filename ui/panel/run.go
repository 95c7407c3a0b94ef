package panel

import (
	"bytes"
	"errors"
	"fmt"
	"log"
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"hillset/engine/quantity"
	"hillset/engine/version"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// AppID names the program to the system.
const AppID = "app.hillset.desktop"

// Version is what the program calls itself, on sheets and in Help.
const Version = version.Text

// Options are how the program is started. Empty fields take what was used
// last.
type Options struct {
	File    string // project to open; empty looks for unsaved work
	Size    string // of the window, WIDTHxHEIGHT
	Look    string // light, dark, daylight
	Units   string // m or ft
	Page    string // page beside the drawing, by its key
	Stage   string // id of the stage to look at
	Station string // of the cross section, a length
	View    string // both, long, cross or panels
	Show    string // layers that are off at first, by their names, with commas between
}

// Run opens the window and comes back when it is closed. The error says in
// plain words why there is no window.
func Run(o Options) (err error) {
	if err := o.check(); err != nil {
		return err
	}
	SetLanguage()
	told := hush()
	defer func() {
		if v := recover(); v != nil {
			if s := fmt.Sprint(v); !noDisplay(s) {
				told()
				panic(v)
			}
			err = errNoDisplay
		}
	}()
	if stop, err := keepCrashes(); err == nil {
		defer stop()
	}
	a := app.NewWithID(AppID)
	a.Lifecycle().SetOnStarted(told)
	Open(a, o).ShowAndRun()
	return nil
}

var errNoDisplay = errors.New("there is no display to open a window on, or it has no OpenGL; hillsetcalc works without one")

// hush keeps what the toolkit logs until told is called, which prints it: on a
// machine without a display one plain sentence is enough.
func hush() (told func()) {
	var kept bytes.Buffer
	log.SetOutput(&kept)
	return func() {
		log.SetOutput(os.Stderr)
		// Nobody reads a complaint that cannot be printed.
		_, _ = os.Stderr.Write(kept.Bytes())
		kept.Reset()
	}
}

// Open makes the window on an app; the options must have been checked. Show it
// by ShowAndRun.
func Open(a fyne.App, o Options) *Window {
	at := ownPlaces()
	w := newWindow(a, at, o.settings(at), fyne.Do)
	w.start(o)
	return w
}

// ShowAndRun shows the window and comes back when it is closed.
func (w *Window) ShowAndRun() { w.win.ShowAndRun() }

// noDisplay knows the words of the toolkit for a missing display.
func noDisplay(s string) bool {
	for _, part := range []string{"GLFW", "glfw", "X11", "DISPLAY", "WGL", "OpenGL", "APIUnavailable", "NotInitialized"} {
		if strings.Contains(s, part) {
			return true
		}
	}
	return false
}

// check refuses options that cannot be read.
func (o Options) check() error {
	if _, _, err := o.size(); err != nil {
		return err
	}
	switch o.Look {
	case "", string(scene.Light), string(scene.Dark), string(scene.Daylight):
	default:
		return fmt.Errorf("look = %q (allowed: light, dark, daylight)", o.Look)
	}
	if o.View != "" && o.View != "both" && !slices.ContainsFunc(shownWays, func(s shownWay) bool { return s.of == showing(o.View) }) {
		return fmt.Errorf("view = %q (allowed: both, long, cross, panels)", o.View)
	}
	switch o.Units {
	case "", "m", "ft":
	default:
		return fmt.Errorf("units = %q (allowed: m, ft)", o.Units)
	}
	return nil
}

// size reads WIDTHxHEIGHT; 0 by 0 when it is empty.
func (o Options) size() (w, h float32, err error) {
	if o.Size == "" {
		return 0, 0, nil
	}
	a, b, _ := strings.Cut(o.Size, "x")
	x, err1 := strconv.Atoi(a)
	y, err2 := strconv.Atoi(b)
	if err1 != nil || err2 != nil || x < 320 || y < 240 || x > 16000 || y > 16000 {
		return 0, 0, fmt.Errorf("size = %q (allowed: WIDTHxHEIGHT, 320x240 to 16000x16000)", o.Size)
	}
	return float32(x), float32(y), nil
}

// SetLanguage gives the toolkit a language it knows where the system names
// none, so that it starts without a complaint. It is called before the app is
// made.
func SetLanguage() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		v := os.Getenv(name)
		if v == "" {
			continue
		}
		if known := v != "C" && v != "POSIX" && !strings.HasPrefix(v, "C."); known {
			return
		}
	}
	for _, name := range []string{"LC_ALL", "LANG"} {
		// A name without a fault in it cannot fail.
		_ = os.Setenv(name, "en_US.UTF-8")
	}
}

// ownPlaces are the folders of the program for this user; a system without
// such folders keeps nothing.
func ownPlaces() places {
	dir, err := os.UserConfigDir()
	if err != nil {
		return places{}
	}
	dir = filepath.Join(dir, "hillset")
	return places{config: dir, autosave: filepath.Join(dir, "unsaved")}
}

// keepCrashes has what a crash of the program says written to a file.
func keepCrashes() (stop func(), err error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		return nil, err
	}
	dir = filepath.Join(dir, "hillset")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(filepath.Join(dir, "crash.txt"), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o600)
	if err != nil {
		return nil, err
	}
	if err := debug.SetCrashOutput(f, debug.CrashOptions{}); err != nil {
		f.Close()
		return nil, err
	}
	return func() { f.Close() }, nil
}

// settings are those kept from last time, changed as the options ask.
func (o Options) settings(at places) settings {
	set := readSettings(at.config)
	if width, height, err := o.size(); err == nil && width > 0 {
		set.Width, set.Height = width, height
	}
	if o.Look != "" {
		set.Look = scene.Look(o.Look)
	}
	return set
}

// start shows what the options ask for.
func (w *Window) start(o Options) {
	w.win.Resize(fyne.NewSize(w.set.Width, w.set.Height))
	w.win.SetCloseIntercept(w.quit)
	w.win.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) { w.dropped(uris) })
	if o.File != "" {
		w.startWith(o.File)
	} else {
		w.frameAfter(func() { w.offerLeftovers("") })
	}
	w.startView(o)
}

// startWith opens the file of the command line; what was not saved of it
// before is offered.
func (w *Window) startWith(path string) {
	full, err := filepath.Abs(path)
	if err == nil {
		err = w.desk.Open(full)
	}
	w.frameAfter(func() {
		if err != nil {
			w.failed("This file was not opened", fmt.Errorf("%s: %w. An empty project is shown instead; nothing was changed", path, err))
			return
		}
		w.tellUnknown()
		w.offerLeftovers(full)
	})
}

// startUnits shows the units that the options ask for. That alone makes a
// project no unsaved work.
func (w *Window) startUnits(name string) {
	clean := !w.desk.Dirty()
	switch name {
	case "m":
		w.desk.SetUnits(units.Metric)
	case "ft":
		w.desk.SetUnits(units.US)
	}
	if clean {
		if err := w.desk.Discard(); err != nil {
			w.problem(w.explain(err))
		}
	}
}

// startView shows units, page, stage and station as asked.
func (w *Window) startView(o Options) {
	w.startUnits(o.Units)
	if o.Page != "" && !w.openPage(o.Page) {
		w.problem("There is no page " + o.Page + ".")
	}
	if o.Stage != "" {
		if err := w.desk.SetStage(o.Stage); err != nil {
			w.problem(w.explain(err))
		}
	}
	if v := showing(o.View); o.View == "both" {
		w.showSections(bothSections)
	} else if o.View != "" {
		w.showSections(v)
	}
	for _, name := range strings.FieldsFunc(o.Show, func(r rune) bool { return r == ',' || r == ' ' }) {
		if !w.tools.turnOn(scene.Layer(name)) {
			w.problem("There is no layer " + name + " to be shown.")
		}
	}
	if o.Station == "" {
		return
	}
	x, err := units.Parse(quantity.Length, o.Station, w.desk.Units())
	if err == nil && !math.IsNaN(x) {
		err = w.desk.SetStation(x)
	}
	if err != nil {
		w.problem(w.explain(err))
	}
}
