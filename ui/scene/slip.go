package scene

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
)

// sameStation is how near two cross sections are one, m.
const sameStation = 0.05

// slipsShown are the slips of the section that is drawn: of a stage of its shape,
// one for each part, that of the stage itself before the worst of the others.
func (b *builder) slipsShown() []*assess.Slip {
	if b.r == nil || b.r.Project == nil {
		return nil
	}
	var out []*assess.Slip
next:
	for i := range b.r.Slips {
		s := &b.r.Slips[i]
		st, ok := stageOf(b.r.Project, s.Stage)
		if !ok || s.Cross == b.v.Long || s.Cross && math.Abs(s.Station-b.v.Station) > sameStation || section.ShapeOf(st) != section.ShapeOf(b.v.Stage) {
			continue
		}
		for k, o := range out {
			if o.Part == s.Part {
				if b.before(s, o) {
					out[k] = s
				}
				continue next
			}
		}
		out = append(out, s)
	}
	return out
}

// before tells whether a slip is shown in place of another of its part.
func (b *builder) before(s, o *assess.Slip) bool {
	if own := s.Stage == b.v.Stage.ID; own != (o.Stage == b.v.Stage.ID) {
		return own
	}
	return s.Asked/s.Factor > o.Asked/o.Factor
}

func stageOf(p *model.Project, id string) (model.Stage, bool) {
	for _, st := range p.Stages {
		if st.ID == id {
			return st, true
		}
	}
	return model.Stage{}, false
}

func slipRole(s *assess.Slip) Role {
	if s.Factor < s.Asked {
		return BeyondMark
	}
	return WithinMark
}

// slipLines draws where the ground slides first.
func (b *builder) slipLines() {
	if !b.show(SlipLine) {
		return
	}
	for _, s := range b.slipsShown() {
		parts := b.inLand([]geom.Polyline{s.Line})
		for _, c := range parts {
			b.at.chain(c)
		}
		b.add(Path{Layer: SlipLine, Tag: "slip:" + s.Part, Parts: parts, Stroke: slipRole(s), Width: wGround, Dash: dashLong})
	}
}

// slipTexts write the factor at each slip.
func (b *builder) slipTexts() {
	if !b.show(SlipLine) {
		return
	}
	for _, s := range b.slipsShown() {
		text := fmt.Sprintf("%s slides first here: F %s, asked %.2f", s.Part, below(s.Factor, s.Asked), s.Asked)
		if st, ok := stageOf(b.r.Project, s.Stage); ok && s.Stage != b.v.Stage.ID {
			text += " (" + st.Name + ")"
		}
		l := label(SlipLine, "slip:"+s.Part, text)
		l.Role, l.Bold = slipRole(s), slipRole(s) == BeyondMark
		if at := b.slipSeen(s); len(at) > 0 {
			b.calloutAny(l, 0, at...)
		} else {
			b.lost = append(b.lost, text)
		}
	}
}

// slipSeen are places of a slip in the ground that is drawn: on its middle third,
// or else in the middle of each piece that is seen.
func (b *builder) slipSeen(s *assess.Slip) (out []geom.Vec) {
	n := len(s.Line)
	for _, at := range []geom.Vec{s.Line[n/3], s.Line[n/2], s.Line[2*n/3]} {
		if b.land.Contains(at) {
			out = append(out, at)
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, c := range b.inLand([]geom.Polyline{s.Line}) {
		out = append(out, c[len(c)/2])
	}
	return out
}

// below writes a factor so that one just below what is asked does not read as
// equal.
func below(f, asked float64) string {
	if f < asked {
		return fmt.Sprintf("%.2f", math.Floor(f*100+1e-9)/100)
	}
	return fmt.Sprintf("%.2f", f)
}

// slipSpots put the mark of what has no other place in the section on its slip.
func (b *builder) slipSpots(out map[string]spot) {
	for _, s := range b.slipsShown() {
		if _, has := out[s.Part]; has {
			continue
		}
		n := len(s.Line)
		out[s.Part] = spot{at: s.Line[n/2], line: []geom.Polyline{s.Line}, also: []geom.Vec{s.Line[n/3], s.Line[2*n/3], s.Line[n/5], s.Line[4*n/5]}}
	}
}
