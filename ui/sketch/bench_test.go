package sketch

import (
	"image"
	"path/filepath"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/desk"
	"hillset/ui/scene"
)

// benchProject is the demonstration and the stage that shows most.
func benchProject(b *testing.B) (*model.Project, model.Stage) {
	b.Helper()
	doc, _, err := model.ReadFile(filepath.Join("..", "..", "testdata", demo))
	if err != nil {
		b.Fatal(err)
	}
	for _, st := range doc.Project.Stages {
		if st.ID == "high" {
			return doc.Project, st
		}
	}
	b.Fatal("the demonstration has no stage of high water")
	return nil, model.Stage{}
}

// One step of a drag, all of it: copy and change the model, build section and
// handles, build the scene, paint 1600 by 1000 pixels. The assessment runs
// beside it and is measured where it lives.
func BenchmarkDragStep(b *testing.B) {
	p, st := benchProject(b)
	d := desk.New(desk.Options{Post: func(f func()) { f() }})
	defer func() {
		if err := d.Discard(); err != nil {
			b.Error(err)
		}
	}()
	if err := d.Edit("start", "", func(q *model.Project) error { *q = *p.Clone(); return nil }); err != nil {
		b.Fatal(err)
	}
	if err := d.SetStage(st.ID); err != nil {
		b.Fatal(err)
	}
	src := &deskSource{d: d, kind: LongSection}
	cam := camera{scale: 34, left: -100, top: 3600}
	pic := picture{palette: scene.Colours(scene.Light)}
	step := 0.0
	b.ReportAllocs()
	for b.Loop() {
		step += 0.01
		if step > 1 {
			step = 0
		}
		if err := src.Edit("Move box", "bench", func(q *model.Project) error { q.Box.Front = p.Box.Front + step; return nil }); err != nil {
			b.Fatal(err)
		}
		v, err := src.View()
		if err != nil {
			b.Fatal(err)
		}
		LongHandles(src.Project(), v)
		win := geom.Rect{Min: geom.Vec{-3, 90}, Max: geom.Vec{44, 110}}
		if pic.scene, err = src.Scene(v, cam.scale/unitsPerMM, win); err != nil {
			b.Fatal(err)
		}
		pic.fresh = false
		pic.draw(1600, 1000, frameFor(cam, 1, 1))
	}
}

// The painting alone, of the demonstration as it is drawn.
func BenchmarkPaintDemo(b *testing.B) {
	p, st := benchProject(b)
	v, err := section.NewLong(p, tables.Default(), st)
	if err != nil {
		b.Fatal(err)
	}
	cam := camera{scale: 34, left: -100, top: 3600}
	s, err := scene.Build(v, nil, scene.Options{MMPerM: cam.scale / unitsPerMM, Clip: geom.Rect{Min: geom.Vec{-3, 90}, Max: geom.Vec{44, 110}}})
	if err != nil {
		b.Fatal(err)
	}
	img := image.NewRGBA(image.Rect(0, 0, 1600, 1000))
	var paint Painter
	pal := scene.Colours(scene.Light)
	for b.Loop() {
		paint.Paint(img, s, frameFor(cam, 1, 1), pal)
	}
}

// One step of moving the paper: the picture is shifted and two strips painted.
func BenchmarkPanStep(b *testing.B) {
	s := busyScene(1500, 120)
	pic := picture{scene: s, palette: testPalette}
	cam := camera{scale: 66, top: 700}
	pic.draw(1600, 1000, frameFor(cam, 1, 1))
	dx := 7.0
	for b.Loop() {
		cam = cam.panned(dx, 3)
		pic.draw(1600, 1000, frameFor(cam, 1, 1))
		if cam.left > 500 || cam.left < -500 {
			dx = -dx
		}
	}
}
