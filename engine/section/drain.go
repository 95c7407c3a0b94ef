package section

import (
	"hillset/engine/model"
	"hillset/geom"
)

// Pipe is a drain pipe seen end-on in a section.
type Pipe struct {
	Name string
	At   geom.Vec // middle
	Bore float64  // m
	Top  float64  // m from the middle up to the top of its stone; 0 as high as the bed
}

// Pipes are the pipes of the perimeter drain in this section: at the foot of
// the drain rock, from the stage on at which that is put in. None where no
// drain is planned.
func (v *View) Pipes(p *model.Project) []Pipe {
	d := p.Defence.Drain
	if k := v.Stage.Kind; !d.Present || !v.HasBox || k != model.StageBackfill && k != model.StageService {
		return nil
	}
	z := v.Formation - d.Depth + d.Diameter/2
	off := p.Fill.RockWidth / 2
	out := []Pipe{{Name: "drain", At: geom.Vec{v.Box.Max[0] + off, z}, Bore: d.Diameter}}
	if !v.Long {
		out = append(out, Pipe{Name: "drain on the left", At: geom.Vec{v.Box.Min[0] - off, z}, Bore: d.Diameter})
		out[0].Name = "drain on the right"
	}
	return out
}

// interceptorCap is the depth of soil put back over the stone of an
// interceptor, m (common practice).
const interceptorCap = 0.3

// Interceptor is the pipe of the drain uphill, in the long section from the cut
// on; none where it is not planned or lies beyond the ground that is drawn.
func (v *View) Interceptor(p *model.Project) []Pipe {
	d := p.Defence.Drain
	if !d.Uphill || !v.Long || v.Stage.Kind == model.StageNatural || d.UphillDepth <= 0 {
		return nil
	}
	x := v.Crest[0] + d.UphillAway
	z, ok := v.Ground.At(x)
	if !ok {
		return nil
	}
	at := geom.Vec{x, z - d.UphillDepth + d.Diameter/2}
	return []Pipe{{Name: "interceptor", At: at, Bore: d.Diameter, Top: z - interceptorCap - at[1]}}
}
