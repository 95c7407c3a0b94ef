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

func TestField(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		for _, blocked := range []bool{false, true} {
			for i := range p.Stages {
				p.Stages[i].Blocked = blocked
			}
			t0 := time.Now()
			f, err := Compute(context.Background(), p, tables.Default())
			if err != nil {
				t.Fatal(err)
			}
			t.Log(name, blocked, time.Since(t0))
			for _, st := range p.Stages {
				w, err := f.At(st)
				if err != nil {
					if err != ErrNoCondition {
						t.Error(st.ID, err)
					}
					continue
				}
				mean, most, at := w.Long.Under()
				t.Logf("  %s box %.2f back %+v front %+v under %.2f %.2f at %.2f drains %v", st.ID, p.Box.Level, w.Long.At(section.Back), w.Long.At(section.Front), mean, most, at, w.Long.Sums.Drains)
				for _, c := range w.Cross {
					mean, most, _ := c.Under()
					t.Logf("     at %.2f left %+v right %+v under %.2f %.2f drains %v ups %v", c.View.Station, c.At(section.Left), c.At(section.Right), mean, most, c.Sums.Drains, c.Flow.Upstream)
				}
			}
		}
	}
}
