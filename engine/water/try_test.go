package water

import (
	"context"
	"testing"
	"time"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

func demo(t testing.TB, name string) *model.Project {
	t.Helper()
	doc, _, err := model.ReadFile("../../testdata/potato-store-" + name + ".hillset")
	if err != nil {
		t.Fatal(err)
	}
	p := doc.Project
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = append(p.Site.Soils[i].Set, "kx")
	}
	return p
}

func TestTry(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		tb := tables.Default()
		nat, err := section.NewLong(p, tb, p.Stages[0])
		if err != nil {
			t.Fatal(err)
		}
		b, _ := section.BoxOf(p, tb)
		back := p.Box.Front + b.L
		for _, wet := range []string{model.WaterSeasonal, model.WaterHigh} {
			t0 := time.Now()
			far, err := Fit(context.Background(), p, nat, Targets(p, wet, back), Ordinary())
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s %s: left %.2f right %.2f full %v miss %v nodes %d in %v", name, wet, far.Left, far.Right, far.Full, far.Misses, len(far.Flow.Head), time.Since(t0))
			for _, st := range p.Stages {
				v, err := section.NewLong(p, tb, st)
				if err != nil {
					t.Fatal(err)
				}
				for _, blocked := range []bool{false, true} {
					t0 := time.Now()
					s, err := Solve(p, v, far.Left, far.Right, Options{Grain: Ordinary(), Blocked: blocked})
					if err != nil {
						t.Errorf("%s %v: %v", st.ID, blocked, err)
						continue
					}
					zb, _ := s.Table.At(back + 0.01)
					zm, _ := s.Table.At(back - 1)
					zf, _ := s.Table.At(p.Box.Front + 0.5)
					t.Logf("  %-9s blocked %-5v nodes %d rounds %d %v: back %.2f mid %.2f front %.2f drains %v pit %.3g slope %.3g in %.3g bal %.1e", st.ID, blocked, len(s.Flow.Head), s.Flow.Rounds, time.Since(t0).Round(time.Microsecond*100), zb, zm, zf, s.Sums.Drains, s.Sums.Within, s.Sums.Beyond, s.Sums.In, s.Sums.Balance()/s.Sums.In)
				}
			}
		}
	}
}
