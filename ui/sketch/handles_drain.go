package sketch

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
)

// drainHandles move the drains of the long section: the one round the box up
// and down, the one uphill freely.
func drainHandles(p *model.Project, v *section.View) []Handle {
	var out []Handle
	for _, pipe := range v.Pipes(p) {
		// the depth is that of the invert, the handle stands at the axis
		h := length("water_defence.drain.depth", "Drain round the box", pipe.At, Vertical, v.Formation+p.Defence.Drain.Diameter/2, -1, p.Defence.Drain.Depth,
			func(p *model.Project) *float64 { return &p.Defence.Drain.Depth })
		h.Values[0].Label = "Invert below the formation"
		out = append(out, h)
	}
	for _, pipe := range v.Interceptor(p) {
		out = append(out, interceptorHandle(p, v, pipe.At))
	}
	return out
}

// interceptorHandle moves the drain uphill: along from the crest of the cut, up
// and down below the ground as found.
func interceptorHandle(p *model.Project, v *section.View, at geom.Vec) Handle {
	const id = "water_defence.drain.uphill"
	d := p.Defence.Drain
	move := func(p *model.Project, to geom.Vec) error {
		z, ok := v.Ground.At(to[0])
		if !ok {
			return model.Problem{Field: id, Value: "x = " + quantity.Text(to[0], quantity.Length), Text: "the drain lies beside the ground line",
				Allowed: "up to " + quantity.Floor.Text(v.Ground[len(v.Ground)-1][0], quantity.Length)}
		}
		deep := z + p.Defence.Drain.Diameter/2 - to[1]
		if deep < minRise { // at 0 there is no drain
			return model.Problem{Field: id, Value: quantity.Text(deep, quantity.Length) + " deep", Allowed: "below the ground", Text: "the drain lies above the ground"}
		}
		p.Defence.Drain.UphillAway, p.Defence.Drain.UphillDepth = to[0]-v.Crest[0], deep
		return nil
	}
	return Handle{ID: id, Label: "Drain uphill", At: at, Axis: Free, move: move, Values: []Value{
		{Label: "Away from the crest", Kind: quantity.Length, Now: d.UphillAway,
			set: func(p *model.Project, v float64) error { p.Defence.Drain.UphillAway = v; return nil }},
		{Label: "Depth of its invert", Kind: quantity.Length, Now: d.UphillDepth,
			set: func(p *model.Project, v float64) error { p.Defence.Drain.UphillDepth = v; return nil }},
	}}
}
