//go:build window

package main

import (
	"fmt"
	"io"
	"log"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"hillset/engine/model"
	"hillset/geom"
	"hillset/ui/desk"
	"hillset/ui/panel"
	"hillset/ui/sketch"
)

// The window stands on the main goroutine, as the toolkit wants it; the tests
// run beside it and reach it by the pointer and the keys of the display.
var window *panel.Window

// Where the go tool keeps what it has built, before the tests took another
// home.
var firstHome, firstCache = os.Getenv("HOME"), os.Getenv("XDG_CACHE_HOME")

func TestMain(m *testing.M) {
	home, err := os.MkdirTemp("", "hillset-window")
	if err != nil {
		panic(err)
	}
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME"} {
		os.Setenv(name, home)
	}
	panel.SetLanguage()
	a := app.NewWithID(panel.AppID)
	window = panel.Open(a, panel.Options{Size: "1280x800", Units: "ft"})
	code := make(chan int, 1)
	go func() {
		code <- m.Run()
		fyne.Do(a.Quit)
	}()
	window.ShowAndRun()
	status := <-code
	log.SetOutput(io.Discard) // the toolkit still watches its folder
	os.RemoveAll(home)
	os.Exit(status)
}

// patience is how long the window may take for anything.
const patience = 90 * time.Second

// until waits until a thing of the window is so.
func until(t *testing.T, what string, so func() bool) {
	t.Helper()
	for start := time.Now(); time.Since(start) < patience; time.Sleep(30 * time.Millisecond) {
		yes := false
		fyne.DoAndWait(func() { yes = so() })
		if yes {
			return
		}
	}
	t.Fatalf("not within %v: %s; the window says %q and %q", patience, what, window.Verdict(), window.Said())
}

// do sends the pointer or the keys.
func do(t *testing.T, args ...string) {
	t.Helper()
	if out, err := exec.Command("xdotool", args...).CombinedOutput(); err != nil {
		t.Fatalf("xdotool %v: %v\n%s", args, err, out)
	}
	time.Sleep(60 * time.Millisecond)
}

// clickAt presses the first button of the mouse at a place of the window.
func clickAt(t *testing.T, p fyne.Position) {
	t.Helper()
	do(t, "mousemove", fmt.Sprint(int(p.X)), fmt.Sprint(int(p.Y)))
	do(t, "click", "1")
}

// middle is the middle of a thing of the window.
func middle(o fyne.CanvasObject) fyne.Position {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	return at.AddXY(o.Size().Width/2, o.Size().Height/2)
}

// click presses the control with these words on it or beside it, once it stands
// still: a page that has just been made is laid out anew while it fills.
func click(t *testing.T, words string) {
	t.Helper()
	var at fyne.Position
	looks := 0 // at the same place, one after the other
	until(t, "a control "+words+" that stands still", func() bool {
		o := window.Control(words)
		if o == nil {
			looks = 0
			return false
		}
		if p := middle(o); p != at {
			at, looks = p, 0
		}
		looks++
		return looks > 3
	})
	clickAt(t, at)
}

// typeIn puts a text in place of what a field holds.
func typeIn(t *testing.T, field, text string) {
	t.Helper()
	click(t, field)
	do(t, "key", "ctrl+a")
	do(t, "type", "--delay", "15", "--", text)
	do(t, "key", "Return")
}

func project() *model.Project { return window.Desk().Project() }

// drawGround draws four points with the pointer and checks what became of
// them.
func drawGround(t *testing.T) {
	t.Helper()
	click(t, "Ground")
	long := window.Board(sketch.LongSection)
	var origin fyne.Position
	var scale float64
	until(t, "the tool for the ground is in hand", func() bool {
		origin = fyne.CurrentApp().Driver().AbsolutePositionForObject(long)
		scale = long.Scale()
		return long.Tool() == sketch.DrawGround
	})
	places := []fyne.Position{{X: 90, Y: 360}, {X: 210, Y: 350}, {X: 330, Y: 330}, {X: 540, Y: 290}}
	for i, p := range places {
		clickAt(t, origin.Add(p))
		until(t, fmt.Sprintf("%d points of ground", i+1), func() bool { return len(project().Site.Ground) == i+1 })
	}
	fyne.DoAndWait(func() {
		g := project().Site.Ground
		// A point is drawn to a round number or to another thing that lies
		// within 9 units of the pointer.
		const reach = 9 + 1
		for i := 1; i < len(g); i++ {
			got := g[i].Sub(g[i-1])
			d := places[i].Subtract(places[i-1])
			want := geom.Vec{float64(d.X) / scale, -float64(d.Y) / scale}
			if off := got.Sub(want); math.Abs(off[0]) > 2*reach/scale || math.Abs(off[1]) > 2*reach/scale {
				t.Errorf("point %d lies %v m from the one before, drawn at %v m", i, got, want)
			}
		}
	})
	do(t, "key", "Escape")
}

