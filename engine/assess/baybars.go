package assess

import (
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/section"
)

// ribBays lays the ribs where they stand, on both long walls, under the roof
// and on the floor. Ribs are judged at every station as if one stood there: each
// station counts for the rib that is nearest to it. Broadside the stations do
// not run along the ribs, and all count for each.
func (j *job) ribBays(out []Bay, row *bayRow, at func(float64) []strip) []Bay {
	n := j.ribSpans()
	rows := row.rows()
	for i := 1; i < n; i++ {
		mine := slices.Clone(row.whole)
		for _, s := range rows {
			if j.p.Box.Orientation == model.Broadside || j.nearestRib(s.station, n) == i {
				mine = append(mine, s)
			}
		}
		v, ok := worstSeen(mine)
		if !ok {
			continue
		}
		for _, s := range at(j.box.L * float64(i) / float64(n)) {
			out = append(out, Bay{Panel: s.panel, From: s.from, To: s.to, Low: s.low, High: s.high, ID: v.id, Stage: v.stage, Ratio: v.ratio})
		}
	}
	return out
}

// nearestRib is the rib nearest to a station, of those between n bays.
func (j *job) nearestRib(station float64, n int) int {
	i := int(math.Round((station - j.frontX) / j.box.L * float64(n)))
	return min(max(i, 1), n-1)
}

// ribStrips are the bars of the rib at a distance along the box.
func (j *job) ribStrips(at float64) []strip {
	r := &j.p.Strengthening.Ribs
	post, beam, tie := j.halfOf(r.Post), j.halfOf(r.RoofBeam), j.halfOf(r.FloorTie)
	z := j.p.Box.Level
	low, high := j.side.zBottom-z, j.side.zTop-z
	var out []strip
	if j.p.Box.Orientation == model.Broadside {
		out = append(out, strip{section.Back, at - post, at + post, low, high})
		if beam > 0 {
			out = append(out, strip{section.Roof, 0, j.depth, at - beam, at + beam})
		}
		if tie > 0 {
			out = append(out, strip{section.Floor, 0, j.depth, at - tie, at + tie})
		}
		return out
	}
	out = append(out, strip{section.Left, at - post, at + post, low, high}, strip{section.Right, at - post, at + post, low, high})
	if beam > 0 {
		out = append(out, strip{section.Roof, at - beam, at + beam, 0, j.across})
	}
	if tie > 0 {
		out = append(out, strip{section.Floor, at - tie, at + tie, 0, j.across})
	}
	return out
}

// strutStrips are the ends of the cross struts of the rib at a distance along
// the box, on the walls that they prop.
func (j *job) strutStrips(at float64) []strip {
	var out []strip
	z := j.side.zBottom - j.p.Box.Level
	for _, s := range j.p.Strengthening.Ribs.Struts {
		half := j.halfOf(s.Section)
		if j.p.Box.Orientation == model.Broadside {
			out = append(out, strip{section.Back, at - half, at + half, z + s.Height - half, z + s.Height + half})
			continue
		}
		for _, f := range []section.Face{section.Left, section.Right} {
			out = append(out, strip{f, at - half, at + half, z + s.Height - half, z + s.Height + half})
		}
	}
	return out
}

// frameStrips are the two posts of an end frame on the panel of that end,
// end-on or broadside.
func (j *job) frameStrips(endOn, broadside section.Face) []strip {
	f := endOn
	if j.p.Box.Orientation == model.Broadside {
		f = broadside
	}
	l, w := j.lengthOf(f), j.box.CastW
	return []strip{{f, 0, w, 0, j.box.H}, {f, l - w, l, 0, j.box.H}}
}

// padStrips are the rows of pads of the roof on posts, at its two long edges.
func (j *job) padStrips() []strip {
	w := math.Min(math.Max(j.p.Strengthening.RoofSlab.Footing, 0.1), j.box.W/4)
	if j.p.Box.Orientation == model.Broadside {
		return []strip{{OverRoof, 0, w, 0, j.across}, {OverRoof, j.depth - w, j.depth, 0, j.across}}
	}
	return []strip{{panel: OverRoof, high: w}, {panel: OverRoof, low: j.across - w, high: j.across}}
}

// skinOf is the panel of what stands outside a face.
func skinOf(f section.Face) section.Face {
	switch f {
	case section.Left:
		return LeftSkin
	case section.Right:
		return RightSkin
	}
	return BackSkin
}

// openingStrips is an opening with what frames it, on the panel of its wall.
func (j *job) openingStrips(id string) []strip {
	for _, o := range j.p.Box.Openings {
		if o.ID != id {
			continue
		}
		f := section.Face(o.Wall)
		base := j.side.zBottom - j.p.Box.Level
		if f == section.Roof {
			base = 0
		}
		low, high := base+o.Sill, base+o.Sill+o.Height
		top := j.box.H
		if f == section.Roof {
			top = j.across
		}
		s := strip{f, math.Max(0, o.From), math.Min(o.From+o.Width, j.lengthOf(f)), math.Max(0, low), math.Min(high, top)}
		if s.from < s.to && s.low < s.high {
			return []strip{s}
		}
	}
	return nil
}
