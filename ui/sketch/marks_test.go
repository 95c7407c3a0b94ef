package sketch

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/geom"
	"hillset/ui/scene"
)

// outlook is the board of a small window in the three looks of the screen.
func outlook(t *testing.T, each func(r *rig, look scene.Look)) {
	t.Helper()
	for _, look := range []scene.Look{scene.Light, scene.Dark, scene.Daylight} {
		for _, kind := range []Kind{LongSection, CrossSection} {
			r := newRig(t, kind, mended)
			if kind == CrossSection {
				r.desk.SetStation(r.project().Box.Front + 3)
				r.window.Resize(fyne.NewSize(350, 550))
			} else {
				r.window.Resize(fyne.NewSize(575, 550))
			}
			r.board.SetPalette(scene.Colours(look))
			each(r, look)
		}
	}
}

// Handles are seen in every look without the pointer near: in the colour of
// what can be taken hold of, close to their place.
func TestHandlesAreSeen(t *testing.T) {
	outlook(t, func(r *rig, look scene.Look) {
		b := r.board
		r.window.Canvas().Capture()
		img := r.window.Canvas().Capture()
		green := b.palette[scene.Selection]
		seen := 0
		for _, h := range b.handles {
			at := b.cam.position(h.At)
			if !b.within(at) || at.X < b.axisStrip() {
				continue
			}
			n := 0
			for y := int(at.Y) - 9; y <= int(at.Y)+9; y++ {
				for x := int(at.X) - 9; x <= int(at.X)+9; x++ {
					if near8(img.At(x, y), green) {
						n++
					}
				}
			}
			if n < 4 {
				t.Errorf("%s: %d pixels of handle %s at %v", look, n, h.ID, at)
			}
			seen++
		}
		if seen < 5 {
			t.Errorf("%s: only %d handles in the window", look, seen)
		}
	})
}

func near8(c color.Color, want color.RGBA) bool {
	r, g, b, _ := c.RGBA()
	d := func(a uint32, b uint8) float64 { return math.Abs(float64(a>>8) - float64(b)) }
	return d(r, want.R)+d(g, want.G)+d(b, want.B) < 60
}

// However little of a handle is drawn, it is hit from ten units away where no
// other one is nearer.
func TestHandlesAreEasyToHit(t *testing.T) {
	const away = 10
	r := newRig(t, LongSection, mended)
	b := r.board
	tried := 0
	for i := range b.handles {
		h := &b.handles[i]
		for k := 0; k < 8; k++ {
			sin, cos := math.Sincos(float64(k) * math.Pi / 4)
			at := b.cam.position(h.At).AddXY(float32(away*cos), float32(away*sin))
			alone := true
			for j := range b.handles {
				alone = alone && (j == i || distance(at, b.cam.position(b.handles[j].At)) > away+1)
			}
			if !alone {
				continue
			}
			tried++
			if got := b.hit(at); got == nil || got.ID != h.ID {
				t.Errorf("%s is not hit from %v", h.ID, at)
			}
		}
	}
	if tried < 40 {
		t.Errorf("only %d places tried", tried)
	}
}

// A handle is small until the pointer comes near, and full when selected.
func TestHandlesGrow(t *testing.T) {
	r := newRig(t, LongSection, mended)
	b := r.board
	h := r.handle("site.ground[2]")
	at := b.cam.position(h.At)
	side := func() float32 { k, _ := b.overlay.lookOf(&h, at); return k.side }
	if s := side(); s > 7 {
		t.Errorf("a handle that nobody is near is %g wide", s)
	}
	before := b.nearby
	b.MouseIn(mouse(at.AddXY(30, 0), 0))
	b.MouseMoved(mouse(at.AddXY(30, 0), 0))
	if side() <= quietLook.side || b.nearby == before {
		t.Error("the handle does not grow when the pointer comes near")
	}
	b.MouseOut()
	if side() != quietLook.side {
		t.Error("the handle does not shrink when the pointer is gone")
	}
	b.Select(h.ID)
	if side() != selectedLook.side {
		t.Error("the selected handle is not drawn in full")
	}
}

