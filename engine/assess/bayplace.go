package assess

import (
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// panelsFlat are the faces of the box laid flat, and what stands outside them.
func (j *job) panelsFlat() []Panel {
	h := j.box.H
	out := []Panel{{section.Left, j.depth, h}, {section.Right, j.depth, h}, {section.Back, j.across, h},
		{section.Front, j.across, h}, {section.Roof, j.depth, j.across}, {section.Floor, j.depth, j.across}}
	if j.hasSkin() {
		out = append(out, Panel{LeftSkin, j.depth, h}, Panel{RightSkin, j.depth, h}, Panel{BackSkin, j.across, h})
	}
	if j.own != nil || j.hasLightFill() {
		out = append(out, Panel{OverRoof, j.depth, j.across})
	}
	for _, s := range j.wings {
		if s.fault == nil && s.wall != nil {
			out = append(out, Panel{section.Face(s.part), s.wall.Length(), s.wall.Top(s.wall.Columns[0]) - s.wall.Base})
		}
	}
	return out
}

// strip is a stretch of a panel that a part takes: over its length where to is
// not above from, and from low to high across.
type strip struct {
	panel     section.Face
	from, to  float64
	low, high float64
}

// bays lays what a book holds on the panels, in a fixed order.
func (j *job) bays(book bayBook, checks []check.Check) []Bay {
	parts := make([]string, 0, len(book))
	for part := range book {
		parts = append(parts, part)
	}
	slices.Sort(parts)
	out := make([]Bay, 0, 8*len(parts))
	for _, part := range parts {
		row := book[part]
		from := len(out)
		switch part {
		case "ribs":
			out = j.ribBays(out, row, j.ribStrips)
		case strutPart:
			out = j.ribBays(out, row, j.strutStrips)
		case leftWing, rightWing:
			out = j.wingBays(out, row, part)
		default:
			for _, s := range j.stripsOf(part) {
				out = j.laid(out, s, row)
			}
		}
		titles := map[string]string{}
		for i := from; i < len(out); i++ {
			b := &out[i]
			b.Part, b.Bar = part, b.Bar || isBar(part)
			if titles[b.ID] == "" {
				titles[b.ID] = titleOf(checks, b.ID, part)
			}
			b.Title = titles[b.ID]
		}
	}
	return out
}

// laid puts the values of a part on its strip: one patch per station along the
// hill, or one for all where the strip is short or the part has no stations.
func (j *job) laid(out []Bay, s strip, row *bayRow) []Bay {
	whole := s.to > s.from
	if !whole {
		s.from, s.to = 0, j.lengthOf(s.panel)
	}
	bay := func(v seen, from, to float64) {
		out = append(out, Bay{Panel: s.panel, From: from, To: to, Low: s.low, High: s.high, ID: v.id, Stage: v.stage, Ratio: v.ratio})
	}
	rows := row.rows()
	if whole || len(rows) == 0 || s.panel == section.Back || s.panel == BackSkin {
		if v, ok := worstSeen(append(slices.Clone(row.whole), rows...)); ok {
			bay(v, s.from, s.to)
		}
		return out
	}
	for i, v := range rows {
		from, to := s.from, s.to
		if i > 0 {
			from = (rows[i-1].station+v.station)/2 - j.frontX
		}
		if i+1 < len(rows) {
			to = (rows[i+1].station+v.station)/2 - j.frontX
		}
		bay(v, from, to)
	}
	return out
}

// isBar tells bars from sheets and from the floor, by the name of the part.
func isBar(part string) bool {
	if strings.HasSuffix(part, ", "+studSkinName) || strings.HasSuffix(part, ", "+concreteSkinName) {
		return false
	}
	switch part {
	case "ribs", strutPart, cornerPosts, blindFrame, doorFrame, padsPart:
		return true
	}
	return strings.Contains(part, ", ")
}

// alongBox are strips along the whole box on roof or floor, between two
// distances across it.
func (j *job) alongBox(panel section.Face, bands [][2]float64) []strip {
	var out []strip
	for _, b := range bands {
		if j.p.Box.Orientation == model.Broadside {
			out = append(out, strip{panel, b[0], b[1], 0, j.across})
		} else {
			out = append(out, strip{panel, 0, j.depth, b[0], b[1]})
		}
	}
	return out
}

// lengthOf is the length of a panel.
func (j *job) lengthOf(f section.Face) float64 {
	if f == section.Back || f == section.Front || f == BackSkin {
		return j.across
	}
	return j.depth
}

// stripsOf is where a part lies on the panels; none where it has no place on
// them.
func (j *job) stripsOf(part string) []strip {
	head, tail, _ := strings.Cut(part, ", ")
	switch head {
	case "left side wall":
		return j.wallStrip(section.Left, tail)
	case "right side wall":
		return j.wallStrip(section.Right, tail)
	case "back wall":
		return j.wallStrip(section.Back, tail)
	case "roof":
		return j.roofStrips(tail)
	case crossSlot.part:
		return []strip{{panel: section.Floor, high: j.across}}
	case cornerPosts:
		return j.postStrips(tail == "")
	case blindFrame:
		return j.frameStrips(section.Back, section.Right)
	case doorFrame:
		return j.frameStrips(section.Front, section.Left)
	case slabPart:
		return []strip{{panel: OverRoof, high: j.across}}
	case padsPart:
		return j.padStrips()
	}
	if id, ok := strings.CutPrefix(head, "opening "); ok {
		return j.openingStrips(id)
	}
	if strings.HasPrefix(part, lightPart) {
		return []strip{{panel: OverRoof, high: j.across}}
	}
	return nil
}

// cornerPosts is the part that the posts at the corners are; those of the
// blind end alone have a name of their own.
const cornerPosts = "corner posts"

// postStrips are the corner posts on the two panels that show the depth of the
// box: those of the blind end, and those of the door end where both are meant.
func (j *job) postStrips(both bool) []strip {
	var out []strip
	for _, f := range []section.Face{section.Left, section.Right} {
		if j.p.Box.Orientation == model.Broadside {
			out = append(out, strip{f, 0, j.box.CastW, 0, j.box.H})
			out = append(out, strip{f, j.depth - j.box.CastW, j.depth, 0, j.box.H})
			continue
		}
		if both {
			out = append(out, strip{f, 0, j.box.CastL, 0, j.box.H})
		}
		out = append(out, strip{f, j.depth - j.box.CastL, j.depth, 0, j.box.H})
	}
	return out
}

// wallStrip is a part of a wall: the sheet, or one of the bars along it.
func (j *job) wallStrip(f section.Face, what string) []strip {
	pn, z := j.wallOf(f), j.p.Box.Level
	s := strip{panel: f}
	switch {
	case what == studSkinName:
		s.panel, s.low, s.high = skinOf(f), pn.zBottom-z, pn.zTop-z
	case what == concreteSkinName:
		s.panel, s.high = skinOf(f), j.box.H
	case what == "":
		s.low, s.high = pn.zBottom-z, pn.zTop-z
	case what == "top rail" || what == "header":
		s.low, s.high = pn.zTop-z, j.box.H
	case what == "bottom rail" || what == "sill":
		s.low, s.high = j.box.UnderClearance, pn.zBottom-z
	default:
		k := numberOf(what, "wale ")
		wales := pn.between()
		if k < 1 || k > len(wales) {
			return nil
		}
		half := j.halfOf(wales[k-1].Section)
		mid := pn.zBottom - z + wales[k-1].Height
		s.low, s.high = mid-half, mid+half
	}
	return []strip{s}
}

// roofStrips is the roof sheet or a purlin under it.
func (j *job) roofStrips(what string) []strip {
	if what == "" {
		return []strip{{panel: section.Roof, high: j.across}}
	}
	k, places := numberOf(what, "purlin "), j.purlinPlaces()
	if k < 1 || k > len(places) {
		return nil
	}
	mid, half := (j.box.W-j.roofSpan())/2+places[k-1], j.halfOf(j.p.Strengthening.Ribs.Purlin)
	out := j.alongBox(section.Roof, [][2]float64{{mid - half, mid + half}})
	if j.p.Box.Orientation != model.Broadside {
		out[0].to = 0 // along the stations
	}
	return out
}

// numberOf reads the number behind a name; 0 where it has none.
func numberOf(what, name string) int {
	digits, ok := strings.CutPrefix(what, name)
	n := 0
	for _, c := range digits {
		if c < '0' || c > '9' || n > 1e6 {
			return 0
		}
		n = 10*n + int(c-'0')
	}
	if !ok {
		return 0
	}
	return n
}

// halfOf is half the width of a bar of the table as it is seen flat, m.
func (j *job) halfOf(id string) float64 {
	row, _ := j.t.Bar(id)
	return row.B / 2
}
