// Package water brings the ground water of a project to its sections: the
// computed water table at a stage, what the drains take, what reaches the pit,
// and how the water stands and presses along the faces of the box.
//
// The far water level, uphill beyond the section, is fitted so that the hill
// as found has its water where it was seen or is said to stand. The works do
// not change that level: the section must reach far enough uphill.
//
// Limits, of seepage as well: the flow is steady, so no storm and no filling or
// emptying is followed; each section is worked in its own plane, long and across,
// and what turns from one into the other is not; the base of the section is
// tight; recharge is no more than the tightest soil above lets through, the rest
// runs off; and water perched on a layer above the water table is not followed.
package water

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// Options say what acts.
type Options struct {
	// Blocked lets no water into any drain.
	Blocked bool
	// NoInterceptor leaves the planned trench drain uphill out.
	NoInterceptor bool
	// NoRain lets no rain through the top. A section across the box takes none:
	// it would have nowhere to go but to the ends, where in the hill it runs off
	// down the slope.
	NoRain bool
	Grain  seepage.Grain
}

// What a mesh much finer than that of the checks changed in the sections of the
// demonstration projects, at most.
const (
	FinerLevel = 0.07 // m, of the water at a wall
	FinerFlow  = 0.03 // of what a drain takes
)

// Ordinary is the mesh of the checks: some 1,000 to 2,000 nodes in a section.
func Ordinary() seepage.Grain { return seepage.Grain{Near: 0.15, Far: 1.2, Grow: 0.15} }

// Permeability that stands for an open space under the box, m/s: water runs
// through it freely.
const openSpace = 0.1

// trench is the width of the stone round a drain pipe below the formation, m.
const trench = 0.3

// domain is the ground of a section with what stands in it. The ends are left
// closed.
func domain(p *model.Project, v *section.View, o Options) (*seepage.Domain, error) {
	d := &seepage.Domain{Left: seepage.Side{Head: math.NaN(), Face: true}, Right: seepage.Side{Head: math.NaN()}, Pond: math.NaN()}
	if !o.NoRain {
		d.Recharge = recharge(p)
	}
	if v.HasBox {
		d.Solids = append(d.Solids, v.Box.ToRegion())
	}
	if err := pipes(d, p, v, o); err != nil {
		return nil, err
	}
	under(d, v)
	for _, zs := range [][]section.Zone{v.Bedding, v.Fill, v.Strata} {
		for i := range zs {
			if err := add(d, p, &zs[i]); err != nil {
				return nil, err
			}
		}
	}
	return d, deepen(d, p, v, Foot(p))
}

// recharge is rain that reaches the water table, m/s.
func recharge(p *model.Project) float64 { return p.Site.Water.Recharge / 1000 / secondsInYear }

const secondsInYear = 365.25 * 86400

// add puts a zone of the section into the domain: concrete, steel and what is
// laid on the roof let nothing through.
func add(d *seepage.Domain, p *model.Project, z *section.Zone) error {
	if z.Soil == "" {
		d.Solids = append(d.Solids, z.Region)
		return nil
	}
	kx, kz, err := permeability(p, z.Soil)
	if err != nil {
		return err
	}
	d.Zones = append(d.Zones, seepage.Zone{Name: z.Name, Region: z.Region, Kx: kx, Kz: kz})
	return nil
}

// coarse are the classes whose permeability is asked for and never taken from
// a table: open gravel spans more than two powers of ten by its grading.
var coarse = []string{"GW", "GP", "drain-stone", "pea-gravel", "crushed-base"}

// Asks tells whether the permeability of a soil is still to be given by the
// user, because no table can know it.
func Asks(s *model.Soil) bool {
	return slices.Contains(coarse, s.USCS) && !slices.Contains(s.Set, "kx")
}

// permeability of a soil. One that is missing, or that only a table gives for
// open gravel, is a model.Problem that asks for it.
func permeability(p *model.Project, id string) (kx, kz float64, err error) {
	i := slices.IndexFunc(p.Site.Soils, func(s model.Soil) bool { return s.ID == id })
	if i < 0 {
		return 0, 0, model.Problem{Field: "site.soils", Value: fmt.Sprintf("%q", id), Allowed: "a soil of the project", Text: "no such soil"}
	}
	s := &p.Site.Soils[i]
	field := fmt.Sprintf("site.soils[%d].kx", i)
	if Asks(s) {
		return 0, 0, model.Problem{Field: field, Value: "not yours", Allowed: "a value that you give",
			Text: "the permeability of " + s.Name + " is asked for: by its grading it may differ 200 times, and no table can know it"}
	}
	kx, kz = s.Kx, s.Kz
	if kz == 0 {
		kz = kx
	}
	if kx <= 0 {
		return 0, 0, model.Problem{Field: field, Value: "not given", Allowed: quantity.Between(1e-13, 1, quantity.Permeability), Text: "the permeability of " + s.Name + " is missing"}
	}
	return kx, kz, nil
}

// pipes puts the drains into the domain, each in a trench of drain stone.
func pipes(d *seepage.Domain, p *model.Project, v *section.View, o Options) error {
	list := v.Pipes(p)
	if !o.NoInterceptor {
		list = append(list, v.Interceptor(p)...)
	}
	for _, pipe := range list {
		soil := p.Fill.RockSoil
		kx, kz, err := permeability(p, soil)
		if err != nil {
			return err
		}
		d.Drains = append(d.Drains, seepage.Drain{Name: pipe.Name, At: pipe.At, Bore: pipe.Bore, Closed: o.Blocked})
		d.Zones = append(d.Zones, seepage.Zone{Name: "trench of the " + pipe.Name, Region: Trench(v, pipe).ToRegion(), Kx: kx, Kz: kz})
	}
	return nil
}

// under fills the open space between bed, pads and box: it stands full when
// water comes, and then lifts the box.
func under(d *seepage.Domain, v *section.View) {
	if !v.HasBox {
		return
	}
	top := v.Formation
	for _, z := range v.Bedding {
		if z.Kind == section.Bed {
			top = z.Region.Bounds().Max[1]
		}
	}
	if v.Box.Min[1]-top < 0.01 {
		return
	}
	space := geom.Rect{Min: geom.Vec{v.Box.Min[0], top}, Max: geom.Vec{v.Box.Max[0], v.Box.Min[1]}}
	d.Zones = append(d.Zones, seepage.Zone{Name: "space under the box", Region: space.ToRegion(), Kx: openSpace, Kz: openSpace})
}
