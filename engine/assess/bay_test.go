package assess

import (
	"fmt"
	"math"
	"testing"

	"hillset/engine/model"
)

// laidOut are projects whose bays are put to the test.
func laidOut(t testing.TB) map[string]*model.Project {
	out := map[string]*model.Project{"as drawn": demo(t, "as-drawn"), "put right": demo(t, "put-right"), "forty": grown(t, "40std", 14)}
	wide := demo(t, "put-right").Clone()
	wide.Box.Orientation = model.Broadside
	out["broadside"] = wide
	out["kit"] = allBuilt(t)
	both := allBuilt(t)
	both.Box.Orientation = model.Broadside
	out["kit broadside"] = both
	return out
}

// TestBaysHoldTheWorst: of every part that lies on the panels, the worst bay
// is the worst check, and says which; no bay is worse than its check.
func TestBaysHoldTheWorst(t *testing.T) {
	for name, p := range laidOut(t) {
		r := run(t, p)
		if len(r.Bays) < 20 {
			t.Fatalf("%s: %d bays", name, len(r.Bays))
		}
		worst := map[string]float64{}
		for i := range r.Checks {
			if c := &r.Checks[i]; !math.IsNaN(c.Worst()) && !c.Met() {
				worst[c.Part] = math.Max(worst[c.Part], c.Worst())
			}
		}
		seen := map[string]float64{}
		for _, b := range r.Bays {
			c := find(r, b.ID, b.Part)
			if c == nil {
				t.Fatalf("%s: bay of %s, %s has no check", name, b.ID, b.Part)
			}
			if b.Title != c.Title || b.Stage == "" {
				t.Errorf("%s: bay of %s, %s: title %q, stage %q", name, b.ID, b.Part, b.Title, b.Stage)
			}
			if math.IsNaN(b.Ratio) {
				continue
			}
			if b.Ratio > c.Worst()*(1+1e-9) {
				t.Errorf("%s: bay of %s, %s has %g, its check %g", name, b.ID, b.Part, b.Ratio, c.Worst())
			}
			seen[b.Part] = math.Max(seen[b.Part], b.Ratio)
		}
		for part, got := range seen {
			if want := worst[part]; math.Abs(got-want) > 1e-9*want {
				t.Errorf("%s: worst bay of %s %.4f, worst check %.4f", name, part, got, want)
			}
		}
	}
}

// TestBaysTile: every bay lies on its panel, and the bays of a sheet cover its
// length once.
func TestBaysTile(t *testing.T) {
	for name, p := range laidOut(t) {
		r := run(t, p)
		size := map[string]Panel{}
		for _, q := range r.Panels {
			size[string(q.Face)] = q
		}
		length := map[string]float64{}
		for _, b := range r.Bays {
			q := size[string(b.Panel)]
			if !(b.From < b.To && b.Low < b.High) || b.From < -1e-9 || b.Low < -1e-9 || b.To > q.Length+1e-9 || b.High > q.Height+1e-9 {
				t.Errorf("%s: %+v lies off its panel %+v", name, b, q)
			}
			if !b.Bar {
				length[string(b.Panel)+", "+b.Part] += b.To - b.From
			}
		}
		for key, got := range length {
			for _, q := range r.Panels {
				if pre := string(q.Face) + ", "; len(key) > len(pre) && key[:len(pre)] == pre && math.Abs(got-q.Length) > 1e-9 {
					t.Errorf("%s: bays of %s cover %g m of %g m", name, key, got, q.Length)
				}
			}
		}
	}
}

// TestBaysByStage is a second route: each stage assessed alone; the worst of
// all of them, bay by bay, is what one run of all stages says.
func TestBaysByStage(t *testing.T) {
	for name, p := range laidOut(t) {
		key := func(b Bay) string { return fmt.Sprintf("%s %s %.4f %.4f", b.Panel, b.Part, b.From, b.Low) }
		want := map[string]float64{}
		for _, st := range p.Stages {
			one := p.Clone()
			one.Stages = []model.Stage{st}
			for _, b := range run(t, one).Bays {
				if old, ok := want[key(b)]; !ok || b.Ratio > old || math.IsNaN(old) {
					want[key(b)] = b.Ratio
				}
			}
		}
		for _, b := range run(t, p).Bays {
			if w := want[key(b)]; !math.IsNaN(b.Ratio) && math.Abs(b.Ratio-w) > 1e-9*w {
				t.Errorf("%s: %s %.6f, stage by stage %.6f", name, key(b), b.Ratio, w)
			}
		}
	}
}

// TestBookKeepsWhatMustNotBeHidden: beyond before not checked before within,
// and what is said of a part as a whole counts at each station.
func TestBookKeepsWhatMustNotBeHidden(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name        string
		here, whole []float64
		want        float64
	}{
		{name: "larger of two", here: []float64{0.4, 0.7, 0.5}, want: 0.7},
		{name: "not checked before within", here: []float64{0.9, nan, 0.5}, want: nan},
		{name: "beyond before not checked", here: []float64{1.2, nan}, want: 1.2},
		{name: "the whole counts", here: []float64{0.4}, whole: []float64{0.6}, want: 0.6},
		{name: "the whole is not checked", here: []float64{0.4}, whole: []float64{nan}, want: nan},
		{name: "no strength is not checked", here: []float64{math.Inf(-1)}, want: nan},
	} {
		b, w := bayBook{}, newWorst()
		w.book = b
		for _, r := range c.here {
			w.add(candidate{slot: slot{"a", "part"}, station: 2, hasStation: true, ratio: r})
			w.add(candidate{slot: slot{"a", "part"}, station: 3, hasStation: true, ratio: 0.1})
		}
		for _, r := range c.whole {
			w.add(candidate{slot: slot{"b", "part"}, ratio: r})
		}
		rows := b["part"].rows()
		if len(rows) != 2 || rows[0].station != 2 || rows[1].station != 3 || !sameBits(rows[0].ratio, c.want) && !(math.IsNaN(c.want) && math.IsNaN(rows[0].ratio)) {
			t.Errorf("%s: %+v, want %g", c.name, rows, c.want)
		}
	}
	(bayBook)(nil).see(&candidate{}) // keeps nothing, and does not fail
}
