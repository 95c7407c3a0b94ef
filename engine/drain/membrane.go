package drain

import (
	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/engine/tables"
)

const srcWater = "p = γw·h (statics)"

// MembraneIn is a membrane with the water that may stand on it.
type MembraneIn struct {
	Kind      tables.Membrane
	Thickness float64 // m
	Head      float64 // of water at its lowest point when the drain fails, m
}

// WaterPressure is the pressure of a head of water, m, in kPa.
func WaterPressure(head float64) (float64, error) {
	if err := limit.Within("head", head, 0, 50, q.Length); err != nil {
		return 0, err
	}
	return gammaW * head, nil
}

// MembraneCheck asks whether a membrane is of a kind and thickness for the
// water that stands on it when the drain fails. A drained design has no head
// while the drain works: the head is that of the scenario looked at.
func MembraneCheck(in MembraneIn) (check.Check, error) {
	p, err := WaterPressure(in.Head)
	if err := limit.First(err, limit.Within("thickness", in.Thickness, 0, 0.1, q.Thickness)); err != nil {
		return check.Check{}, err
	}
	src := in.Kind.Src.Text + " (" + string(in.Kind.Src.Mark) + ")"
	c := check.Check{ID: "membrane", Title: "Membrane under a head of water", Part: "membrane", Method: "Kind and thickness", Source: src + "; " + srcWater,
		Assumptions: []string{"fully adhered, laps like shingles, an extra layer round every penetration, protected before it is covered"},
		Validity:    "The rule is written for concrete and masonry: on steel only a system that its maker warrants on coated steel."}
	head := q.Of("p", p, q.Pressure)
	c.Working = append(c.Working, check.Step("Pressure on the membrane", "p = γw·h", srcWater, head, q.Of("γw", gammaW, q.UnitWeight), q.Of("h", in.Head, q.Length)))
	conds := []condition{{text: "Thickness", formula: "r = least/t", src: src, demand: q.Of("least", in.Kind.Least, q.Thickness),
		capacity: q.Of("t", in.Thickness, q.Thickness), remedy: "a thickness of {0}", remedyQ: q.Of("least", in.Kind.Least, q.Thickness)}}
	if !in.Kind.Head {
		conds = append(conds, condition{text: "Standing water", formula: "r = p/0", src: src, demand: head, capacity: q.Of("held", 0, q.Pressure),
			remedy: "a waterproof membrane: this kind is not for a head of water"})
	}
	govern(&c, conds)
	return c, nil
}
