package assess

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// blindPost is the part that the posts of the blind end are.
const blindPost = "corner posts, blind end"

// blind is the loaded wall of the blind end, nil where nothing presses on it.
// Broadside that is the end away from the doors, which stays clear.
func (j *job) blind(sr *stageResult) *wallLoad {
	w := sr.back
	if j.p.Box.Orientation == model.Broadside {
		w = nil
		for _, o := range sr.walls {
			if o.loaded {
				w = o
			}
		}
	}
	if w == nil || !w.loaded {
		return nil
	}
	return w
}

// endPost is a corner post of the blind end under what the end wall presses.
func (j *job) endPost(sr *stageResult, w *wallLoad, roof box.Effects) (box.EndPost, error) {
	post := &j.agedAt(sr.st.Years).front
	if post.unfit != nil {
		return box.EndPost{}, post.unfit
	}
	pn := j.wallOf(w.face)
	half, base := j.endSpan()/2, j.p.Box.Level+j.box.CastH/2
	in := box.EndPost{Post: post.Post, Steel: j.metal, Strength: post.strength, Span: j.box.H - j.box.CastH, Width: j.box.CastW, Axial: roof}
	in.Face = pressures(w.diagram, base, base+in.Span)
	at := func(level float64) float64 { return clampTo(level-base, 0, in.Span) }
	top := in.Span // the header meets the post at its upper casting
	if wale := pn.atTop(); wale != nil {
		top = at(pn.zBottom + wale.Height)
	}
	in.Bars = []box.PostPush{{At: top, P: w.top.ASD * half}}
	for k, wale := range pn.between() {
		in.Bars = append(in.Bars, box.PostPush{At: at(pn.zBottom + wale.Height), P: w.result.Wales[k].ASD * half})
	}
	return in, nil
}

// lengthwise offers what takes the push of the blind end along the box: its
// corner posts, and the long walls with their top rails.
func (j *job) lengthwise(sr *stageResult, worst *worstOf) error {
	push, err := j.endPush(sr, worst)
	if err != nil || push.ASD < negligible {
		return err
	}
	a := j.agedAt(sr.st.Years)
	var faults []error
	for _, side := range j.longSides(sr) {
		if why := j.holed(side.face, j.span()); why != "" {
			worst.missing("racking", "Push of the blind end along the box", side.part, sr.st.ID, why)
			continue
		}
		if g := j.lost(sr.st.Years, j.side.rows[:1], &a.side.gone, &a.end.gone, &a.roof.gone, &a.weakest().gone); g != nil {
			faults = append(faults, g.offer(sr.whole("racking", side.part), "Push of the blind end along the box", worst))
			continue
		}
		in, err := j.rackingIn(sr, &side, push)
		if err != nil {
			return err
		}
		r, err := in.Solve()
		if err != nil {
			return err
		}
		ratio, _ := r.Ratio()
		worst.add(candidate{slot: slot{"racking", side.part}, stage: sr.st.ID, ratio: ratioOf(ratio.ASD, ratio.LRFD),
			write: func() (check.Check, error) { made, _, err := box.EndPush(in); return made, err }})
	}
	return errors.Join(faults...)
}

// endPush offers the posts of the blind end and finds what each brings to the
// top of its long side.
func (j *job) endPush(sr *stageResult, worst *worstOf) (box.Pair, error) {
	w := j.blind(sr)
	if w == nil {
		return box.Pair{}, nil
	}
	roof, err := j.postLoad(sr)
	if err != nil {
		return box.Pair{}, err
	}
	in, err := j.endPost(sr, w, roof)
	if err != nil {
		return box.Pair{}, err
	}
	r, err := in.Solve()
	if err != nil {
		return box.Pair{}, err
	}
	sr.endPush = box.Pair{ASD: r.Top, LRFD: 1.6 * r.Top}
	post := &j.agedAt(sr.st.Years).front
	if post.why != nil {
		return sr.endPush, post.offer(sr.whole("end-post", blindPost), "Corner post of the blind end, bent along the box", worst)
	}
	worst.add(candidate{slot: slot{"end-post", blindPost}, stage: sr.st.ID, ratio: ratioOf(r.Ratio.ASD, r.Ratio.LRFD),
		write: func() (check.Check, error) {
			made, _, err := box.BlindEndPost(in)
			made.Working = append(post.worn.lines(), made.Working...)
			return made, err
		}})
	return sr.endPush, nil
}

