package assess

import (
	"context"
	"fmt"
	"hillset/engine/model"
	"hillset/engine/tables"
	"testing"
	"time"
)

func TestZZ(t *testing.T) {
	for _, f := range []string{"as-drawn", "put-right"} {
		d, _, err := model.ReadFile("../../testdata/potato-store-" + f + ".hillset")
		if err != nil {
			t.Fatal(err)
		}
		r, err := Run(context.Background(), d.Project, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		fmt.Println("=====", f)
		for _, b := range r.Blocks {
			fmt.Println("BLOCK", b.Error())
		}
		for _, c := range r.Checks {
			fmt.Printf("%-18s %-22s %-10s x=%.2f asd %.2f lrfd %.2f  %s D=%.3f C=%.3f %s\n", c.ID, c.Part, c.Stage, c.Station, c.Ratio, c.RatioLRFD, c.Verdict(), c.Demand.Val, c.Capacity.Val, c.Missing)
		}
		for _, l := range r.Loads {
			if l.Stage == "high" && (l.Face == "back" || l.Station == r.Project.Box.Front) {
				fmt.Printf("%s %s x=%.2f thrust %.1f\n", l.Stage, l.Face, l.Station, l.Thrust)
			}
		}
		for _, l := range r.Roofs {
			if l.Stage == "snow" || l.Stage == "plant" {
				fmt.Printf("%+v\n", l)
			}
		}
		t0 := time.Now()
		Answers(context.Background(), r, tables.Default())
		fmt.Println("answers", time.Since(t0))
		fmt.Printf("%+v\n%+v\n", r.Depth, r.WaterUp)
	}
}
func BenchmarkZZ(b *testing.B) {
	d, _, _ := model.ReadFile("../../testdata/potato-store-put-right.hillset")
	for b.Loop() {
		Run(context.Background(), d.Project, tables.Default())
	}
}
