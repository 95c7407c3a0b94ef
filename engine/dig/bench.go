package dig

import (
	"fmt"

	"hillset/engine/quantity"
)

// riser is one rise of a benched face between level steps.
type riser struct {
	height      float64 // m
	run, top    float64 // from the toe to the inner corner behind its top, m
	first, last bool
}

// risers gathers the pieces between steps.
func (in BatterInput) risers() []riser {
	var out []riser
	run, foot := 0.0, 0.0
	for i, p := range in.Pieces {
		last := i == len(in.Pieces)-1
		run += p.N * (p.Top - p.Foot)
		if p.Step <= lengthTol && !last {
			continue
		}
		if !last {
			run += p.Step
		}
		out = append(out, riser{height: p.Top - foot, run: run, top: p.Top, first: len(out) == 0, last: last})
		foot = p.Top
	}
	return out
}

// benchDemands judges a face that is benched instead of sloped (R7; bench
// heights second-hand, the rest from memory): one class all the way up, A, or
// B where it is clay-like; the inner corner of every bench and the crest stay
// behind the slope of the class drawn from the toe; no riser higher than the
// rule lets it. It is false where the rule knows no benches.
func (in BatterInput) benchDemands(req *Requirement) ([]demand, bool) {
	class := req.Classes[0]
	if !req.all(class) || class != A && class != B || class == B && !in.cohesive() {
		req.because("R7: benches are allowed in class A and in clay-like class B only; each rise was judged as a slope")
		return nil, false
	}
	req.because("R7: benched face, judged by its overall slope and the height of its rises")
	n := tabulated(class).N
	if in.Distress {
		n += distressMore
	}
	var all []demand
	for i, r := range in.risers() {
		all = append(all, benchSlope(i, r, n), benchRise(i, r, riseLimit(class, r.first)))
	}
	return all, true
}

func (in BatterInput) cohesive() bool {
	for _, p := range in.Pieces {
		if !p.Cohesive {
			return false
		}
	}
	return true
}

func riseLimit(class string, first bool) float64 {
	if class == A && !first {
		return benchOther
	}
	return benchFirst
}

func benchSlope(i int, r riser, n float64) demand {
	where := fmt.Sprintf("inner corner of bench %d", i+1)
	if r.last {
		where = "crest"
	}
	return demand{
		text: "overall slope to the " + where + " (R7)", formula: "run/h ≥ n,req",
		need:  quantity.Of("n,req", n, quantity.Slope),
		have:  quantity.Of("n", r.run/r.top, quantity.Slope),
		terms: []quantity.Q{quantity.Of("run", r.run, quantity.Length), quantity.Of("h", r.top, quantity.Length)},
		ratio: over(n, r.run/r.top, slopeTol),
		fix:   "Widen the benches until the face as a whole lies at {0} or flatter from the toe",
	}
}

func benchRise(i int, r riser, limit float64) demand {
	return demand{
		text: fmt.Sprintf("height of rise %d (R7)", i+1), formula: "h,rise ≤ h,max",
		need:  quantity.Of("h,rise", r.height, quantity.Length),
		have:  quantity.Of("h,max", limit, quantity.Length),
		ratio: over(r.height, limit, lengthTol),
		fix:   "Add a bench: no rise may be higher than the rule allows; this one is {0}",
	}
}