// postLoad is what the roof brings to the most loaded corner post.
func (j *job) postLoad(sr *stageResult) (box.Effects, error) {
	post, loaded, err := j.postIn(sr)
	if err != nil || !loaded {
		return box.Effects{}, err
	}
	return post.On()
}

// longSide is one long wall with what presses on it: at every station end-on,
// once for all of it broadside, where the downhill wall stands free.
type longSide struct {
	part  string
	face  section.Face
	walls []*wallLoad // from the front on
}

func (j *job) longSides(sr *stageResult) []longSide {
	if j.p.Box.Orientation == model.Broadside {
		out := []longSide{{part: partOf(section.Back), face: section.Back}}
		if sr.back != nil {
			out[0].walls = []*wallLoad{sr.back}
		}
		return out
	}
	out := []longSide{{part: partOf(section.Left), face: section.Left}, {part: partOf(section.Right), face: section.Right}}
	for i := 0; i+1 < len(sr.walls); i += 2 {
		out[0].walls = append(out[0].walls, sr.walls[i])
		out[1].walls = append(out[1].walls, sr.walls[i+1])
	}
	return out
}

// last is the wall nearest to the blind end; one without load where there is
// none.
func (s *longSide) last() *wallLoad {
	if len(s.walls) == 0 {
		return &wallLoad{}
	}
	return s.walls[len(s.walls)-1]
}

// span is the length of a long wall between the middles of its corner posts.
func (j *job) span() float64 { return j.box.L - j.box.CastL }

// rackingIn is a long side under the push of the blind end.
func (j *job) rackingIn(sr *stageResult, side *longSide, push box.Pair) (box.Racking, error) {
	a := j.agedAt(sr.st.Years)
	in := box.Racking{Push: push, Cuts: j.roofCuts(), RailSteel: j.metal, Length: j.span(), Open: j.openWidth(side.face), Strength: a.weakest().strength,
		Side: j.panelOf(a, side.face)}
	var err error
	if in.Rail, err = j.rustedBar(j.side.rows[0], sr.st.Years); err != nil {
		return in, err
	}
	if in.RailBend, err = j.railBend(a, side, side.last()); err != nil {
		return in, err
	}
	if in.Bed, err = a.bed, a.bedFault; err != nil {
		return in, err
	}
	in.Post, err = j.postLoad(sr)
	return in, err
}

// panelOf is the sheet of a face as a shear panel.
func (j *job) panelOf(a *aged, f section.Face) box.Panel {
	pn := j.wallOf(f)
	strip := &a.wall(pn.long).strip
	return box.Panel{Profile: strip.Profile, Steel: j.metal, Height: pn.height(), Dent: strip.Dent}
}

// railBend is what the top of a wall uses of its top rail in bending between
// ribs. Without ribs the roof holds the rail but along its cuts, of which the worst
// counts, and a wale that doubles it takes its load.
func (j *job) railBend(a *aged, side *longSide, w *wallLoad) (most box.Pair, err error) {
	for i := range a.bars[side.face] {
		b := &a.bars[side.face][i]
		var loads []box.Pair
		switch b.kind {
		case box.KindTopRail:
			loads = []box.Pair{w.top}
		case box.KindCutRail:
			for _, at := range side.walls {
				loads = append(loads, b.load(at))
			}
		}
		for _, load := range loads {
			if b.fault != nil {
				return most, b.fault
			}
			one, err := b.kind.Bending(b.under(load))
			if err != nil {
				return most, err
			}
			most = box.Pair{ASD: math.Max(most.ASD, one.ASD), LRFD: math.Max(most.LRFD, one.LRFD)}
		}
	}
	return most, nil
}

// mostOpen is the share of the length of a wall that openings may take before
// what is left of its sheet no longer counts as a shear panel (common
// practice, no source).
const mostOpen = 0.25

// openWidth is the length of a wall that is cut, m.
func (j *job) openWidth(f section.Face) float64 {
	sum := 0.0
	for _, o := range j.p.Box.Openings {
		if o.Wall == string(f) {
			sum += o.Width
		}
	}
	return sum
}

// holed says why a wall of a length does not count as a shear panel; empty
// where it does.
func (j *job) holed(f section.Face, length float64) string {
	if open := j.openWidth(f); open > mostOpen*length {
		return fmt.Sprintf("openings take %.0f %% of this wall: beyond %.0f %% what is left of the sheet does not count as a shear panel, and the frame that takes its place is not worked out",
			100*open/length, 100*mostOpen)
	}
	return ""
}
