package earth

import (
	"errors"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"hillset/engine/earth/limit"
)

// TestWorst: the worst of some columns, face after face in the same memory, is
// row by row what their diagrams give merged one by one.
func TestWorst(t *testing.T) {
	rng := rand.New(rand.NewSource(17))
	var room Room
	for i := range 200 {
		cols := make([]Column, rng.Intn(4))
		for k := range cols {
			z := 2 + rng.Float64()
			cols[k] = Column{Water: 3*rng.Float64() - 0.5, Q: float64(rng.Intn(3))}
			for z > -0.5 {
				bottom := z - 0.2 - 2*rng.Float64()
				cols[k].Layers = append(cols[k].Layers, Layer{Name: "soil", Top: z, Bottom: bottom, Gamma: 17 + 2*rng.Float64(), GammaSat: 20,
					Phi: 0.4 + 0.3*rng.Float64(), OCR: 1, Cohesion: 5 * rng.Float64()})
				z = bottom
			}
		}
		e, err := CompactionEnvelope(10, 18, 0.5, 0.1, 0.6)
		if err != nil {
			t.Fatal(err)
		}
		lock := &e
		if i%2 == 0 {
			lock = nil
		}
		st := State(i % 2)
		got, err := Worst(st, cols, 2.5, 0, lock, &room)
		if err != nil {
			t.Fatal(err)
		}
		var want Diagram
		for k, c := range cols {
			d, err := c.Lateral(st, 2.5, 0)
			if err != nil {
				t.Fatal(err)
			}
			if want == nil && k == 0 {
				want = d
			} else {
				want = Merge(want, d)
			}
		}
		if lock != nil {
			want = want.AddCompaction(e)
		}
		if len(got) != len(want) || len(got) > 0 && !reflect.DeepEqual(got, want) {
			t.Fatalf("case %d: %d columns give\n%v\none by one\n%v", i, len(cols), got, want)
		}
	}
}

// TestWorstRefuses: what a column refuses is told, and the room is still good.
func TestWorstRefuses(t *testing.T) {
	good := Column{Water: math.Inf(-1), Layers: []Layer{{Top: 2, Bottom: -1, Gamma: 18, GammaSat: 20, Phi: 0.5, OCR: 1}}}
	bad := good
	bad.Q = math.NaN()
	var room Room
	_, err := Worst(AtRest, []Column{good, bad}, 2, 0, nil, &room)
	var le *limit.Error
	if !errors.As(err, &le) || le.Field != "q" {
		t.Errorf("a column with no load that is a number gives %v", err)
	}
	if d, err := Worst(AtRest, []Column{good}, 2, 0, nil, &room); err != nil || len(d) < 2 {
		t.Errorf("after that the room gives %v, %v", d, err)
	}
}

func BenchmarkWorst(b *testing.B) {
	c := Column{Water: 1, Layers: []Layer{{Top: 2.5, Bottom: 1.5, Gamma: 18, GammaSat: 20, Phi: 0.5, OCR: 1}, {Top: 1.5, Bottom: -1, Gamma: 19, GammaSat: 21, Phi: 0.6, OCR: 1}}}
	cols := []Column{c, c, c}
	cols[1].Q, cols[2].Water = 3, 0
	var room Room
	for b.Loop() {
		if _, err := Worst(AtRest, cols, 2.5, 0, nil, &room); err != nil {
			b.Fatal(err)
		}
	}
}
