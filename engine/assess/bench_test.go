package assess

import (
	"context"
	"fmt"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// BenchmarkRunDemo is one step of a drag: with the drawing it must stay within
// a frame of 16 ms.
func BenchmarkRunDemo(b *testing.B) {
	p := demo(b, "put-right")
	b.ReportAllocs()
	for b.Loop() {
		run(b, p)
	}
}

// BenchmarkAnswers follows a drag when it has come to rest.
func BenchmarkAnswers(b *testing.B) {
	p := demo(b, "put-right")
	r := run(b, p)
	b.ReportAllocs()
	for b.Loop() {
		if err := Answers(context.Background(), r, tables.Default()); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkGrowth shows how the work grows with the stations of a longer box
// and with the stages: no faster than their product.
func BenchmarkGrowth(b *testing.B) {
	for _, c := range []struct {
		box    string
		stages int
	}{{"20std", 12}, {"40std", 12}, {"40std", 24}, {"40std", 48}} {
		b.Run(fmt.Sprintf("%s, %d stages", c.box, c.stages), func(b *testing.B) {
			p := grown(b, c.box, c.stages)
			r := run(b, p)
			if len(r.Blocks) > 0 {
				b.Fatal(r.Blocks)
			}
			b.ReportAllocs()
			for b.Loop() {
				run(b, p)
			}
			b.ReportMetric(float64(len(r.Loads)), "walls/op")
		})
	}
}

// grown is the store with another box and with lifts added up to a number of
// stages, each filled to another height and so loaded in its own way.
func grown(t testing.TB, box string, stages int) *model.Project {
	t.Helper()
	p := demo(t, "put-right").Clone()
	p.Box.Type, p.Box.Front = box, 9.2
	more := stages - len(p.Stages)
	for i := range more {
		p.Stages = append(p.Stages, model.Stage{ID: fmt.Sprintf("lift-%d", i), Name: fmt.Sprintf("Lift %d", i),
			Kind: model.StageBackfill, FillTo: 0.2 + 0.8*float64(i)/float64(more), OneSide: true})
	}
	return p
}
