package box

import (
	"fmt"
	"math"
	"sync"

	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Strip is one metre of a wall sheet, corrugations upright, between the bottom
// rail (or sill) and the top rail (or header), with or without wales between.
// It is pinned at both ends: the welds to the rails carry no lasting moment.
type Strip struct {
	Profile steel.Profile // without dents
	Steel   Material
	Dent    float64   // depth of the dent in this strip, m
	Height  float64   // clear height between the supports, m
	Wales   []float64 // heights of wales above the bottom support, rising, m
	Load    Pressures // over the height from the bottom support
}

// Bounds of what is taken for a wall of a container.
const (
	minHeight = 0.3 // m
	maxHeight = 6.0 // m
)

// StripResult is what comes out of a wall strip. Moments and forces are per
// metre of wall.
type StripResult struct {
	Profile      steel.Profile    // dented
	Line         frame.Multi      // service loads: moment, shear and deflection lines
	EI           float64          // kNm2/m, gross section
	Outer, Inner steel.EffSection // with the outer and the inner flat in compression
	Vn           float64          // kN/m
	StripRating
}

// StripRating is what a load does to a wall strip, per metre of wall.
type StripRating struct {
	Field         Pair    // kNm/m, largest moment between supports, tension inside
	FieldAt       float64 // m above the bottom support (service)
	Hog           Pair    // kNm/m, largest moment over wales, tension outside
	HogAt         float64
	Shear         Pair // kN/m
	Bottom, Top   Pair // kN/m, reactions on the bottom and the top support
	Wales         []Pair
	FieldRatio    Pair
	HogRatio      Pair
	ShearRatio    Pair
	TogetherRatio Pair    // bending with shear over the wales
	Sag           float64 // m, largest service deflection between supports, either way
	SagOverSpan   float64 // the largest share that it is of the span there
}

// checkSheet refuses a strip that is not a wall of a container.
func (s Strip) checkSheet() error {
	if err := quantity.Within("wall height", s.Height, minHeight, maxHeight, quantity.Length); err != nil {
		return err
	}
	if err := s.Steel.check(); err != nil {
		return err
	}
	last := 0.0
	for k, w := range s.Wales {
		if w >= last+minGap && w <= s.Height-minGap {
			last = w
			continue
		}
		if err := quantity.Within(fmt.Sprintf("height of wale %d", k+1), w, last+minGap, s.Height-minGap, quantity.Length); err != nil {
			return err
		}
	}
	return nil
}

// minGap is the least distance between supports of a sheet, m: less is one
// support.
const minGap = 0.05

// places are the supports from the bottom up.
func (s Strip) places() []float64 {
	out := make([]float64, 0, len(s.Wales)+2)
	return append(append(append(out, 0), s.Wales...), s.Height)
}

// ReadyStrip is a strip of wall with what does not depend on its load worked
// out once. Goroutines may share it.
type ReadyStrip struct {
	strip    Strip
	places   []float64
	strength StripResult // with nothing but strengths
	room     sync.Pool   // of *stripRoom
}

// Ready prepares a strip for many loads. Its own is set aside.
func (s Strip) Ready() (*ReadyStrip, error) {
	if err := s.checkSheet(); err != nil {
		return nil, err
	}
	out := &ReadyStrip{strip: s, places: s.places()}
	return out, s.strengths(&out.strength)
}

// Under is Strip.Solve under another load.
func (s *ReadyStrip) Under(load Pressures) (StripResult, error) {
	r := s.strength
	if err := load.check(s.strip.Height); err != nil {
		return r, err
	}
	err := r.statics(s.places, load.Service())
	return r, err
}

// statics solves the strip under the service load and rates it.
func (s *StripResult) statics(places []float64, service frame.Load) (err error) {
	if s.Line, err = frame.Continuous(places, service, s.EI); err == nil {
		s.StripRating = s.rating(&s.Line)
	}
	return err
}

// Rate is the rating of Under, without the lines, which cost memory.
func (s *ReadyStrip) Rate(load Pressures) (StripRating, error) {
	if err := load.check(s.strip.Height); err != nil {
		return StripRating{}, err
	}
	room, ok := s.room.Get().(*stripRoom)
	if !ok {
		room = &stripRoom{}
	}
	defer s.room.Put(room)
	room.load = room.load[:0].Plus(load.Earth, 1).Plus(load.Water, 1).Plus(load.Live, 1)
	if err := room.line.Solve(s.places, room.load, s.strength.EI, &room.lines); err != nil {
		return StripRating{}, err
	}
	return s.strength.rating(&room.line), nil
}

// stripRoom is memory for one load after the other.
type stripRoom struct {
	load  frame.Load
	line  frame.Multi
	lines frame.MultiRoom
}

// Solve does the statics and finds the strengths and ratios of the strip.
func (s Strip) Solve() (StripResult, error) {
	ready, err := s.Ready()
	if err != nil {
		return StripResult{}, err
	}
	return ready.Under(s.Load)
}

// strengths finds what the sheet can carry.
func (s Strip) strengths(r *StripResult) error {
	prof, err := s.Profile.Dented(s.Dent)
	if err != nil {
		return err
	}
	r.Profile = prof
	g, err := prof.Props()
	if err != nil {
		return err
	}
	r.EI = s.Steel.E * g.Inertia
	if r.Outer, err = prof.Effective(steel.Outer, steel.AISI, s.Steel.Fy, steel.EAISI); err != nil {
		return err
	}
	if r.Inner, err = prof.Effective(steel.Inner, steel.AISI, s.Steel.Fy, steel.EAISI); err != nil {
		return err
	}
	r.Vn, err = prof.ShearStrength(s.Steel.Fy, steel.EAISI)
	return err
}

// rating takes the effects of the loads and sets them against the strengths.
// Factored effects are service effects times the one factor that everything on
// a wall has.
func (s *StripResult) rating(line *frame.Multi) (r StripRating) {
	pair := func(v float64) Pair { return Pair{v, v * factorWall} }
	field, at := line.Field()
	r.Field, r.FieldAt = pair(field), at
	hog, at := line.Hog()
	r.Hog, r.HogAt = pair(hog), at
	r.Shear = pair(line.Shear())
	n := len(line.Reactions) - 1
	r.Bottom, r.Top = pair(line.Reactions[0]), pair(line.Reactions[n])
	if n > 1 {
		r.Wales = make([]Pair, 0, n-1)
	}
	for _, re := range line.Reactions[1:n] {
		r.Wales = append(r.Wales, pair(re))
	}
	for k := range line.Spans {
		w, _ := line.Spans[k].Sag()
		r.Sag, r.SagOverSpan = max(r.Sag, abs(w)), max(r.SagOverSpan, abs(w)/line.Spans[k].L)
	}
	r.FieldRatio = bent(r.Field, s.Outer.Mn)
	r.HogRatio = bent(r.Hog, s.Inner.Mn)
	r.ShearRatio = Pair{r.Shear.ASD * steel.OmegaShear / s.Vn, r.Shear.LRFD / (steel.PhiShear * s.Vn)}
	r.TogetherRatio = s.overWales(line)
	return r
}

// bent sets a moment against a nominal strength.
func bent(m Pair, mn float64) Pair {
	return Pair{m.ASD * steel.OmegaBending / mn, m.LRFD / (steel.PhiBending * mn)}
}

// overWales is the circular interaction of moment and shear over the wales,
// the larger shear beside each (AISI S100 H2, memory).
func (s *StripResult) overWales(line *frame.Multi) (out Pair) {
	for k := 1; k < len(line.Spans); k++ {
		m, mn := -line.MSup[k], s.Inner.Mn
		if m < 0 {
			m, mn = -m, s.Outer.Mn
		}
		v := max(abs(line.Spans[k-1].Rb), abs(line.Spans[k].Ra))
		rm := bent(Pair{m, m * factorWall}, mn)
		asd := math.Hypot(rm.ASD, v*steel.OmegaShear/s.Vn)
		lrfd := math.Hypot(rm.LRFD, v*factorWall/(steel.PhiShear*s.Vn))
		out = Pair{max(out.ASD, asd), max(out.LRFD, lrfd)}
	}
	return out
}

// EI is the stiffness of a metre of the sheet, gross section, kNm2/m.
func (s *ReadyStrip) EI() float64 { return s.strength.EI }
