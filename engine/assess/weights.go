package assess

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
)

// pile is a sum of forces on the roof with their moments about its middle: mx
// turns the box forward (down at the front), my to the right.
type pile struct{ p, mx, my float64 }

func (a pile) plus(b pile) pile { return pile{a.p + b.p, a.mx + b.mx, a.my + b.my} }

// weights is everything that lies on the roof of the box at a stage; with a roof
// on posts above it that is no more than ground water.
type weights struct {
	sure  pile // weight of soil, build-up and water above it: it holds the box
	dead  pile // soil with the arching factor and build-up: it loads the box
	water pile
	snow  pile
	live  pile // wheels and area loads
}

// weigh sums what lies on the roof, each station by the length of box that it
// stands for, and surcharges where they stand.
func (j *job) weigh(sr *stageResult) (weights, error) {
	var w weights
	mid := (j.frontX + j.backX) / 2
	for i, length := range tributary(stationsOf(sr.tops)) {
		r := &sr.tops[i].roofAt
		area, arm := length*j.across, mid-r.load.Station
		put := func(to *pile, q float64) { *to = to.plus(pile{q * area, q * area * arm, 0}) }
		put(&w.sure, r.prism+r.load.Layers+r.load.Water)
		put(&w.dead, r.load.Soil+r.load.Layers)
		put(&w.water, r.load.Water)
		put(&w.snow, r.load.Snow)
	}
	if j.own != nil {
		return w, nil // what comes and goes stands on the roof on posts
	}
	for _, s := range j.acting(sr.st) {
		var err error
		if s.Kind == model.AreaLoad {
			w.live = w.live.plus(j.areaOnRoof(s))
			continue
		}
		on, err := j.wheelsOnRoof(sr.st, s)
		if err != nil {
			return w, err
		}
		w.live = w.live.plus(on)
	}
	return w, nil
}

// areaOnRoof is the part of an area load that stands over the roof.
func (j *job) areaOnRoof(s model.Surcharge) pile {
	y1, y2 := -j.across/2, j.across/2
	if !isWide(s) {
		y1 = math.Max(y1, math.Min(*s.Y1, *s.Y2))
		y2 = math.Min(y2, math.Max(*s.Y1, *s.Y2))
	}
	x1, x2 := math.Max(s.X1, j.frontX), math.Min(s.X2, j.backX)
	if x2 <= x1 || y2 <= y1 {
		return pile{}
	}
	p := s.Q * (x2 - x1) * (y2 - y1)
	return pile{p, p * ((j.frontX+j.backX)/2 - (x1+x2)/2), p * (y1 + y2) / 2}
}

// wheelsOnRoof is the weight of a vehicle on the roof, impact included. A wheel
// within the thickness of the cover from the edge of the roof counts in full,
// at the edge: that is not less than what spreads onto the roof. None stands
// further out than the corner castings.
func (j *job) wheelsOnRoof(st model.Stage, s model.Surcharge) (pile, error) {
	patches, err := j.patches(s)
	if err != nil {
		return pile{}, err
	}
	castX, castY := j.castings()
	mid := (j.frontX + j.backX) / 2
	var out pile
	for _, w := range patches {
		x := clampTo(w.X, j.frontX, j.backX)
		y := clampTo(w.Y, -j.across/2, j.across/2)
		cover := 0.0
		if st.Cover {
			cover = section.Cover(j.p, j.box, x)
		}
		if math.Hypot(w.X-x, w.Y-y) > math.Max(cover, w.A/2) {
			continue
		}
		impact, err := earth.DynamicAllowance(cover)
		if err != nil {
			return out, err
		}
		p := w.P * (1 + impact)
		reachX, reachY := (j.depth-castX)/2, (j.across-castY)/2
		out = out.plus(pile{p, p * clampTo(mid-x, -reachX, reachX), p * clampTo(y, -reachY, reachY)})
	}
	return out, nil
}

// castings are the sizes of a corner casting into the hill and across it.
func (j *job) castings() (x, y float64) {
	if j.p.Box.Orientation == model.Broadside {
		return j.box.CastW, j.box.CastL
	}
	return j.box.CastL, j.box.CastW
}
