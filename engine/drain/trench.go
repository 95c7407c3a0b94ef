package drain

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

const (
	srcWilkins = "Wilkins 1956 (memory); constant converted from inches (derived)"
	srcErgun   = "Ergun 1952 (memory)"
	srcDarcy   = "Darcy, up to a Reynolds number of 10 (memory)"
	srcLayer   = "sloping layer under even inflow, Giroud and Houlihan's form (memory); about 10 % high against the integrated mound (derived)"
)

var srcGraded = quantity.Text(0.02, quantity.Permeability) + " to " + quantity.Text(0.05, quantity.Permeability) + " at most for graded or unwashed rock (common practice)"

// ErrPermeability is the refusal of every flow through rock without a
// permeability of that very rock.
var ErrPermeability = errors.New("the permeability of the rock is not given: clean single-size rock and graded rock differ by 200 times, " +
	"so none is assumed; have it measured or stated by the quarry, and size the pipe as the path of the water")

// Stones are broken rock of one size, clean.
type Stones struct {
	Size     float64 // m
	Porosity float64 // share of the volume
	// Angular is the surface of the stones over that of balls of the same
	// volume and size, 1.3 to 1.6 for crushed rock.
	Angular float64
}

func (s *Stones) validate() error {
	return limit.First(
		limit.Within("size", s.Size, 0.005, 0.5, quantity.Thickness),
		limit.Within("porosity", s.Porosity, 0.25, 0.6, quantity.None),
		limit.Within("angular", s.Angular, 1, 2, quantity.None))
}

// meanRadius is the hydraulic mean radius of the voids, m = e d/(6 r_E).
func (s *Stones) meanRadius() float64 {
	return s.Porosity / (1 - s.Porosity) * s.Size / (6 * s.Angular)
}

// wilkins is the constant of Wilkins' law in m and s, 32.9·√0.0254.
const wilkins = 5.243

// Wilkins is the velocity over the whole area, m/s, of turbulent flow through
// clean rock of one size at a gradient: V = n·5.243·m^0.5·i^0.54.
func Wilkins(s Stones, gradient float64) (float64, error) {
	err := limit.First(s.validate(), limit.Within("gradient", gradient, 0, 1, quantity.Gradient))
	if err != nil {
		return 0, err
	}
	return s.Porosity * wilkins * math.Sqrt(s.meanRadius()) * math.Pow(gradient, 0.54), nil
}

// Ergun is the same velocity, m/s, by the sum of laminar and turbulent losses,
// with grains of d/r_E: the cross-check of Wilkins.
func Ergun(s Stones, gradient float64) (float64, error) {
	err := limit.First(s.validate(), limit.Within("gradient", gradient, 0, 1, quantity.Gradient))
	if err != nil || gradient == 0 {
		return 0, err
	}
	n, d := s.Porosity, s.Size/s.Angular
	a := 150 * nu10 * (1 - n) * (1 - n) / (gravity * n * n * n * d * d)
	b := 1.75 * (1 - n) / (gravity * n * n * n * d)
	// the root of b V² + a V = i, in the form that does not cancel
	return 2 * gradient / (a + math.Sqrt(a*a+4*b*gradient)), nil
}

// Reynolds is the Reynolds number of a discharge velocity, m/s, between grains
// of a size, m, in water of 10 °C.
func Reynolds(velocity, grain float64) float64 { return velocity * grain / nu10 }

// darcyRe is the Reynolds number up to which flow between grains is laminar
// enough for Darcy's law (1 to 10 by author, memory).
const darcyRe = 10

// Darcy is the velocity over the whole area, m/s, V = k·i, in soil or rock of
// permeability k, m/s, and grain size, m. It is refused where the flow would
// be turbulent.
func Darcy(k, gradient, grain float64) (float64, error) {
	if k == 0 {
		return 0, ErrPermeability
	}
	err := limit.First(
		limit.Within("permeability", k, minK, maxK, quantity.Permeability),
		limit.Within("gradient", gradient, 0, 10, quantity.Gradient),
		limit.Within("grain", grain, 1e-7, 0.5, quantity.Thickness))
	if err != nil {
		return 0, err
	}
	v := k * gradient
	if re := Reynolds(v, grain); re > darcyRe {
		return 0, &limit.Error{Field: "Reynolds number", Value: re, Hi: darcyRe, Kind: quantity.None,
			Why: "the flow between these grains is turbulent and Darcy's law does not hold"}
	}
	return v, nil
}

