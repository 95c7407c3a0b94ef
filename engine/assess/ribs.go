package assess

import (
	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// ribChecks offers the ribs at every station, as if one stood there: each
// carries its spacing of both walls and of the roof.
func (j *job) ribChecks(v *section.View, sr *stageResult) error {
	if !j.hasRibs() {
		return nil
	}
	rib, err := j.rib()
	if err != nil {
		return err
	}
	if j.p.Box.Orientation == model.Broadside {
		return j.offerRib(v, sr, rib, wallLoad{}, sr.back, worstRoof(sr.roofs))
	}
	for i := 0; i+1 < len(sr.walls); i += 2 {
		if err := j.offerRib(v, sr, rib, sr.walls[i], sr.walls[i+1], sr.roofs[i/2].load); err != nil {
			return err
		}
	}
	return nil
}

// rib is a frame of the project's bars without load.
func (j *job) rib() (box.Rib, error) {
	r := j.p.Strengthening.Ribs
	out := box.Rib{Spacing: r.Spacing, Steel: j.added, Height: j.side.height()}
	var err error
	if out.Post, err = j.bar(r.Post); err != nil {
		return out, err
	}
	if out.Beam, err = j.bar(r.RoofBeam); err != nil {
		return out, err
	}
	if out.Tie, err = j.bar(r.FloorTie); err != nil {
		return out, err
	}
	out.Width = j.box.InW - out.Post.H
	for _, w := range j.side.between() {
		out.Wales = append(out.Wales, w.Height)
	}
	return out, nil
}

// worstRoof is the heaviest load of a roof whose stations run across its span.
func worstRoof(rs []roofAt) RoofLoad {
	var out RoofLoad
	for i, r := range rs {
		if i == 0 || r.load.Total > out.Total {
			out = r.load
		}
	}
	return out
}

// offerRib loads a rib and offers it.
func (j *job) offerRib(v *section.View, sr *stageResult, rib box.Rib, left, right wallLoad, roof RoofLoad) error {
	if !left.loaded && !right.loaded && roof.Total <= 0 {
		return nil
	}
	rib.Left, rib.Right = left.strip.Load, right.strip.Load
	rib.Dead, rib.Live = roof.Layers+roof.Soil, roof.Live+roof.Area
	rib.Snow, rib.Water = roof.Snow, roof.Water
	solved, err := rib.Solve()
	if err != nil {
		return err
	}
	_, ratio := solved.Worst()
	sr.add(candidate{id: "rib", part: "ribs", stage: v.Stage.ID, station: roof.Station, hasStation: true,
		ratio: ratioOf(ratio.ASD, ratio.LRFD),
		write: func() (check.Check, error) { made, _, err := box.RibRing(rib); return made, err }})
	return nil
}
