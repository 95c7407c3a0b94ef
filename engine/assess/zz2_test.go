package assess

import (
	"context"
	"fmt"
	"hillset/engine/model"
	"hillset/engine/tables"
	"testing"
)

func TestYY(t *testing.T) {
	d, _, _ := model.ReadFile("../../testdata/potato-store-put-right.hillset")
	for _, c := range []float64{-1.2, -1.0, -0.5, -0.2, 0, 0.1, 0.3, 0.6, 1.0, 1.5} {
		p := d.Project.Clone()
		p.Fill.FrontTop, p.Fill.BackTop = c, c
		if c < 0.1 {
			p.Fill.Roof = nil
		}
		r, _ := Run(context.Background(), p, tables.Default())
		fmt.Println(c, len(r.Blocks))
		for _, b := range r.Blocks {
			fmt.Println("  ", b.Error())
		}
		if g := r.Governing(); g != nil {
			fmt.Println("  ", g.ID, g.Worst())
		}
	}
}