// Permeabilities from tight clay to clean stones, m/s.
const (
	minK = 1e-13
	maxK = 10.0
)

// TrenchIn is a trench or layer of rock that is to carry water without a pipe.
type TrenchIn struct {
	Flow          float64 // to be carried, m3/s
	Width, Height float64 // of the rock, m
	Gradient      float64 // of the water along the trench
	K             float64 // permeability of this rock, measured or stated, m/s; 0 not given
	Grain         float64 // D15 of the rock, m
	Washed        bool    // washed and of one size
	// Stones describes washed rock of one size, for the bound that turbulence
	// sets; Size 0 where it is graded.
	Stones Stones
}

// Trench is what the rock carries.
type Trench struct {
	Velocity float64 // over the whole area, m/s
	Flow     float64 // m3/s
	Reynolds float64
	Wilkins  bool // turbulence governs, not the permeability
}

// TrenchFlow is the flow that the rock carries. The permeability must be that
// of the rock bought: without it the answer is ErrPermeability. Where Darcy's
// law does not hold, Wilkins' does if the rock is washed and of one size, and
// never more than k·i counts.
func TrenchFlow(in TrenchIn) (Trench, error) {
	if in.K == 0 {
		return Trench{}, ErrPermeability
	}
	err := limit.First(
		limit.Within("width", in.Width, 0.05, 100, quantity.Length),
		limit.Within("height", in.Height, 0.05, 20, quantity.Length))
	if err != nil {
		return Trench{}, err
	}
	v, err := Darcy(in.K, in.Gradient, in.Grain)
	var r Trench
	var out *limit.Error
	switch {
	case errors.As(err, &out) && out.Field == "Reynolds number":
		if !in.Washed || in.Stones.Size == 0 {
			return Trench{}, fmt.Errorf("%w; only for washed rock of one size is there another law: let the pipe carry the water", err)
		}
		if v, err = Wilkins(in.Stones, in.Gradient); err != nil {
			return Trench{}, limit.In("stones", err)
		}
		r.Wilkins = true
		if linear := in.K * in.Gradient; linear < v {
			v, r.Wilkins = linear, false
		}
	case err != nil:
		return Trench{}, err
	}
	r.Velocity, r.Flow, r.Reynolds = v, v*in.Width*in.Height, Reynolds(v, in.Grain)
	return r, nil
}

// mostGraded is the permeability above which that of graded or unwashed rock
// is not believed, m/s (common practice).
const mostGraded = 0.05

// TrenchCheck compares a flow with what the rock carries without its pipe. It
// is not made, with the reason, where no permeability is given or no law holds.
func TrenchCheck(in TrenchIn) (check.Check, error) {
	const id, title, part = "drain-rock", "Rock of the drain without its pipe", "drain"
	if err := limit.Within("flow", in.Flow, 0, most, quantity.Flow); err != nil {
		return check.Check{}, err
	}
	r, err := TrenchFlow(in)
	var out *limit.Error
	if errors.Is(err, ErrPermeability) || errors.As(err, &out) && out.Field == "Reynolds number" {
		return check.Unchecked(id, title, part, err.Error()), nil
	}
	if err != nil {
		return check.Check{}, err
	}
	if !in.Washed && in.K > mostGraded {
		return check.Check{}, &limit.Error{Field: "permeability", Value: in.K, Lo: minK, Hi: mostGraded, Kind: quantity.Permeability,
			Why: "graded or unwashed rock does not pass more"}
	}
	c := check.Check{ID: id, Title: title, Part: part, Method: "Darcy", Source: srcDarcy + "; " + srcGraded,
		Assumptions: []string{"the permeability is that of the rock as placed", "fines are kept out by the filter", "the pipe is the path by design; this is what is left without it"},
		Validity:    "Darcy's law begins to fail at a Reynolds number of 1 to 10."}
	k, i := quantity.Of("k", in.K, quantity.Permeability), quantity.Of("i", in.Gradient, quantity.Gradient)
	v := quantity.Of("V", r.Velocity, quantity.Velocity)
	if r.Wilkins {
		c.Method, c.Source = "Wilkins", srcWilkins+"; "+srcGraded
		c.Validity = "Clean rock of one size, turbulent flow. Ergun's law agrees to about a fifth."
		c.Working = append(c.Working,
			check.Step("Mean radius of the voids", "m = e·d/(6·rE), e = n/(1 − n)", srcWilkins, quantity.Of("m", in.Stones.meanRadius(), quantity.Thickness),
				quantity.Of("n", in.Stones.Porosity, quantity.None), quantity.Of("d", in.Stones.Size, quantity.Thickness), quantity.Of("rE", in.Stones.Angular, quantity.None)),
			check.Step("Velocity over the whole area", "V = n·5.243·√m·i^0.54 in m and s", srcWilkins, v, i))
	} else {
		c.Working = append(c.Working, check.Step("Velocity over the whole area", "V = k·i", srcDarcy, v, k, i))
	}
	c.Working = append(c.Working, check.Step("Reynolds number", "Re = V·d/ν", srcDarcy, quantity.Of("Re", r.Reynolds, quantity.None), v,
		quantity.Of("d", in.Grain, quantity.Thickness)))
	govern(&c, []condition{{text: "Flow through the rock", formula: "r = Q/(V·B·H)", src: c.Source,
		demand: quantity.Of("Q", in.Flow, quantity.Flow), capacity: quantity.Of("Qr", r.Flow, quantity.Flow),
		remedy: "let a pipe carry the water, or make the rock {0} wide", remedyQ: quantity.Of("B", in.Width*check.Over(in.Flow, r.Flow), quantity.Length)}})
	return c, nil
}

