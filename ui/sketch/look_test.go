package sketch

import (
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/geom"
	"hillset/ui/scene"
	"hillset/ui/units"
)

var pictures = flag.String("pictures", "", "folder to write pictures of boards to, for a look")

// small gives the board the size it has in a window of 1280 by 800, and waits
// for the result.
func (r *rig) small(w, h float32) {
	r.window.Resize(fyne.NewSize(w, h))
	r.desk.SetStation(r.project().Box.Front + 3)
	r.result()
}

func (r *rig) save(name string) {
	r.t.Helper()
	img := r.window.Canvas().Capture()
	if *pictures == "" {
		return
	}
	writePNG(r.t, filepath.Join(*pictures, name+".png"), img)
}

func writePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

// Every state of a board that a user meets can be captured; with -pictures
// they are written for a look. What is captured is neither empty nor plain.
func TestBoardsCanBeSeen(t *testing.T) {
	for _, c := range []struct {
		name  string
		kind  Kind
		file  string
		stage string
		do    func(r *rig)
	}{
		{"long", LongSection, demo, "", func(r *rig) {}},
		{"cross", CrossSection, demo, "", func(r *rig) { r.desk.SetStation(r.project().Box.Front + 4) }},
		{"long-cut", LongSection, demo, "cut", func(r *rig) {}},
		{"long-dark", LongSection, demo, "", func(r *rig) { r.board.SetPalette(scene.Colours(scene.Dark)) }},
		{"drag-box", LongSection, demo, "", func(r *rig) {
			p := r.board.cam.position(r.handle("box").At)
			r.down(p)
			r.drag(p.AddXY(18, -12))
		}},
		{"zoomed", LongSection, demo, "", func(r *rig) {
			at := r.board.cam.position(r.handle("box").At)
			for i := 0; i < 8; i++ {
				r.board.zoom(at, zoomStep)
			}
		}},
		{"typing", LongSection, demo, "", func(r *rig) {
			r.board.Select("cut.batter")
			r.key(fyne.KeyReturn)
		}},
		{"empty", LongSection, "", "", func(r *rig) {}},
		{"small-long", LongSection, demo, "", func(r *rig) { r.small(575, 550) }},
		{"small-cross", CrossSection, demo, "", func(r *rig) { r.small(350, 550) }},
		{"small-long-high", LongSection, demo, "high", func(r *rig) { r.small(575, 550) }},
		{"small-cross-high", CrossSection, demo, "high", func(r *rig) { r.small(350, 550) }},
		{"small-long-mended", LongSection, mended, "high", func(r *rig) { r.small(575, 550) }},
		{"small-cross-mended", CrossSection, mended, "high", func(r *rig) { r.small(350, 550) }},
		{"small-long-feet", LongSection, mended, "cover", func(r *rig) {
			r.small(575, 550)
			r.desk.SetUnits(units.US)
			r.board.SetPalette(scene.Colours(scene.Dark))
		}},
		{"small-cross-feet", CrossSection, mended, "cover", func(r *rig) {
			r.small(350, 550)
			r.desk.SetUnits(units.US)
			r.board.SetPalette(scene.Colours(scene.Dark))
		}},
		{"small-natural", LongSection, demo, "natural", func(r *rig) { r.small(575, 550) }},
		{"small-whole", LongSection, demo, "", func(r *rig) {
			r.small(575, 550)
			r.board.Fit()
		}},
		{"drawing", LongSection, "", "", func(r *rig) {
			r.board.SetTool(DrawGround)
			r.click(geom.Vec{1, 0})
			r.click(geom.Vec{6, 1.2})
			r.click(geom.Vec{12, 2.9})
			r.board.MouseMoved(mouse(r.board.cam.position(geom.Vec{17, 4.1}), 0))
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRated(t, c.kind, c.file)
			if c.stage != "" {
				if err := r.desk.SetStage(c.stage); err != nil {
					t.Fatal(err)
				}
			}
			c.do(r)
			img := r.window.Canvas().Capture()
			if n := colours(img); n < 3 {
				t.Errorf("only %d colours on the board; %v", n, r.board.Why())
			}
			r.save(c.name)
		})
	}
}

func colours(img image.Image) int {
	seen := map[[4]uint32]bool{}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y += 3 {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, bl, a := img.At(x, y).RGBA()
			seen[[4]uint32{r, g, bl, a}] = true
		}
	}
	return len(seen)
}
