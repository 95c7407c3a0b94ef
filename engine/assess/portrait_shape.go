package assess

import (
	"fmt"
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
)

// Shape works one stage at one section anew and gives the lines of what bends
// there: the same solved members that the checks of Run judge. station is the x
// of a cross section; long asks for the long section instead. What has no line
// there is named in Out with the reason. An error says that there is no such
// stage or section, or what keeps the project from being computed.
func Shape(p *model.Project, t *tables.Set, stage string, station float64, long bool) (*Portrait, error) {
	if hard := model.FirstHard(p.Validate()); hard != nil {
		return nil, *hard
	}
	one, err := onlyStage(p, stage)
	if err != nil {
		return nil, err
	}
	j, err := newJob(one, t)
	if err != nil {
		return nil, err
	}
	out := &Portrait{Stage: stage, Station: station}
	if long {
		out.Station = math.NaN()
	} else if !(station >= j.frontX-sameStation && station <= j.backX+sameStation) {
		return nil, model.Problem{Field: "station", Value: quantity.Typed.Text(station, quantity.Length),
			Allowed: quantity.Between(j.frontX, j.backX, quantity.Length), Text: "the section does not cut the box"}
	}
	plan, cut, err := j.lay()
	if err != nil {
		return nil, err
	}
	sr := &stageResult{st: one.Stages[0]}
	if err := j.look(cut, sr); err != nil {
		return nil, err
	}
	if !sr.loaded {
		out.Out = append(out.Out, j.whyIdle(sr))
		return out, nil
	}
	s := &sitter{j: j, sr: sr, out: out, broadside: p.Box.Orientation == model.Broadside}
	s.plan, s.x = plan, station
	if long {
		err = s.long()
	} else {
		err = s.cross()
	}
	return out, err
}

// onlyStage is a project with one of its stages; it shares all else.
func onlyStage(p *model.Project, id string) (*model.Project, error) {
	for _, st := range p.Stages {
		if st.ID == id {
			one := *p
			one.Stages = []model.Stage{st}
			return &one, nil
		}
	}
	return nil, model.Problem{Field: "stage", Value: fmt.Sprintf("%q", id), Allowed: "a stage of the project", Text: "no such stage"}
}

// whyIdle says why a stage has no loads.
func (j *job) whyIdle(sr *stageResult) string {
	switch {
	case sr.view == nil || !sr.view.HasBox:
		return "the box is not there yet"
	case len(sr.blocks) > 0:
		return sr.blocks[0].Text
	}
	return "nothing lies against the box yet"
}

// sitter draws the members of one section into a portrait.
type sitter struct {
	j         *job
	sr        *stageResult
	out       *Portrait
	plan      *section.Plan
	x         float64
	broadside bool
}

// miss names what has no line.
func (s *sitter) miss(format string, args ...any) {
	s.out.Out = append(s.out.Out, fmt.Sprintf(format, args...))
}

// cross draws the cross section: end-on the ring of both long walls, roof, rib
// and floor; broadside the two ends of the box.
func (s *sitter) cross() error {
	j, mid := s.j, 0.0
	s.sr.sides, s.sr.tops = make([]sideLoads, 1), make([]topLoad, 1)
	if s.broadside {
		j.newPlace(s.plan, (j.frontX+j.backX)/2).ends([]*stageResult{s.sr})
	} else {
		j.newPlace(s.plan, s.x).ring([]*stageResult{s.sr}, 0)
	}
	sides, top := &s.sr.sides[0], &s.sr.tops[0]
	if sides.fault != nil {
		return sides.fault
	}
	s.wall(sides.left, mid-j.across/2, geom.Vec{1, 0})
	s.wall(sides.right, mid+j.across/2, geom.Vec{-1, 0})
	if s.broadside {
		s.miss("roof, ribs and back wall span the other way: see the long section")
		s.miss("headers and sills of the ends run across this section: see the panels")
		return nil
	}
	if top.fault != nil {
		return top.fault
	}
	s.roof(top, mid)
	s.rib(top.rib, mid)
	s.floor(mid, sides.left, sides.right)
	s.ownRoof()
	s.miss("rails, wales and purlins run across this section: see the panels")
	return nil
}

// ownRoof names the roof on posts, whose lines are not worked out.
func (s *sitter) ownRoof() {
	if s.j.own != nil {
		s.miss("%s: only its largest moments are worked out: see its checks", slabPart)
	}
}

// long draws the long section: end-on the back wall; broadside the ring of the
// back wall, the roof and the rib.
func (s *sitter) long() error {
	j := s.j
	s.sr.back, s.sr.fault = (&place{j: j, x: j.backX}).backWall(s.sr.view)
	if s.sr.fault != nil {
		return s.sr.fault
	}
	s.wall(s.sr.back, j.backX, geom.Vec{-1, 0})
	if !s.broadside {
		s.miss("the roof sheet, the ribs and the long walls span the other way: see the cross section")
		s.miss("header, sill and wales of the back wall run across this section: see the panels")
		return nil
	}
	top, err := s.heaviest()
	if err != nil {
		return err
	}
	mid := (j.frontX + j.backX) / 2
	s.roof(top, mid)
	if j.hasRibs() && j.ribFault == nil {
		s.rib((&place{j: j}).rib(&wallLoad{}, s.sr.back, worstRoof(s.sr.tops)), mid)
	}
	s.floor(mid, s.sr.back)
	s.ownRoof()
	s.miss("the downhill wall stays clear of earth; rails, wales and purlins run across this section: see the panels")
	return nil
}

// heaviest is the roof of a box set broadside where its sheet is used most: the
// stations run across its span.
func (s *sitter) heaviest() (*topLoad, error) {
	at := s.j.stations()
	s.sr.tops = make([]topLoad, len(at))
	for i, x := range at {
		(&place{j: s.j, x: x}).roofs([]*stageResult{s.sr}, i)
		if s.sr.tops[i].fault != nil {
			return nil, s.sr.tops[i].fault
		}
	}
	s.j.pressRoofs(s.sr)
	worst := &s.sr.tops[0]
	for i := range s.sr.tops {
		t := &s.sr.tops[i]
		if t.sheet != nil && (worst.sheet == nil || worse(t.sheet.ratio(), worst.sheet.ratio())) {
			worst = t
		}
	}
	return worst, nil
}
