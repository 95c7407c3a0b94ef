package dig

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

var classes = []string{Rock, A, B, C, None}

// randomFace makes a face without benches, below 20 ft and from 5 ft up.
func randomFace(r *rand.Rand) BatterInput {
	in := BatterInput{HoursOpen: r.Float64() * 48}
	at, k := 0.0, 1+r.IntN(4)
	for range k {
		h := (protectFrom + r.Float64()*(tabulatedTo-protectFrom)) / float64(k)
		in.Pieces = append(in.Pieces, Piece{Stratum: "s", Class: classes[r.IntN(len(classes))], Foot: at, Top: at + h, N: 0.1 + 2*r.Float64()})
		at += h
	}
	return in
}

// The table written out once more, by hand (R2, R3).
var byHand = map[string]float64{Rock: 0, A: 0.75, B: 1, C: 1.5, None: 1.5}

// Brute force over pairs of layers: every layer is at least as flat as itself
// and as every layer below it, unless the whole face is class A for a day.
func TestRequiredByPairs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		in := randomFace(r)
		req, err := Required(in)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for i, p := range in.Pieces {
			want := 0.0
			for j := 0; j <= i; j++ {
				want = math.Max(want, byHand[in.Pieces[j].Class])
			}
			if short := in.HoursOpen <= 24 && in.height() <= 12*foot; !(short && allOf(in, A)) && req.N[i] != want {
				t.Fatalf("%+v: piece %d asks %g, want %g", in, i, req.N[i], want)
			}
			worst = math.Max(worst, req.N[i]/p.N)
		}
		if got := BatterCheck(in); math.Abs(got.Ratio-worst) > 1e-12 {
			t.Fatalf("ratio %g, want %g", got.Ratio, worst)
		}
	}
}

func allOf(in BatterInput, class string) bool {
	for _, p := range in.Pieces {
		if p.Class != class {
			return false
		}
	}
	return true
}

// Nothing that makes the ground worse lowers what is asked; nothing that makes
// the face flatter raises the ratio.
func TestWorseGroundNeverAsksLess(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		in := randomFace(r)
		before := BatterCheck(in).Ratio
		worse := in
		worse.Pieces = append([]Piece(nil), in.Pieces...)
		switch i := r.IntN(len(worse.Pieces)); r.IntN(5) {
		case 0:
			worse.Seepage = true
		case 1:
			worse.Fissured = true
		case 2:
			worse.Distress = true
		case 3:
			worse.Pieces[i].N *= 0.9
		case 4:
			worse.Pieces[i].Class = C
		}
		if after := BatterCheck(worse).Ratio; after < before-1e-12 {
			t.Fatalf("%+v: ratio %g, in worse ground %g", in, before, after)
		}
	}
}

// bad lists one fault each; none may pass, panic or give a number.
func bad() map[string]BatterInput {
	good := func() BatterInput { return BatterInput{Pieces: faceOf(B, 10, 1, 2)} }
	out := map[string]BatterInput{"no pieces": {}}
	for name, set := range map[string]func(*BatterInput){
		"class":        func(in *BatterInput) { in.Pieces[0].Class = "D" },
		"gap":          func(in *BatterInput) { in.Pieces[1].Foot += 0.1 },
		"first foot":   func(in *BatterInput) { in.Pieces[0].Foot = 0.1 },
		"empty piece":  func(in *BatterInput) { in.Pieces[1].Top = in.Pieces[1].Foot },
		"upside down":  func(in *BatterInput) { in.Pieces[1].Top = 0 },
		"overhang":     func(in *BatterInput) { in.Pieces[1].N = -0.1 },
		"NaN batter":   func(in *BatterInput) { in.Pieces[1].N = math.NaN() },
		"Inf batter":   func(in *BatterInput) { in.Pieces[1].N = math.Inf(1) },
		"NaN top":      func(in *BatterInput) { in.Pieces[1].Top = math.NaN() },
		"NaN step":     func(in *BatterInput) { in.Pieces[1].Step = math.NaN() },
		"height below": func(in *BatterInput) { in.Height = 1 },
		"NaN height":   func(in *BatterInput) { in.Height = math.NaN() },
		"hours":        func(in *BatterInput) { in.HoursOpen = -1 },
		"shield":       func(in *BatterInput) { in.ShieldTop = math.Inf(1) },
	} {
		in := good()
		set(&in)
		out[name] = in
	}
	return out
}

func TestBadFaces(t *testing.T) {
	for name, in := range bad() {
		if _, err := Required(in); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
		if c := BatterCheck(in); c.Verdict() != check.NotChecked || c.Missing == "" || !math.IsNaN(c.Ratio) {
			t.Errorf("%s: %v, ratio %g", name, c.Verdict(), c.Ratio)
		}
	}
	for _, v := range [][3]float64{{math.NaN(), 0, 1}, {-1, 0, 1}, {1, math.Inf(1), 1}, {1, 0, -1}, {1, 0, math.NaN()}} {
		if _, _, err := Crest(v[0], v[1], v[2]); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("Crest%v: error %v", v, err)
		}
	}
}

// No input makes a panic, or a number that is not one without saying why.
func FuzzBatterCheck(f *testing.F) {
	f.Add(2.0, 1.0, 0.5, 4.0, 0.0, 12.0, 0.0, 0.0, uint8(7))
	f.Add(1.0, 0.0, 1.0, 6.5, 1.0, 0.0, 2.0, 7.0, uint8(255))
	f.Fuzz(func(t *testing.T, t1, n1, step, t2, n2, hours, shield, height float64, bits uint8) {
		in := BatterInput{
			Pieces: []Piece{
				{Class: classes[bits&3], Top: t1, N: n1, Step: step, Cohesive: bits&4 > 0},
				{Class: classes[bits>>3&3], Foot: t1, Top: t2, N: n2, Cohesive: bits&4 > 0},
			},
			HoursOpen: hours, ShieldTop: shield, Height: height,
			Seepage: bits&32 > 0, Fissured: bits&64 > 0, Distress: bits&128 > 0,
		}
		c := BatterCheck(in)
		if math.IsNaN(c.Ratio) != (c.Missing != "") || c.Ratio < 0 {
			t.Fatalf("%+v: ratio %g, missing %q", in, c.Ratio, c.Missing)
		}
		for _, l := range c.Working {
			if math.IsNaN(l.Result.Val) {
				t.Fatalf("%+v: NaN in %q", in, l.Text)
			}
		}
	})
}

func BenchmarkBatterCheck(b *testing.B) {
	in := BatterInput{Pieces: faceOf(B, 15, 1, 3), ShieldTop: 5 * foot}
	for b.Loop() {
		BatterCheck(in)
	}
}
