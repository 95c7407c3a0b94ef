package water

import (
	"math"

	"hillset/engine/section"
	"hillset/geom"
)

// Against is the water against a wall.
type Against struct {
	Level float64 // water table at the wall; -Inf where it stands below the box
	// Share is the largest pressure over that of still water to that level,
	// anywhere down the wall: below 1 where water flows down to a drain, a little
	// above it where water rises along the wall.
	Share float64
}

// besideWall is how far from a wall its water is read, m: past the lines that
// the mesh takes together.
const besideWall = 0.01

// At is the water against a face of the box.
func (s *State) At(f section.Face) Against {
	x, ok := s.wall(f)
	if !ok {
		return Against{math.Inf(-1), 1}
	}
	z, ok := s.Table.At(x)
	floor := s.View.Box.Min[1]
	if !ok || z <= floor {
		return Against{math.Inf(-1), 1}
	}
	a, top := Against{Level: z}, z
	if h, ok := s.Flow.HeadAt(geom.Vec{x, floor}); ok && z-floor < faceSkin {
		top = math.Max(top, h)
	}
	for k := range faceSteps {
		at := floor + (z-floor)*(float64(k)+0.5)/faceSteps
		h, ok := s.Flow.HeadAt(geom.Vec{x, at})
		switch {
		case !ok:
		case z-at < faceSkin:
			top = math.Max(top, h)
		default:
			a.Share = math.Max(a.Share, (h-at)/(z-at))
		}
	}
	if a.Share <= 0 { // no pressure was found, or too little water for a share: all of it counts
		a = Against{Level: top, Share: 1}
	}
	return a
}

const (
	// faceSteps divides a wall below the water for its pressure.
	faceSteps = 12
	// faceSkin is the depth of water that tells no share of its pressure, m: there
	// the table is known no better than the pressure. Less than this on a wall
	// counts as still water to the highest head found.
	faceSkin = 0.05
)

// wall is a place just outside a face; false where the section does not cut it.
func (s *State) wall(f section.Face) (x float64, ok bool) {
	b := s.View.Box
	switch {
	case !s.View.HasBox:
	case s.View.Long && f == section.Back, !s.View.Long && f == section.Right:
		return b.Max[0] + besideWall, true
	case s.View.Long && f == section.Front, !s.View.Long && f == section.Left:
		return b.Min[0] - besideWall, true
	}
	return 0, false
}

// Pore is the water pressure at places up a face, kPa, from the underside of
// the box: pairs of level and pressure.
func (s *State) Pore(f section.Face, n int) [][2]float64 {
	x, ok := s.wall(f)
	if !ok || n < 2 {
		return nil
	}
	b := s.View.Box
	out := make([][2]float64, 0, n)
	for k := range n {
		z := b.Min[1] + b.H()*float64(k)/float64(n-1)
		u := 0.0
		if h, ok := s.Flow.HeadAt(geom.Vec{x, z}); ok {
			u = gammaW * math.Max(0, h-z)
		}
		out = append(out, [2]float64{z, u})
	}
	return out
}

// gammaW is the unit weight of water, kN/m3.
const gammaW = 9.81

// Under is the water under the box: the mean and the largest height to which it
// would rise above the underside, m, and where the mean acts along the section.
// Under pads and slabs it is the water below the concrete, which lifts them and
// the box alike. NaN where it is known nowhere.
func (s *State) Under() (mean, most, at float64) {
	if !s.View.HasBox {
		return 0, 0, 0
	}
	b := s.View.Box
	sum, first, read := 0.0, 0.0, 0
	for k := range underSteps {
		x := b.Min[0] + b.W()*(float64(k)+0.5)/underSteps
		h, ok := s.headUnder(x)
		if !ok {
			continue
		}
		read++
		up := math.Max(0, h-b.Min[1])
		sum += up
		first += up * x
		most = math.Max(most, up)
	}
	switch {
	case read == 0:
		return math.NaN(), math.NaN(), math.NaN()
	case sum == 0:
		return 0, 0, b.Center()[0]
	}
	return sum / float64(read), most, first / sum
}

// headUnder is the head of the water nearest below the box at x, m; false where
// there is no ground to read it in.
func (s *State) headUnder(x float64) (float64, bool) {
	at := geom.Vec{x, s.View.Box.Min[1] - besideWall}
	for at[1] > s.foot() {
		if h, ok := s.Flow.HeadAt(at); ok {
			return h, true
		}
		at[1] -= besideWall
	}
	return 0, false
}

// foot is the lowest level of the section, m.
func (s *State) foot() float64 {
	z := math.Inf(1)
	for _, l := range s.Flow.Mesh.Lines {
		z = math.Min(z, s.Flow.Mesh.Nodes[l.First][1])
	}
	return z
}

// underSteps divides the floor of the box.
const underSteps = 24

// Highest is the highest level of the water table at the box, over it and
// beside it, in all sections, m: below the box it is that to which water would
// rise in a pipe. NaN where no section knows.
func (w *Wet) Highest() float64 {
	out := math.NaN()
	for _, s := range append([]*State{w.Long}, w.Cross...) {
		if s == nil || !s.View.HasBox {
			continue
		}
		b := s.View.Box
		for _, v := range s.Table.ClipX(b.Min[0]-besideWall, b.Max[0]+besideWall) {
			if !(v[1] <= out) {
				out = v[1]
			}
		}
	}
	return out
}

// Floor is the water pressure on the underside of the box, kPa, at n places
// along the section: pairs of place and pressure; none where there is no box.
func (s *State) Floor(n int) [][2]float64 {
	if !s.View.HasBox || n < 2 {
		return nil
	}
	b := s.View.Box
	out := make([][2]float64, 0, n)
	for k := range n {
		x := b.Min[0] + b.W()*float64(k)/float64(n-1)
		u := 0.0
		if h, ok := s.headUnder(x); ok {
			u = gammaW * math.Max(0, h-b.Min[1])
		}
		out = append(out, [2]float64{x, u})
	}
	return out
}
