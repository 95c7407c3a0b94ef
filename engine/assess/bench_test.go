package assess

import (
	"context"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"hillset/engine/box"
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
func grown(t testing.TB, size string, stages int) *model.Project {
	t.Helper()
	p := demo(t, "put-right").Clone()
	p.Box.Type, p.Box.Front = size, 9.2
	more := stages - len(p.Stages)
	for i := range more {
		p.Stages = append(p.Stages, model.Stage{ID: fmt.Sprintf("lift-%d", i), Name: fmt.Sprintf("Lift %d", i),
			Kind: model.StageBackfill, FillTo: 0.2 + 0.8*float64(i)/float64(more), OneSide: true})
	}
	return p
}

// pressed is an assessment whose loads stand: what earth, water, cover and
// wheels press on every wall and roof is known, and the structure is to be
// worked under it.
type pressed struct {
	j      *job
	stages []stageResult
	places []*place
	parts  []part
}

// pressAt presses the store end-on at n even stations in all its stages.
func pressAt(b *testing.B, p *model.Project, n int) *pressed {
	b.Helper()
	j, err := newJob(p, tables.Default())
	if err != nil {
		b.Fatal(err)
	}
	j.drawn = true
	s := &pressed{j: j, stages: make([]stageResult, len(p.Stages))}
	plan, long, err := j.lay()
	if err != nil {
		b.Fatal(err)
	}
	var loaded []*stageResult
	for i := range s.stages {
		sr := &s.stages[i]
		sr.st = p.Stages[i]
		if err := j.look(long, sr); err != nil {
			b.Fatal(err)
		}
		if sr.loaded {
			sr.sides, sr.tops = make([]sideLoads, n), make([]topLoad, n)
			loaded = append(loaded, sr)
		}
	}
	back := &place{j: j, x: j.backX}
	for _, sr := range loaded {
		if sr.back, sr.fault = back.backWall(sr.view); sr.fault != nil {
			b.Fatal(sr.fault)
		}
	}
	s.places = append(s.places, back)
	for i := range n {
		pl := j.newPlace(plan, j.frontX+j.depth*float64(i)/float64(n-1))
		pl.ring(loaded, i)
		s.places = append(s.places, pl)
	}
	for i := range s.stages {
		if err := s.stages[i].gather(); s.stages[i].loaded && err != nil {
			b.Fatal(err)
		}
	}
	for _, part := range j.parts() {
		if part.checks[0].id != "flotation" { // the box on its ground is no part of it
			s.parts = append(s.parts, part)
		}
	}
	return s
}

// count is how many walls, roof sheets and ribs are solved: stages that load
// one alike share it.
func (s *pressed) count() (n int) {
	for _, pl := range s.places {
		n += len(pl.walls) + len(pl.sheets) + len(pl.ribs)
	}
	return n
}

// structure is the structural part of an assessment alone: every wall strip,
// roof sheet and rib under its load, on all processors; then rails, wales,
// purlins, posts and all checks, stage by stage, and the workings of those that
// govern.
func (s *pressed) structure(b *testing.B) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := next.Add(1) - 1; i < int64(len(s.places)); i = next.Add(1) - 1 {
				if err := s.places[i].again(); err != nil {
					b.Error(err)
				}
			}
		}()
	}
	wg.Wait()
	worst := newWorst()
	for i := range s.stages {
		sr := &s.stages[i]
		if !sr.loaded {
			continue
		}
		s.j.wallChecks(sr, worst)
		for _, part := range s.parts {
			if err := part.run(sr, worst); err != nil {
				b.Error(err)
			}
		}
	}
	worst.checks()
}

// again solves what stands here once more under the loads it has.
func (pl *place) again() error {
	for _, w := range pl.walls {
		if err := pl.j.solve(w); err != nil {
			return err
		}
	}
	for _, s := range pl.sheets {
		if err := s.solve(); err != nil {
			return err
		}
	}
	for _, r := range pl.ribs {
		r.ring, r.into = nil, [2]box.Inward{}
		if err := r.solve(pl.j); err != nil {
			return err
		}
	}
	return nil
}

// BenchmarkStructure is a full structural run, loads given: a 40 ft box at 0.6 m
// stations and 12 stages, target 5 ms on two cores; then twice and four times
// the stations and the stages.
func BenchmarkStructure(b *testing.B) {
	for _, c := range []struct{ stations, stages int }{{21, 12}, {42, 12}, {84, 12}, {21, 24}, {21, 48}} {
		b.Run(fmt.Sprintf("%d stations, %d stages", c.stations, c.stages), func(b *testing.B) {
			s := pressAt(b, grown(b, "40std", c.stages), c.stations)
			b.ReportAllocs()
			for b.Loop() {
				s.structure(b)
			}
			b.ReportMetric(float64(s.count()), "solved/op")
		})
	}
}