// LayerThickness is the greatest depth of water, m, in a drainage layer on a
// slope (angle, rad) of run length (m) under an even inflow (m/s) with a free
// outlet: t = L(√(tan²β + 4q/k) − tan β)/(2 cos β). k is the permeability of
// that layer, m/s; 0 is refused with ErrPermeability.
func LayerThickness(run, slope, inflow, k float64) (float64, error) {
	if k == 0 {
		return 0, ErrPermeability
	}
	err := limit.First(
		limit.Within("run", run, 0.1, 200, quantity.Length),
		limit.Within("slope", slope, 0, math.Pi/3, quantity.Angle),
		limit.Within("permeability", k, minK, maxK, quantity.Permeability),
		limit.Within("inflow", inflow, 0, k/4, quantity.Rate))
	if err != nil {
		return 0, err
	}
	return run * layerRise(slope, inflow, k) / (2 * math.Cos(slope)), nil
}

// layerRise is √(tan²β + 4q/k) − tan β in the form that does not cancel.
func layerRise(slope, inflow, k float64) float64 {
	t := math.Tan(slope)
	if inflow == 0 {
		return 0
	}
	return 4 * inflow / k / (math.Sqrt(t*t+4*inflow/k) + t)
}

// LayerIn is a drainage layer with its thickness.
type LayerIn struct {
	Run       float64 // along the slope, m
	Slope     float64 // rad
	Inflow    float64 // m/s over the plan
	K         float64 // m/s; 0 not given
	Thickness float64 // m
}

// LayerCheck compares the depth of water in a drainage layer with its
// thickness. It is not made where no permeability is given.
func LayerCheck(in LayerIn) (check.Check, error) {
	const id, title, part = "drain-layer", "Drainage layer", "drainage layer"
	t, err := LayerThickness(in.Run, in.Slope, in.Inflow, in.K)
	if errors.Is(err, ErrPermeability) {
		return check.Unchecked(id, title, part, err.Error()), nil
	}
	if err := limit.First(err, limit.Within("thickness", in.Thickness, 0.005, 5, quantity.Thickness)); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: id, Title: title, Part: part, Method: "Water mound in a sloping layer", Source: srcLayer,
		Assumptions: []string{"the outlet at the foot is free", "the permeability is that of the layer as placed"},
		Validity:    "Laminar flow; inflow much smaller than the permeability."}
	need := quantity.Of("t", t, quantity.Thickness)
	c.Working = append(c.Working, check.Step("Greatest depth of water", "t = L·(√(tan²β + 4·q/k) − tan β)/(2·cos β)", srcLayer, need,
		quantity.Of("L", in.Run, quantity.Length), quantity.Of("β", in.Slope, quantity.Angle),
		quantity.Of("q", in.Inflow, quantity.Rate), quantity.Of("k", in.K, quantity.Permeability)))
	govern(&c, []condition{{text: "Thickness", formula: "r = t/T", src: srcLayer, demand: need,
		capacity: quantity.Of("T", in.Thickness, quantity.Thickness), remedy: "a layer of {0}", remedyQ: need}})
	return c, nil
}