// No handle stands on the level axis, except the one that is selected.
func TestAxisIsKeptClear(t *testing.T) {
	r := newRig(t, LongSection, mended)
	b := r.board
	h := r.handle("site.ground[1]")
	r.window.Canvas().Capture()
	strip := b.axisStrip()
	if strip < 30 || strip > 120 {
		t.Fatalf("the strip of the axis is %g wide", strip)
	}
	at := b.cam.position(h.At)
	b.Pan(strip/2-at.X, 0)
	r.wait()
	r.window.Canvas().Capture()
	count := func() int {
		b.overlay.place()
		n := 0
		for _, m := range b.overlay.marks {
			if m.Visible() && m.Position().X+m.Size().Width/2 < b.axisStrip() {
				n++
			}
		}
		return n
	}
	if n := count(); n != 0 {
		t.Errorf("%d handles on the axis", n)
	}
	b.Select(h.ID)
	if n := count(); n != 1 {
		t.Errorf("%d handles on the axis with one selected there", n)
	}
}

// Water levels are held where the level is in the ground, apart from each
// other.
func TestWaterHandlesStandInTheGround(t *testing.T) {
	p := richProject(t)
	p.Site.Water.Computed = false // then both stand where they are found, one over the other
	s := sections(p)[0]
	v, err := s.view(p)
	if err != nil {
		t.Fatal(err)
	}
	a, b := find(t, s.handles(p, v), "site.water.design_high"), find(t, s.handles(p, v), "site.water.seasonal")
	for _, h := range []Handle{a, b} {
		if z, ok := v.Ground.At(h.At[0]); !ok || z < h.At[1] {
			t.Errorf("%s at %v, the ground is at %g", h.ID, h.At, z)
		}
	}
	if d := math.Abs(a.At[0] - b.At[0]); d < 0.4 {
		t.Errorf("the handles of two levels are %g m apart", d)
	}
}

// An empty board says in its middle what to do, and the hill as found what
// comes next.
func TestBoardsSayWhatToDo(t *testing.T) {
	middle := func(r *rig) (words string, off float64) {
		r.window.Canvas().Capture()
		win := r.board.cam.window(r.board.Size())
		for _, it := range r.board.pic.scene.Items {
			if l := it.Label; l != nil && (l.Tag == "missing" || l.Tag == "advice") {
				words += l.Text + " "
				off = math.Max(off, math.Abs(l.At[0]-win.Center()[0])/win.W())
			}
		}
		return words, off
	}
	for _, kind := range []Kind{LongSection, CrossSection} {
		r := newRig(t, kind, "")
		if words, off := middle(r); len(words) < 20 || off > 0.01 {
			t.Errorf("kind %d, empty: %q, %.2f off the middle", kind, words, off)
		}
		r = newRig(t, kind, demo)
		if err := r.desk.SetStage("natural"); err != nil {
			t.Fatal(err)
		}
		if words, off := middle(r); !strings.Contains(words, "stage") || off > 0.01 {
			t.Errorf("kind %d, hill as found: %q, %.2f off the middle", kind, words, off)
		}
	}
	r := newRig(t, LongSection, "")
	r.board.SetTool(DrawGround)
	r.click(geom.Vec{1, 0})
	r.click(geom.Vec{6, 1.2})
	if words, _ := middle(r); strings.Contains(words, "Draw the hill") {
		t.Errorf("with a line drawn: %q", words)
	}
}

// Who presses inside the box means the box: points of the site there are only
// for the tools that draw the site, and for stages without a box.
func TestSiteInsideTheBox(t *testing.T) {
	r := newRig(t, LongSection, mended)
	b := r.board
	const inside = "site.ground[3]"
	at := r.project().Site.Ground[3]
	if !b.view.HasBox || !b.view.Box.Contains(at) {
		t.Fatalf("%v is not inside the box: the test needs another point", at)
	}
	if b.handle(inside) != nil {
		t.Error("a ground point lies over the box")
	}
	if got := b.hit(b.cam.position(at)); got == nil || got.ID != "box" {
		t.Errorf("a press inside the box takes %v", got)
	}
	b.SetTool(DrawGround)
	if b.handle(inside) == nil {
		t.Error("the tool that draws the ground does not reach the point")
	}
	b.SetTool(Select)
	if b.handle(inside) != nil {
		t.Error("the point is back over the box")
	}
}
