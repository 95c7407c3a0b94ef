package assess

import (
	"context"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// BenchmarkAnswersComputed and BenchmarkAdviseComputed are to stay within one
// and a half times what they take in given water.
func BenchmarkAnswersComputed(b *testing.B) {
	for name, p := range map[string]*model.Project{"given": demo(b, "put-right"), "computed": computedDemo(b, "put-right")} {
		b.Run(name, func(b *testing.B) {
			r := run(b, p)
			for b.Loop() {
				if err := Answers(context.Background(), r, tables.Default()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAdviseComputed(b *testing.B) {
	for name, p := range map[string]*model.Project{"given": demo(b, "put-right"), "computed": computedDemo(b, "put-right")} {
		b.Run(name, func(b *testing.B) {
			p.Strengthening.BackWales, p.Strengthening.Ribs.RoofBeam = nil, "shs50x3" // something to mend
			r := run(b, p)
			for b.Loop() {
				if _, err := Advise(context.Background(), r, tables.Default(), nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