// TestWindowDrawTypeUndoSaveExportReopen does the main job of the program as a
// person would, with pointer and keys.
func TestWindowDrawTypeUndoSaveExportReopen(t *testing.T) {
	until(t, "the window tells the first step", func() bool { return strings.HasPrefix(window.Verdict(), "Next: draw the ground line") })
	drawGround(t)

	click(t, "2 Soil")
	click(t, "The ground is made of")
	do(t, "key", "Down")
	do(t, "key", "Down")
	do(t, "key", "Return")
	until(t, "a layer of that soil", func() bool {
		p := project()
		return len(p.Site.Soils) == 1 && len(p.Site.Strata) == 1 && p.Site.Strata[0].Soil == p.Site.Soils[0].ID
	})

	click(t, "4 Box")
	typeIn(t, "Front at distance", "6.5 m")
	until(t, "the front of the box", func() bool { return project().Box.Front == 6.5 })
	level := project().Box.Level
	typeIn(t, "Level of the castings", `-6'4"`)
	want := -(6*0.3048 + 4*0.0254)
	set := func() bool { return math.Abs(project().Box.Level-want) < 1e-9 }
	until(t, "the level of the box as typed", set)
	do(t, "key", "ctrl+z")
	until(t, "the level from before", func() bool { return project().Box.Level == level })
	do(t, "key", "ctrl+y")
	until(t, "the typed level again", set)

	restOfTheWork(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "store.hillset")
	do(t, "key", "ctrl+shift+s")
	do(t, "key", "ctrl+a")
	do(t, "type", "--delay", "10", path)
	do(t, "key", "Return")
	until(t, "the file is saved", func() bool { return window.Desk().Path() == path && !window.Desk().Dirty() })
	if !strings.HasPrefix(window.Title(), "store.hillset") {
		t.Errorf("the title bar says %q", window.Title())
	}

	exportAndLook(t, filepath.Join(dir, "store.pdf"))

	again := desk.New(desk.Options{Post: func(func()) {}})
	if err := again.Open(path); err != nil {
		t.Fatal(err)
	}
	var here *model.Project
	fyne.DoAndWait(func() { here = project() })
	if !reflect.DeepEqual(again.Project(), here) {
		t.Errorf("reopened: %+v\nwas: %+v", again.Project(), here)
	}
}

// restOfTheWork gives the values that no test of the pointer needs.
func restOfTheWork(t *testing.T) {
	t.Helper()
	fyne.DoAndWait(func() {
		err := window.Desk().Edit("The rest", "", func(p *model.Project) error {
			id := p.Site.Soils[0].ID
			p.Bedding.RockSoil, p.Fill.Backfill, p.Fill.RockSoil, p.Fill.CapSoil, p.Fill.TopsoilSoil = id, id, id, id, id
			p.Fill.Plant = "plate"
			// how much was drawn hangs on the room that the window gives; the
			// finished surface is to meet the hill
			last := p.Site.Ground[len(p.Site.Ground)-1]
			p.Site.Ground = append(p.Site.Ground, geom.Vec{last[0] + 10, last[1] + 8})
			high, season := -5.0, -6.0
			p.Site.Water.DesignHigh, p.Site.Water.Seasonal = &high, &season
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	})
	until(t, "a verdict", func() bool {
		return strings.HasPrefix(window.Verdict(), "Beyond limits: ") || strings.HasPrefix(window.Verdict(), "Within limits: ")
	})
}

// exportAndLook writes the sheet by its button and reads it with another
// program.
func exportAndLook(t *testing.T, pdf string) {
	t.Helper()
	click(t, "10 Sheet")
	click(t, "Export PDF…")
	until(t, "the sheet is written", func() bool {
		info, err := os.Stat(pdf)
		return err == nil && info.Size() > 0
	})
	info, err := exec.Command("pdfinfo", pdf).CombinedOutput()
	if err != nil || !strings.Contains(string(info), "(A3)") {
		t.Errorf("pdfinfo: %v\n%s", err, info)
	}
	text, err := exec.Command("pdftotext", "-layout", pdf, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext: %v\n%s", err, text)
	}
	for _, words := range []string{"NOT FOR CONSTRUCTION", "Untitled", "Long section", "Cross section"} {
		if !strings.Contains(string(text), words) {
			t.Errorf("the sheet does not say %q:\n%s", words, text)
		}
	}
}

// built makes the program as it is shipped, once.
var built = sync.OnceValues(func() (string, error) {
	bin := filepath.Join(os.Getenv("HOME"), "hillset-program")
	cmd := exec.Command("go", "build", "-tags", "migrated_fynedo", "-o", bin, ".")
	cmd.Env = append(os.Environ(), "HOME="+firstHome, "XDG_CACHE_HOME="+firstCache)
	out, err := cmd.CombinedOutput()
	if err != nil {
		err = fmt.Errorf("%w\n%s", err, out)
	}
	return bin, err
})

func program(t *testing.T) string {
	t.Helper()
	bin, err := built()
	if err != nil {
		t.Fatalf("building: %v", err)
	}
	return bin
}

// TestWindowNoOutput starts the program as it is shipped: a system without a
// language must see the window and not a line of complaint.
func TestWindowNoOutput(t *testing.T) {
	bin := program(t)
	home := t.TempDir()
	cmd := exec.Command(bin, "../../testdata/potato-store-as-drawn.hillset")
	cmd.Env = append(os.Environ(), "LANG=C", "LC_ALL=", "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_CACHE_HOME="+home)
	var said strings.Builder
	cmd.Stdout, cmd.Stderr = &said, &said
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	select {
	case err := <-ended:
		t.Fatalf("ended within 3 s: %v\n%s", err, said.String())
	case <-time.After(3 * time.Second):
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	<-ended
	if said.Len() > 0 {
		t.Errorf("it printed:\n%s", said.String())
	}
}

// TestWindowWithoutDisplay says in plain words that there is no display, and
// fails.
func TestWindowWithoutDisplay(t *testing.T) {
	bin := program(t)
	cmd := exec.Command(bin)
	home := t.TempDir()
	cmd.Env = append(os.Environ(), "DISPLAY=", "WAYLAND_DISPLAY=", "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_CACHE_HOME="+home)
	out, err := cmd.CombinedOutput()
	if cmd.ProcessState.ExitCode() != 1 || !strings.HasPrefix(string(out), "hillset: there is no display") || strings.Count(string(out), "\n") != 1 {
		t.Errorf("error %v, said:\n%s", err, out)
	}
}
