package assess

import (
	"cmp"
	"slices"

	"hillset/engine/climate"
	"hillset/engine/model"
)

const doorFace = "doors"

// faces checks what the vapour of the room does on the steel, face by face.
func (w *weather) faces() {
	g, room := climateGaps, &w.p.Room
	cold, _, ok := w.seasons()
	inside := need{"the temperature wanted inside", room.Temperature != nil}
	humid := need{"the humidity wanted inside", room.Humid > 0}
	air := need{"the mean of the air over the year and half its range", ok}
	soil := need{"the backfill, of a class with thermal values", w.out.Fill != nil}
	in := &room.Insulation
	known := need{"thickness and conductivity of the insulation", in.Side == "" || in.Thickness > 0 && in.K > 0}
	needs := []need{inside, humid, air, soil, known}
	lining := in.Side == model.InsideSteel
	if w.lacks(g.dew, needs...) {
		w.lacks(g.mould, needs...)
		if lining {
			w.lacks(g.vapour, needs...)
		}
		return
	}
	w.out.Room = &climate.Air{T: *room.Temperature, RH: room.Humid}
	over, _, err := w.out.Fill.Least(w.out.Cover)
	if err != nil {
		w.miss(asProblem(err).Text, g.dew, g.mould)
		return
	}
	faces := []climate.Face{
		{Name: "roof", Behind: over, R: w.roofResistance(), Rsi: climate.RsiRoof},
		{Name: "upper edge of the walls", Behind: over, R: w.resistance(), Rsi: climate.RsiWall},
		{Name: doorFace, Behind: cold, R: w.doorResistance(), Rsi: climate.RsiWall},
	}
	if w.p.Box.Orientation == model.Broadside {
		faces = append(faces, climate.Face{Name: "downhill side", Behind: cold, R: w.resistance(), Rsi: climate.RsiWall})
	}
	for _, f := range faces {
		s, err := f.Find(*w.out.Room)
		if err != nil {
			w.miss(asProblem(err).Text, g.dew, g.mould)
			return
		}
		w.out.Skins = append(w.out.Skins, Skin{f, s})
		c, err := climate.DewCheck(f, *w.out.Room)
		w.offer(g.dew, c, err)
		c, err = climate.MouldCheck(f, *w.out.Room)
		w.offer(g.mould, c, err)
	}
	slices.SortStableFunc(w.out.Skins, func(a, b Skin) int { return cmp.Compare(a.Lined, b.Lined) })
	if lining {
		w.lining(faces)
	}
}

// lining checks the steel behind insulation on its inside.
func (w *weather) lining(faces []climate.Face) {
	g, in := climateGaps.vapour, &w.p.Room.Insulation
	if w.lacks(g, need{"the resistance of the insulation to vapour µ", in.Mu > 0}) {
		return
	}
	for _, f := range faces {
		if f.Name == doorFace && !in.Doors {
			continue
		}
		c, err := climate.LiningCheck(f, climate.Lining{R: w.resistance(), Air: in.Thickness*in.Mu + in.Retarder, Rsi: f.Rsi}, *w.out.Room)
		w.offer(g, c, err)
	}
}
