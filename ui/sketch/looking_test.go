package sketch

import (
	"image"
	"math"
	"math/rand"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"hillset/engine/model"
	"hillset/geom"
)

// Whatever is zoomed and moved, place and point are each other's reverse, and
// the point under the pointer stays there while zooming.
func TestCamera(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	c, ok := fitted(geom.Rect{Min: geom.Vec{-3, 95}, Max: geom.Vec{30, 110}}, fyne.NewSize(900, 600), 50, 40)
	if !ok {
		t.Fatal("no fit")
	}
	for i := 0; i < 2000; i++ {
		at := fyne.NewPos(rnd.Float32()*900, rnd.Float32()*600)
		before := c.point(at)
		c = c.zoomed(at, math.Exp(rnd.NormFloat64()*0.2))
		if d := c.point(at).Sub(before).Len() * c.scale; d > 0.01 {
			t.Fatalf("the point under the pointer moved by %g units", d)
		}
		if c.scale < minScale || c.scale > maxScale {
			t.Fatalf("scale %g", c.scale)
		}
		p := c.panned(13, -7).position(before)
		if math.Abs(float64(p.X-at.X)-13) > 0.02 || math.Abs(float64(p.Y-at.Y)+7) > 0.02 {
			t.Fatalf("moved paper: %v from %v", p, at)
		}
		if math.Abs(before[0]) > 1e3 || math.Abs(before[1]) > 1e3 {
			c, _ = fitted(geom.Rect{Min: geom.Vec{-3, 95}, Max: geom.Vec{30, 110}}, fyne.NewSize(900, 600), 50, 40)
		}
	}
}

func TestFitted(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		r    geom.Rect
		s    fyne.Size
		ok   bool
	}{
		{"ordinary", geom.Rect{Min: geom.Vec{0, 0}, Max: geom.Vec{10, 5}}, fyne.NewSize(400, 300), true},
		{"level line", geom.Rect{Min: geom.Vec{0, 2}, Max: geom.Vec{10, 2}}, fyne.NewSize(400, 300), true},
		{"one point", geom.Rect{Min: geom.Vec{3, 2}, Max: geom.Vec{3, 2}}, fyne.NewSize(400, 300), false},
		{"no room", geom.Rect{Min: geom.Vec{0, 0}, Max: geom.Vec{10, 5}}, fyne.NewSize(40, 30), false},
		{"not a number", geom.Rect{Min: geom.Vec{nan, 0}, Max: geom.Vec{10, 5}}, fyne.NewSize(400, 300), false},
	} {
		cam, ok := fitted(c.r, c.s, 40, 30)
		if ok != c.ok {
			t.Errorf("%s: %v", c.name, ok)
			continue
		}
		if !ok {
			continue
		}
		for _, p := range []geom.Vec{c.r.Min, c.r.Max} {
			q := cam.position(p)
			if q.X < 19 || q.Y < 14 || q.X > c.s.Width-19 || q.Y > c.s.Height-14 {
				t.Errorf("%s: corner %v at %v", c.name, p, q)
			}
		}
	}
}

// A picture that was shifted is the same as one painted anew.
func TestShiftEqualsRepaint(t *testing.T) {
	s := busyScene(300, 20)
	rnd := rand.New(rand.NewSource(9))
	shifted := picture{scene: s, palette: testPalette}
	cam := camera{scale: 25.3, left: 11, top: 260}
	shifted.draw(500, 420, frameFor(cam, 1.5, 1))
	for i := 0; i < 12; i++ {
		cam = cam.panned(rnd.NormFloat64()*30, rnd.NormFloat64()*30)
		f := frameFor(cam, 1.5, 1)
		got := shifted.draw(500, 420, f)
		anew := picture{scene: s, palette: testPalette}
		want := anew.draw(500, 420, f)
		if n := differing(got, want, 2); n > 0 {
			t.Fatalf("step %d: %d pixels differ", i, n)
		}
	}
}

func differing(a, b *image.RGBA, tol int) int {
	n := 0
	for i := range a.Pix {
		if d := int(a.Pix[i]) - int(b.Pix[i]); d > tol || d < -tol {
			n++
		}
	}
	return n
}

// The paper moves with the middle and the right button, with the space bar
// and by its own ground; the model stays as it is. At rest it is drawn anew.
func TestPan(t *testing.T) {
	for _, c := range []struct {
		name string
		move func(r *rig, a, b fyne.Position)
	}{
		{"middle button", func(r *rig, a, b fyne.Position) {
			r.board.MouseDown(mouse(a, desktop.MouseButtonTertiary))
			r.drag(b)
			r.board.MouseUp(mouse(b, desktop.MouseButtonTertiary))
			r.board.DragEnd()
		}},
		{"right button", func(r *rig, a, b fyne.Position) {
			r.board.MouseDown(mouse(a, desktop.MouseButtonSecondary))
			r.board.MouseMoved(mouse(b, desktop.MouseButtonSecondary))
			r.board.MouseUp(mouse(b, desktop.MouseButtonSecondary))
		}},
		{"right button let go outside", func(r *rig, a, b fyne.Position) {
			r.board.MouseDown(mouse(a, desktop.MouseButtonSecondary))
			r.board.MouseMoved(mouse(b, desktop.MouseButtonSecondary))
			r.board.MouseMoved(mouse(b.AddXY(50, 50), 0))
			r.board.MouseMoved(mouse(b.AddXY(90, 50), 0))
		}},
		{"space bar", func(r *rig, a, b fyne.Position) {
			r.board.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
			r.down(a)
			r.drag(b)
			r.up(b, true)
			r.board.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
		}},
		{"tool", func(r *rig, a, b fyne.Position) {
			r.board.SetTool(PanTool)
			r.down(a)
			r.drag(b)
			r.up(b, true)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, LongSection, demo)
			before := r.project()
			a := r.board.cam.position(r.handle("box").At)
			at := r.board.cam.point(a)
			c.move(r, a, a.AddXY(70, -40))
			if q := r.board.cam.position(at); math.Abs(float64(q.X-a.X)-70) > 0.1 || math.Abs(float64(q.Y-a.Y)+40) > 0.1 {
				t.Errorf("the paper moved from %v to %v", a, q)
			}
			if r.project() != before {
				t.Error("the model has changed")
			}
			r.window.Canvas().Capture()
			r.wait()
			r.window.Canvas().Capture()
			if r.board.builtFor != r.board.cam.window(r.board.Size()) {
				t.Error("at rest the drawing does not fit the window")
			}
		})
	}
}

