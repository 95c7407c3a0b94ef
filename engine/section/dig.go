package section

import (
	"math"

	"hillset/geom"
)

// dig works out the surface of the excavation: floor at formation level, a
// face at each end that has ground above it, daylight where the ground falls
// below the floor.
func (l *layout) dig(v *View) error {
	workL, workR := l.p.Cut.WorkSide, l.p.Cut.WorkSide
	if l.length {
		workL, workR = l.p.Cut.Apron, l.p.Cut.WorkBack
	}
	left, err := l.end(l.a-workL, -1)
	if err != nil {
		return err
	}
	right, err := l.end(l.b+workR, +1)
	if err != nil {
		return err
	}
	l.left, l.right = left, right
	line := l.pitLine(l.a-workL, l.b+workR)
	l.dug = geom.Lower(l.ax.ground(), line)
	v.CutLine = line
	l.describe(v, geom.Vec{l.a - workL, l.form}, geom.Vec{l.b + workR, l.form})
	return nil
}

// end is the face at one end of the floor, nil where the ground is lower than
// the formation there.
func (l *layout) end(s, dir float64) ([]Batter, error) {
	z, ok := l.ax.ground().At(s)
	if !ok || z <= l.form {
		return nil, nil
	}
	n := func(stratum int) float64 {
		if !l.length {
			return math.Max(l.p.Cut.SideBatter, minRun)
		}
		if own, has := l.p.Cut.ByStratum[l.ax.strata[stratum].ID]; has {
			return math.Max(own, minRun)
		}
		return math.Max(l.p.Cut.Batter, minRun)
	}
	benches := l.p.Cut.Benches
	if !l.length || dir < 0 {
		benches = nil
	}
	return l.ax.face(geom.Vec{s, l.form}, dir, n, benches)
}

// pitLine is floor and faces as one line over the whole axis; beyond the
// crests it follows the ground.
func (l *layout) pitLine(from, to float64) geom.Polyline {
	ground := l.ax.ground()
	var out geom.Polyline
	lo, hi := from, to
	if n := len(l.left); n > 0 {
		lo = l.left[n-1].Top[0]
	}
	if n := len(l.right); n > 0 {
		hi = l.right[n-1].Top[0]
	}
	for _, q := range ground {
		if q[0] < lo-faceEps {
			out = append(out, q)
		}
	}
	if len(l.left) == 0 {
		out = append(out, groundFoot(ground, from, l.form, -1)...)
	}
	for i := len(l.left) - 1; i >= 0; i-- {
		out = append(out, l.left[i].Top, l.left[i].Foot)
	}
	if len(l.left) == 0 {
		out = append(out, geom.Vec{from, l.form})
	}
	for _, b := range l.right {
		out = append(out, b.Foot, b.Top)
	}
	if len(l.right) == 0 {
		out = append(out, geom.Vec{to, l.form})
		out = append(out, groundFoot(ground, to, l.form, +1)...)
	}
	for _, q := range ground {
		if q[0] > hi+faceEps {
			out = append(out, q)
		}
	}
	return increasing(out)
}

// groundFoot is the point where a floor that ends in the air at s comes down
// on the ground: straight below its end.
func groundFoot(ground geom.Polyline, s, form, dir float64) geom.Polyline {
	z, ok := ground.At(s)
	if !ok || z >= form {
		return nil
	}
	return geom.Polyline{{s + dir*faceEps, z}}
}

// increasing drops points that do not advance, so that the line stays a
// function of its axis.
func increasing(in geom.Polyline) geom.Polyline {
	var out geom.Polyline
	for _, q := range in {
		if n := len(out); n > 0 && q[0] <= out[n-1][0] {
			if q[1] == out[n-1][1] {
				continue
			}
			q[0] = math.Nextafter(out[n-1][0], math.Inf(1)) + 1e-9
		}
		out = append(out, q)
	}
	return out
}

// describe fills what the drawing and the checks need to know of the faces.
// In the long section the back face comes first; in the cross section the
// higher of the two.
func (l *layout) describe(v *View, footL, footR geom.Vec) {
	hl, hr := faceHeight(l.left), faceHeight(l.right)
	v.Toe, v.CutHeight = footR, hr
	first, second := l.right, l.left
	if !l.length && hl > hr {
		v.Toe, v.CutHeight = footL, hl
		first, second = l.left, l.right
	}
	v.Crest = v.Toe
	if n := len(first); n > 0 {
		v.Crest = first[n-1].Top
	}
	v.Batters = append(append([]Batter(nil), first...), second...)
	v.CutHeight = math.Max(hl, hr)
}

func faceHeight(b []Batter) float64 {
	if len(b) == 0 {
		return 0
	}
	return b[len(b)-1].Top[1] - b[0].Foot[1]
}
