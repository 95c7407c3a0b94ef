package assess

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/model"
)

// wideHole is the share of the height of a wall beyond which a hole is too wide
// for the wall to count as a girder across it (common practice, no source).
const wideHole = 0.25

// girders offers the long walls as girders from corner to corner, which carry
// the roof while the earth presses on them.
func (j *job) girders(sr *stageResult, worst *worstOf) error {
	loads, err := j.wallTops(sr)
	if err != nil {
		return err
	}
	a := j.agedAt(sr.st.Years)
	var faults []error
	for _, side := range j.longSides(sr) {
		at := slot{"girder", side.part}
		if why := j.cutWeb(&side); why != "" {
			worst.missing(at.id, "Long wall as a girder", at.part, sr.st.ID, why)
			continue
		}
		if g := j.lost(sr.st.Years, j.side.rows[:], &a.side.gone, &a.roof.gone); g != nil {
			faults = append(faults, g.offer(sr.whole(at.id, at.part), "Long wall as a girder", worst))
			continue
		}
		in, err := j.girderIn(sr, &side, loads)
		if err != nil {
			return err
		}
		r, err := in.Solve()
		if err != nil {
			return err
		}
		if won := worst.add(candidate{slot: at, stage: sr.st.ID, ratio: r.Ratio()}); won != nil {
			in, r := in, r
			won.write = func() (check.Check, error) { return box.SideGirderOf(in, &r), nil }
		}
	}
	return errors.Join(faults...)
}

// cutWeb says why a long wall is no girder; empty where it is one.
func (j *job) cutWeb(side *longSide) string {
	for _, o := range j.p.Box.Openings {
		if o.Wall == string(side.face) && o.Width > wideHole*j.side.height() {
			return fmt.Sprintf("opening %q is wider than a quarter of the height of the wall: the wall is then no girder, and the box needs pads under its bottom rail on both sides of the opening", o.ID)
		}
	}
	return j.holed(side.face, j.span())
}

// wallTop is what one long wall carries of the roof, kN per m along the box
// from the door end.
type wallTop struct{ dead, live, snow frame.Load }

// wallTops is the load of the more loaded long wall. The even pressure that
// stands for wheels counts with the lean of all that comes and goes; the box
// itself and what stays inside hangs on both walls alike.
func (j *job) wallTops(sr *stageResult) (wallTop, error) {
	w, err := j.weigh(sr)
	if err != nil {
		return wallTop{}, err
	}
	own := j.tareKN / 2 / j.box.L
	if j.p.Box.Orientation == model.Broadside {
		return j.broadTop(sr, own), nil
	}
	lean := 1.0
	if w.live.p > 0 {
		lean += math.Min(1, 2*math.Abs(w.live.my/w.live.p)/j.across)
	}
	var out wallTop
	half := j.across / 2
	for i := range sr.tops {
		l := &sr.tops[i].load
		s := (l.Station - j.frontX) / j.depth * j.span()
		out.dead = append(out.dead, frame.LoadPoint{S: s, P: (l.Layers+l.Soil)*half + own})
		out.live = append(out.live, frame.LoadPoint{S: s, P: (l.Live + l.Area + l.Water) * half * lean})
		out.snow = append(out.snow, frame.LoadPoint{S: s, P: l.Snow * half})
	}
	return out, nil
}

// broadTop is wallTops of a box set broadside, whose stations run across it:
// what stands nearer to one wall goes there.
func (j *job) broadTop(sr *stageResult, own float64) wallTop {
	var near, far [3]float64 // downhill and uphill wall
	for i, length := range tributary(stationsOf(sr.tops)) {
		l := &sr.tops[i].load
		share := (l.Station - j.frontX) / j.depth
		for k, q := range [...]float64{l.Layers + l.Soil, l.Live + l.Area + l.Water, l.Snow} {
			near[k] += q * length * (1 - share)
			far[k] += q * length * share
		}
	}
	even := func(k int, more float64) frame.Load { return frame.Uniform(math.Max(near[k], far[k])+more, j.span()) }
	return wallTop{even(0, own), even(1, 0), even(2, 0)}
}

// girderIn is a long wall with all that it carries.
func (j *job) girderIn(sr *stageResult, side *longSide, on wallTop) (box.Girder, error) {
	a := j.agedAt(sr.st.Years)
	in := box.Girder{Web: j.panelOf(a, side.face), Length: j.span(), Dead: on.dead, Live: on.live, Snow: on.snow,
		Push: sr.endPush, Open: j.openWidth(side.face), Cuts: j.roofCuts(), Chord: sr.chord, Steel: j.metal}
	var err error
	if in.Top, err = j.rustedBar(j.side.rows[0], sr.st.Years); err != nil {
		return in, err
	}
	if in.Bottom, err = j.rustedBar(j.side.rows[1], sr.st.Years); err != nil {
		return in, err
	}
	in.Depth = j.side.height() + (in.Top.H+in.Bottom.H)/2
	if in.Bed, err = a.bed, a.bedFault; err != nil {
		return in, err
	}
	in.Places = j.girderPlaces(side)
	top, foot := side.hardest()
	if in.TopBend, err = j.railBend(a, side, top); err != nil {
		return in, err
	}
	in.FootBend, err = j.footBend(a, side, foot)
	return in, err
}

// hardest are the walls of a side that press most on its top and its bottom
// rail.
func (s *longSide) hardest() (top, foot *wallLoad) {
	top, foot = &wallLoad{}, &wallLoad{}
	for _, w := range s.walls {
		if w.top.ASD > top.top.ASD {
			top = w
		}
		if w.bottom.ASD > foot.bottom.ASD {
			foot = w
		}
	}
	return top, foot
}

// footBend is what the foot of a wall uses of its bottom rail in bending between
// cross members.
func (j *job) footBend(a *aged, side *longSide, w *wallLoad) (box.Pair, error) {
	for i := range a.bars[side.face] {
		if b := &a.bars[side.face][i]; b.kind == box.KindBottomRail && b.fault == nil {
			return b.kind.Bending(b.under(w.bottom))
		}
	}
	return box.Pair{}, nil
}

// girderPlaces are the stations of a long wall, and the edges of its openings.
func (j *job) girderPlaces(side *longSide) []box.GirderPlace {
	var out []box.GirderPlace
	if len(side.walls) < 2 { // pressed alike all along
		bend := side.last().bend()
		out = []box.GirderPlace{{Bend: bend}, {At: j.span() / 2, Bend: bend}, {At: j.span(), Bend: bend}}
	} else {
		for _, w := range side.walls {
			out = append(out, box.GirderPlace{At: clampTo((w.station-j.frontX)/j.depth*j.span(), 0, j.span()), Bend: w.bend()})
		}
	}
	for _, o := range j.p.Box.Openings {
		if o.Wall != string(side.face) {
			continue
		}
		for _, x := range [...]float64{o.From, o.From + o.Width} {
			s := clampTo(x-j.box.CastL/2, 0, j.span())
			out = append(out, box.GirderPlace{At: s, Bend: nearest(out, s), Hole: math.Min(o.Height, j.side.height()-waleMargin)})
		}
	}
	return out
}

// nearest is the share that the earth uses at the place nearest to s.
func nearest(places []box.GirderPlace, s float64) (bend box.Pair) {
	best := math.Inf(1)
	for i := range places {
		if d := math.Abs(places[i].At - s); d < best {
			best, bend = d, places[i].Bend
		}
	}
	return bend
}
