package section

import (
	"fmt"
	"math"
	"sort"

	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
)

// finishAt is the level of the finished surface over the box at x.
func finishAt(p *model.Project, box tables.Box, x float64) float64 {
	roof := p.Box.Level + box.H
	if len(p.Fill.Line) >= 2 {
		l := geom.Polyline(p.Fill.Line)
		if z, ok := l.At(math.Min(math.Max(x, l[0][0]), l[len(l)-1][0])); ok {
			return z
		}
	}
	d := Depth(p, box)
	t := (x - p.Box.Front) / d
	return roof + p.Fill.FrontTop + t*(p.Fill.BackTop-p.Fill.FrontTop)
}

// Cover is the thickness of everything on the roof at x, roof build-up
// included; 0 where the finished surface is below the roof.
func Cover(p *model.Project, box tables.Box, x float64) float64 {
	return math.Max(0, finishAt(p, box, x)-p.Box.Level-box.H)
}

// profile is the finished surface of the service stage beside one end of the
// box: from the edge outwards until it meets what is dug or the ground.
func (l *layout) profile(dug geom.Polyline, edge, limit, dir float64) (geom.Polyline, error) {
	line := l.proposed(edge, limit, dir)
	if dir < 0 {
		reverse(line)
	}
	if z, ok := dug.At(edge); !ok || line[edgeIndex(line, dir)][1] <= z {
		return dug, nil
	}
	meet := geom.Intersections(line, dug)
	sort.Slice(meet, func(i, j int) bool { return dir*meet[i][0] < dir*meet[j][0] })
	for _, m := range meet {
		if dir*(m[0]-edge) > faceEps {
			return joinAt(line, dug, m[0], dir), nil
		}
	}
	return nil, model.Problem{Field: "fill.back_slope", Value: fmt.Sprintf("%.3f", l.p.Fill.BackSlope),
		Text:    "the finished surface never meets the ground inside the section",
		Allowed: "a surface that falls towards the ground, or a longer ground line"}
}

func edgeIndex(line geom.Polyline, dir float64) int {
	if dir > 0 {
		return 0
	}
	return len(line) - 1
}

// proposed is the surface as designed, from the edge of the box to the end of
// the axis, not yet cut off where it meets the ground.
func (l *layout) proposed(edge, limit, dir float64) geom.Polyline {
	if !l.length {
		return l.mound(edge, limit, dir)
	}
	if len(l.p.Fill.Line) >= 2 {
		own := geom.Polyline(l.p.Fill.Line)
		if span, err := spanTo(own, edge, limit); err == nil && len(span) >= 2 {
			return span
		}
	}
	z := finishAt(l.p, l.box, edge)
	return geom.Polyline{{edge, z}, {limit, z + (limit-edge)*l.p.Fill.BackSlope}}
}

// mound is the surface across the slope: level over the shoulder, then down at
// the side slope. Where the ground beside the shoulder is higher the level
// part runs on to the face of the cut, and falls only beyond its crest.
func (l *layout) mound(edge, limit, dir float64) geom.Polyline {
	z := l.roofTop
	knee := edge + dir*math.Max(l.p.Fill.Shoulder, minRun)
	if z <= l.sideGround(knee) {
		face := l.right
		if dir < 0 {
			face = l.left
		}
		if n := len(face); n > 0 {
			knee = dir * math.Max(dir*knee, dir*face[n-1].Top[0])
		}
	}
	fall := math.Abs(limit-knee) / math.Max(l.p.Fill.SideSlope, minRun)
	return geom.Polyline{{edge, z}, {knee, z}, {limit, z - fall}}
}

// sideGround is the level of the ground as found at s.
func (l *layout) sideGround(s float64) float64 {
	z, _ := l.ax.ground().At(s)
	return z
}

func reverse(l geom.Polyline) {
	for i, j := 0, len(l)-1; i < j; i, j = i+1, j-1 {
		l[i], l[j] = l[j], l[i]
	}
}

// joinAt follows line from the box to s and base beyond it.
func joinAt(line, base geom.Polyline, s, dir float64) geom.Polyline {
	var near, far geom.Polyline
	if dir > 0 {
		near, far = line.ClipX(line[0][0], s), base.ClipX(s, base[len(base)-1][0])
		return increasing(append(append(geom.Polyline(nil), near...), far...))
	}
	near, far = line.ClipX(s, line[len(line)-1][0]), base.ClipX(base[0][0], s)
	return increasing(append(append(geom.Polyline(nil), far...), near...))
}

// stageSurface lowers a finished surface to what stands at this stage: during
// backfilling a level lift, before the cover nothing above the roof. edge is
// the wall it lies against; lead is how far this side is ahead, m.
func (l *layout) stageSurface(f, dug geom.Polyline, edge, lead float64) geom.Polyline {
	if l.st.Cover {
		return f
	}
	z, _ := f.At(edge)
	top := math.Min(z, l.roof)
	lift := math.Min(l.form+fillTo(l.st)*(top-l.form)+lead, top)
	flat := geom.Polyline{{f[0][0], lift}, {f[len(f)-1][0], lift}}
	return geom.Upper(geom.Lower(f, flat), dug)
}
