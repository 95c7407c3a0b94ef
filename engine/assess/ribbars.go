package assess

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/steel"
)

// rib is a set of the project's bars without load.
func (j *job) rib() (box.Rib, error) {
	r := &j.p.Strengthening.Ribs
	out := box.Rib{Spacing: r.Spacing, Steel: j.added, Height: j.side.height(), Pinned: !r.Rigid()}
	if out.Pinned && r.Joints == model.RigidJoints {
		return out, model.Problem{Field: "strengthening.ribs.joints", Value: r.Joints, Allowed: model.PinnedJoints,
			Text: "a rigid frame needs a roof beam and a floor tie"}
	}
	if r.Purlins > 0 && r.RoofBeam == "" {
		return out, model.Problem{Field: "strengthening.ribs.roof_beam", Value: "none", Allowed: "a row of the bar table",
			Text: "purlins need a roof beam to carry them"}
	}
	var err error
	if out.Post, err = j.bar(r.Post); err != nil {
		return out, err
	}
	if out.Beam, err = j.barOrNone(r.RoofBeam); err != nil {
		return out, err
	}
	if out.Tie, err = j.barOrNone(r.FloorTie); err != nil {
		return out, err
	}
	out.Width = j.box.InW - out.Post.H
	out.RoofSpan, out.Purlins = j.roofSpan(), j.purlinPlaces()
	out.Share = box.InnerShare(j.ribSpans())
	for _, w := range j.side.between() {
		out.Wales = append(out.Wales, w.Height)
	}
	out.Struts, err = j.struts(&out)
	return out, err
}

// barOrNone looks a bar up that may be left out.
func (j *job) barOrNone(id string) (steel.Bar, error) {
	if id == "" {
		return steel.Bar{}, nil
	}
	return j.bar(id)
}

// struts are the cross struts of a rib, which must lie between its tie and its
// beam, one clear of the other.
func (j *job) struts(rib *box.Rib) ([]box.CrossBar, error) {
	var out []box.CrossBar
	last := rib.Tie.H / 2
	for k, s := range j.p.Strengthening.Ribs.Struts {
		field := fmt.Sprintf("strengthening.ribs.struts[%d].height", k)
		bar, err := j.bar(s.Section)
		if err != nil {
			return nil, err
		}
		low, high := last+bar.H/2, rib.Height-rib.Beam.H/2-bar.H/2
		if !(s.Height >= low && s.Height <= high) {
			return nil, model.Problem{Field: field, Value: quantity.Typed.Text(s.Height, quantity.Length), Allowed: quantity.Between(low, high, quantity.Length),
				Text: "a cross strut must lie between floor tie and roof beam and above the strut before it"}
		}
		out = append(out, box.CrossBar{Height: s.Height, Bar: bar})
		last = s.Height + bar.H/2
	}
	return out, nil
}

// onBed is the rib with its floor on the ground, where it may lie there: on a
// full rock bed of known stiffness, packed up under the floor. ok is false
// where the floor hangs between the corner castings, which stand proud of it.
func (j *job) onBed(rib box.Rib) (out box.Rib, ok bool, err error) {
	if j.p.Bedding.Kind != model.RockBedding || rib.Tie.Area == 0 {
		return rib, false, nil
	}
	so, found := section.SoilByID(j.p, j.p.Bedding.RockSoil)
	if !found || so.E <= 0 {
		return rib, false, nil
	}
	rib.Ground, err = box.Subgrade(so.E, so.Nu, j.box.W)
	return rib, err == nil, err
}

// floorWords tells whether the floor of the ribs touches the ground.
func (j *job) floorWords() string {
	proud := "The floor hangs between the corner castings, which stand " + quantity.Text(j.box.UnderClearance, quantity.Thickness) + " proud of it: the ground below carries none of it."
	if j.p.Bedding.Kind != model.RockBedding {
		return proud
	}
	if j.bedded == nil {
		return "The rock bed may bear under the floor, but its stiffness is not known or there is no floor tie: the ribs are taken to stand on their corners alone."
	}
	return "The rock bed may bear under the whole floor or under the corners alone: the ribs are worked both ways and the worse counts. Where there is too little weight to keep the floor down, the corners alone count."
}
