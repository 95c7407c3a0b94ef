package sketch

import (
	"errors"
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"hillset/geom"
	"hillset/ui/scene"
)

// corners is a scene of the given sheet with a dark square of 10 mm in the
// lower left corner and one in the upper right; it counts how often it is laid
// out.
type corners struct {
	laid int
	w, h float64
	err  error
}

func (c *corners) draft(w, h float64) (*scene.Scene, error) {
	c.laid++
	c.w, c.h = w, h
	if c.err != nil {
		return nil, c.err
	}
	s := &scene.Scene{MMPerM: 1000}
	for _, at := range []geom.Vec{{0, 0}, {(w - 10) / 1000, (h - 10) / 1000}} {
		s.Items = append(s.Items, scene.Item{Path: &scene.Path{Closed: true, Fill: scene.Ink,
			Parts: []geom.Polyline{{at, at.Add(geom.Vec{0.01, 0}), at.Add(geom.Vec{0.01, 0.01}), at.Add(geom.Vec{0, 0.01})}}}})
	}
	return s, nil
}

func dark(img image.Image, x, y int) bool {
	r, _, _, _ := img.At(x, y).RGBA()
	return r < 0x8000
}

// The sheet fills the chart at any size and density of pixels: 96 units to the
// inch, by the letters' scale.
func TestChartFillsItsPlace(t *testing.T) {
	test.NewTempApp(t)
	for _, letters := range []float64{1, 1.5} {
		for _, ppu := range []int{1, 2} {
			c := &corners{}
			v := NewChart(c.draft, scene.Colours(scene.Light), letters, fyne.NewSize(50, 50))
			test.NewTempWindow(t, v)
			v.Resize(fyne.NewSize(300, 200))
			v.raster.Resize(fyne.NewSize(300, 200))
			img := v.generate(300*ppu, 200*ppu)
			if want := 300 * 25.4 / 96 / letters; math.Abs(c.w-want) > 1e-9 || math.Abs(c.h-want*2/3) > 1e-9 {
				t.Errorf("letters %v: laid out for %v by %v mm, want %v by %v", letters, c.w, c.h, want, want*2/3)
			}
			for _, p := range []struct {
				x, y int
				want bool
			}{{5, 195, true}, {295, 5, true}, {5, 5, false}, {295, 195, false}} {
				if got := dark(img, p.x*ppu, p.y*ppu); got != p.want {
					t.Errorf("letters %v, %d pixels a unit: at %d, %d dark is %v", letters, ppu, p.x, p.y, got)
				}
			}
		}
	}
}

// It is laid out once for a size, and anew after a change of size, look,
// letters or content.
func TestChartIsLaidOutWhenNeeded(t *testing.T) {
	test.NewTempApp(t)
	c := &corners{}
	v := NewChart(c.draft, scene.Colours(scene.Light), 1, fyne.NewSize(50, 50))
	v.Resize(fyne.NewSize(300, 200))
	draw := func() image.Image {
		v.raster.Resize(v.Size())
		return v.generate(int(v.Size().Width), int(v.Size().Height))
	}
	draw()
	draw()
	if c.laid != 1 {
		t.Errorf("laid out %d times for one picture", c.laid)
	}
	for i, change := range []func(){
		func() { v.Resize(fyne.NewSize(320, 200)) }, v.Redraw, func() { v.SetLetters(1.2) }, func() { v.SetPalette(scene.Colours(scene.Dark)) },
	} {
		before := c.laid
		change()
		draw()
		if c.laid != before+1 {
			t.Errorf("change %d: laid out %d times", i, c.laid-before)
		}
	}
	if got, want := draw().At(160, 100), color.Color(scene.Colours(scene.Dark)[scene.Paper]); got != want {
		t.Errorf("paper %v in the dark look, want %v", got, want)
	}
}

// What cannot be laid out says why in its place.
func TestChartSaysWhyItIsEmpty(t *testing.T) {
	test.NewTempApp(t)
	c := &corners{err: errors.New("nothing was worked out")}
	v := NewChart(c.draft, scene.Colours(scene.Light), 1, fyne.NewSize(50, 50))
	v.Resize(fyne.NewSize(300, 200))
	s := v.Scene()
	if s == nil || len(s.Items) != 1 || s.Items[0].Label == nil || s.Items[0].Label.Text != "Nothing was worked out" {
		t.Fatalf("scene %+v", s)
	}
	if at := s.Items[0].Label.At; math.Abs(at[0]*1000-c.w/2) > 1e-9 || math.Abs(at[1]*1000-c.h/2) > 1e-9 {
		t.Errorf("the words stand at %v of a sheet of %v by %v mm", at, c.w, c.h)
	}
}

// Zooming keeps the place under the pointer, lays the sheet out larger and
// never shows what is beside it.
func TestViewerZooms(t *testing.T) {
	test.NewTempApp(t)
	c := &corners{}
	v := NewViewer(c.draft, scene.Colours(scene.Light), 1, fyne.NewSize(50, 50))
	v.Resize(fyne.NewSize(300, 200))
	v.raster.Resize(v.Size())
	v.build()
	w := c.w
	at := fyne.NewPos(300, 0) // the upper right corner
	v.zoomAt(at, 2)
	img := v.generate(300, 200)
	if math.Abs(c.w-2*w) > 1e-9 {
		t.Errorf("laid out %v mm wide, want %v", c.w, 2*w)
	}
	if !dark(img, 295, 5) || dark(img, 5, 195) {
		t.Error("the corner under the pointer did not stay")
	}
	v.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(1e5, -1e5)})
	img = v.generate(300, 200)
	if !dark(img, 5, 195) || dark(img, 295, 5) {
		t.Error("the paper was not moved to its lower left corner, or beyond it")
	}
	for range 100 {
		v.ZoomIn()
	}
	if v.zoom != zoomMost {
		t.Errorf("zoomed by %v", v.zoom)
	}
	v.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -1e6), PointEvent: fyne.PointEvent{Position: at}})
	if v.zoom >= zoomMost || v.zoom < zoomMost/wheelMost-1e-9 {
		t.Errorf("one turn of the wheel zoomed to %v", v.zoom)
	}
	v.Fit()
	img = v.generate(300, 200)
	if v.zoom != 1 || v.left != 0 || v.up != 0 || !dark(img, 5, 195) || !dark(img, 295, 5) {
		t.Errorf("after fitting: zoom %v at %v, %v", v.zoom, v.left, v.up)
	}
}
