package drain

import (
	"math"

	"hillset/engine/bisect"
	"hillset/engine/check"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

var srcClean = "drainage practice of the NRCS: " + quantity.Text(0.15, quantity.Velocity) + " without fines, " + quantity.Text(0.43, quantity.Velocity) + " with (second-hand)"

const (
	srcFall = "1 % asked for, 0.5 % on a laser-set bed (common practice)"
)

// PipeIn is a drain pipe with what it has to carry.
type PipeIn struct {
	Pipe
	Flow  float64 // design flow, m3/s
	Fines bool    // sand or silt may enter
	Laser bool    // the bed is set by laser: half the ordinary fall will do
}

// Falls below which a bed cannot be set without flat spots (common practice).
const (
	fallAsked = 0.01
	fallLaser = 0.005
)

func (in *PipeIn) validate() error {
	return limit.First(in.Pipe.validate(), limit.Within("flow", in.Flow, 1e-9, most, quantity.Flow))
}

// PipeCheck compares the design flow with what the pipe carries when just full
// by its fall. The few per cent that it carries at nine tenths of its depth
// are not counted: there any ripple fills it.
func PipeCheck(in PipeIn) (check.Check, error) {
	if err := in.validate(); err != nil {
		return check.Check{}, err
	}
	full, top := in.at(in.Bore), in.most()
	q := quantity.Of("Q", in.Flow, quantity.Flow)
	qf := quantity.Of("Qf", full.Flow, quantity.Flow)
	c := check.Check{
		ID: "drain-pipe", Title: "Drain pipe, flow", Part: "drain",
		Demand: q, Capacity: qf, Ratio: check.Over(in.Flow, full.Flow), RatioLRFD: math.NaN(),
		Method: "Manning, full and part full", Source: srcFlow,
		Assumptions: []string{"even fall, free outlet, the pipe is not blocked"},
		Validity:    "Rough turbulent, even flow by gravity.",
	}
	if in.Camp {
		c.Source += "; Camp's n in a pipe that is not full (verified from 0.2 to 0.5 of the bore, else memory)"
	}
	c.Working = append(c.Working, in.working(full)...)
	if in.Flow <= top.Flow {
		r, err := in.Depth(in.Flow)
		if err != nil {
			return check.Check{}, err
		}
		c.Working = append(c.Working, check.Step("Depth at the design flow", "Q = (1/n)·A(y)·R(y)^(2/3)·√S in m and s, the smaller root", srcFlow,
			quantity.Of("y", r.Flowing.Depth, quantity.Length), q, quantity.Of("Qf", full.Flow, quantity.Flow)))
	}
	switch {
	case in.Flow > top.Flow:
		c.Validity += " More than the pipe carries: it runs under pressure and backs up."
	case in.Flow > full.Flow:
		c.Validity += " Surcharge likely: two depths carry this flow."
	}
	if c.Ratio > 1 {
		d, err := BoreFor(in.Flow, in.N, in.Fall)
		if err != nil {
			return check.Check{}, err
		}
		c.Remedy = "a bore of {0} at this fall, or a fall of {1} with this pipe"
		c.RemedyQ = []quantity.Q{quantity.Of("D", d, quantity.Thickness), quantity.Of("S", in.Fall*c.Ratio*c.Ratio, quantity.Gradient)}
	}
	return c, nil
}

func (in *PipeIn) working(full Flowing) []check.Line {
	d, n := quantity.Of("D", in.Bore, quantity.Thickness), quantity.Of("n", in.N, quantity.None)
	s, v := quantity.Of("S", in.Fall, quantity.Gradient), quantity.Of("Vf", full.Velocity, quantity.Velocity)
	return []check.Line{
		check.Step("Velocity in the full pipe", "Vf = (1/n)·(D/4)^(2/3)·√S in m and s", srcFlow, v, n, d, s),
		check.Step("Flow of the full pipe", "Qf = Vf·π·D²/4", srcFlow, quantity.Of("Qf", full.Flow, quantity.Flow), v, d),
	}
}

// running is the pipe at a flow, m3/s; above the most that it carries it is full.
func (p *Pipe) running(flow float64) Flowing {
	top := p.most()
	if flow > top.Flow {
		return p.at(p.Bore)
	}
	return p.at(bisect.Rising(0, top.Depth, func(y float64) float64 { return p.at(y).Flow - flow }))
}

// VelocityCheck asks whether the drain keeps itself clean: at the ordinary flow,
// which is the most that may come, and full. The slowest governs: as a rule at the
// ordinary flow, m3/s, which is what runs in the wet season.
func VelocityCheck(in PipeIn, ordinary float64) (check.Check, error) {
	if err := limit.First(in.validate(), limit.Within("ordinary flow", ordinary, 1e-9, in.Flow, quantity.Flow)); err != nil {
		return check.Check{}, err
	}
	full := in.at(in.Bore)
	need := CleanVelocity(in.Fines)
	asked := quantity.Of("Vmin", need, quantity.Velocity)
	c := check.Check{
		ID: "drain-velocity", Title: "Drain pipe, keeping itself clean", Part: "drain", Method: "Least velocity", Source: srcClean,
		Assumptions: []string{"even fall without flat spots"},
		Validity:    "A guide: filter and clean-outs keep a drain open, not velocity alone. In dry weather less runs than the ordinary flow, and slower.",
		Working:     in.working(full),
	}
	remedy, fall := "no fall up to one in ten is steep enough for so little water: keep fines out by the filter and put in clean-outs", quantity.Q{}
	slow, run := in.running(ordinary), in.running(in.Flow)
	if min(slow.Velocity, run.Velocity, full.Velocity) < need {
		if s, ok := in.cleanFall(need, ordinary); ok {
			remedy = "a fall of {0}; else keep fines out by the filter and put in clean-outs"
			fall = quantity.Of("S", s, quantity.Gradient)
		}
	}
	c.Working = append(c.Working, check.Step("Depth at the ordinary flow", "Qo = (1/n)·A(y)·R(y)^(2/3)·√S in m and s, the smaller root", srcFlow,
		quantity.Of("y", slow.Depth, quantity.Thickness), quantity.Of("Qo", ordinary, quantity.Flow)))
	govern(&c, []condition{
		{text: "At the ordinary flow", formula: "r = Vmin/Vo", src: srcClean, demand: asked,
			capacity: quantity.Of("Vo", slow.Velocity, quantity.Velocity), remedy: remedy, remedyQ: fall},
		{text: "At the design flow", formula: "r = Vmin/V", src: srcClean, demand: asked,
			capacity: quantity.Of("V", run.Velocity, quantity.Velocity), remedy: remedy, remedyQ: fall},
		{text: "Full", formula: "r = Vmin/Vf", src: srcClean, demand: asked,
			capacity: quantity.Of("Vf", full.Velocity, quantity.Velocity), remedy: remedy, remedyQ: fall},
	})
	return c, nil
}

// steepLaid is the steepest fall that is laid without anchors, m per m (common
// practice, no source).
const steepLaid = 0.10

// cleanFall is the least fall at which the pipe runs at a velocity, at the
// ordinary flow, the design flow and full; false where none does that is laid.
func (in *PipeIn) cleanFall(v, ordinary float64) (fall float64, ok bool) {
	p := in.Pipe
	slow := func(s float64) float64 {
		p.Fall = s
		return min(p.at(p.Bore).Velocity, p.running(in.Flow).Velocity, p.running(ordinary).Velocity) - v
	}
	if slow(steepLaid) < 0 {
		return 0, false
	}
	return bisect.Rising(minFall, steepLaid, slow), true
}

// FallCheck compares the fall of the drain with the least that can be laid
// without flat spots.
func FallCheck(in PipeIn) (check.Check, error) {
	if err := in.validate(); err != nil {
		return check.Check{}, err
	}
	need := fallAsked
	if in.Laser {
		need = fallLaser
	}
	c := check.Check{ID: "drain-fall", Title: "Drain pipe, fall", Part: "drain", Method: "Least fall", Source: srcFall,
		Assumptions: []string{"the bed is firm and does not settle"}}
	govern(&c, []condition{{text: "Fall", formula: "r = Smin/S", src: srcFall,
		demand: quantity.Of("Smin", need, quantity.Gradient), capacity: quantity.Of("S", in.Fall, quantity.Gradient),
		remedy: "a fall of {0}", remedyQ: quantity.Of("Smin", need, quantity.Gradient)}})
	return c, nil
}