func TestWheel(t *testing.T) {
	r := newRig(t, LongSection, demo)
	at := fyne.NewPos(300, 200)
	scroll := func(dx, dy float32) float64 {
		before, p := r.board.Scale(), r.board.cam.point(at)
		r.board.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(dx, dy)})
		if r.held == 0 && dy != 0 && r.board.cam.point(at).Sub(p).Len() > 1e-3 {
			t.Error("the point under the pointer moved")
		}
		return r.board.Scale() / before
	}
	if f := scroll(0, 25); f < 1.1 || f > 1.3 {
		t.Errorf("a notch zooms by %g", f)
	}
	if f := scroll(0, 25*125); f != wheelMost && math.Abs(f-wheelMost) > 1e-9 {
		t.Errorf("a storm of notches zooms by %g", f)
	}
	if f := scroll(0, -10); f >= 1 {
		t.Errorf("the other way zooms by %g", f)
	}
	r.held = fyne.KeyModifierShift
	if f := scroll(0, 25); f != 1 {
		t.Error("with Shift the wheel zooms")
	}
}

// Fit shows the works, again the whole, and once more the works; the works
// fill the board at every stage and stand still from stage to stage.
func TestFit(t *testing.T) {
	r := newRig(t, LongSection, demo)
	works := r.board.Scale()
	r.board.TypedRune('+')
	r.board.Fit()
	if r.board.Scale() != works {
		t.Error("Fit does not show the works again")
	}
	r.board.TypedRune('f')
	if r.board.Scale() >= works {
		t.Error("Fit again does not show the whole section")
	}
	win, hill := r.board.cam.window(r.board.Size()), r.board.view.Ground
	if win.Min[0] > hill[0][0] || win.Max[0] < hill[len(hill)-1][0] {
		t.Errorf("the whole hill is not in %v", win)
	}
	r.board.Fit()
	if r.board.Scale() != works {
		t.Error("Fit a third time does not come back")
	}
	cam := r.board.cam
	for _, st := range r.project().Stages {
		if err := r.desk.SetStage(st.ID); err != nil {
			t.Fatal(err)
		}
		if st.Kind == model.StageNatural {
			if r.board.Scale() >= works {
				t.Error("the hill as found is not shown whole")
			}
		} else if r.board.cam != cam {
			t.Errorf("the drawing jumps at stage %s", st.ID)
		}
	}
}

// The first look at boards of many sizes shows the works with land on both
// sides, and they fill the board one way or the other.
func TestFirstFit(t *testing.T) {
	for _, kind := range []Kind{LongSection, CrossSection} {
		for _, s := range []fyne.Size{fyne.NewSize(575, 550), fyne.NewSize(350, 550), fyne.NewSize(900, 500), fyne.NewSize(1500, 900), fyne.NewSize(260, 200)} {
			r := newRig(t, kind, demo)
			r.window.Resize(s)
			v, win := r.board.view, r.board.cam.window(r.board.Size())
			room, ok := r.board.works()
			if !ok {
				t.Fatal("no works")
			}
			land := landLong
			if kind == CrossSection {
				land = landCross
			}
			for _, p := range []geom.Vec{v.Crest.Add(geom.Vec{land, 0}), v.Box.Min.Sub(geom.Vec{land, 0}), v.Box.Max} {
				if !room.Contains(p) || !win.Contains(p) {
					t.Errorf("board %v of kind %d: %v is not in %v, shown %v", s, kind, p, room, win)
				}
			}
			if f := math.Max(room.W()/win.W(), room.H()/win.H()); f < 0.54 {
				t.Errorf("board %v of kind %d: the works take %.2f of it", s, kind, f)
			}
		}
	}
}

// At a scale of 1.5 the drawing is made in the pixels of the screen.
func TestHiDPI(t *testing.T) {
	r := newRig(t, LongSection, demo)
	c, ok := r.window.Canvas().(interface{ SetScale(float32) })
	if !ok {
		t.Fatal("the canvas of the test has no scale")
	}
	r.window.Canvas().Capture()
	one := r.board.pic.frame
	c.SetScale(1.5)
	r.window.Canvas().Capture()
	two := r.board.pic.frame
	if math.Abs(two.Scale/one.Scale-1.5) > 0.02 || math.Abs(two.PxPerMM/one.PxPerMM-1.5) > 0.02 {
		t.Errorf("scale %g to %g", one.Scale, two.Scale)
	}
	if img := r.board.pic.img; img.Stride != 4*img.Rect.Dx() || img.Rect.Dx() < 1490 {
		t.Errorf("image %v, stride %d", img.Rect, img.Stride)
	}
}
