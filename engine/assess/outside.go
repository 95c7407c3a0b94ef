package assess

import (
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// outsideParts are the groups of checks of what stands outside the box, as far
// as there is any.
func (j *job) outsideParts() []part {
	var out []part
	if j.outer != nil {
		p := part{run: j.skinChecks}
		if j.hasStuds() {
			p.checks = append(p.checks, studGaps...)
		}
		if j.hasConcrete() {
			p.checks = append(p.checks, concreteGap)
			out = append(out, part{run: j.skinFooting, checks: []gap{{id: skinFootID, title: skinFootTitle, part: concreteSkinName}}})
		}
		out = append(out, p)
	}
	if j.own != nil {
		out = append(out, part{run: j.ownChecks, checks: j.own.gaps()})
	}
	if j.hasLightFill() {
		out = append(out, part{run: j.lightChecks, checks: []gap{{id: lightID, title: lightTitle, part: lightPart}}})
	}
	return out
}

// reason is why something could not be checked, with the value that was given.
func reason(err error) string {
	pr := asProblem(err)
	if pr.Value == "" {
		return pr.Text
	}
	return pr.Text + ": " + pr.Value
}

// openOutside lists what is not checked of what stands outside the box.
func (j *job) openOutside(add func(id, title, part, why string)) {
	s := &j.p.Strengthening
	if j.hasConcrete() {
		add("skin-foot", "Foot of the concrete skin, settlement and sideways", concreteSkinName,
			"the skin stands on the ground beside the box, not on it: its settlement and what holds its foot sideways are not checked")
		if s.Cavity.Propped {
			add(pourGap.id, pourGap.title, "long walls", j.propped())
		}
	}
	if j.own != nil {
		add("roof-sway", "Sway and joints of the roof on posts", slabPart,
			"braces, joints, base plates and the concrete of the pads are not checked, nor that fill higher on one side pushes on the roof")
		if j.hasLightFill() && (j.p.Site.Water.DesignHigh != nil || j.p.Site.Water.Computed) {
			add("roof-float", "Light fill under water on the roof on posts", slabPart, "that blocks under water lift off the roof on posts is not checked: they are part of the box afloat only where they lie on it")
		}
	}
}

// assumedOutside lists what was taken for granted of what stands outside.
func (j *job) assumedOutside() []string {
	var out []string
	c := &j.p.Strengthening.Cavity
	if c.Width > 0 && c.Fill == model.GravelFill {
		out = append(out, "The gravel in the cavity drains and has no strength: all that presses on it presses on the wall behind it. Its width of "+quantity.Text(c.Width, quantity.Length)+" is counted nowhere else than in the quantities: make the cut wide enough.")
	}
	if j.outer != nil {
		out = append(out, "The skin outside stands before any fill comes. The fill presses on it as it would on the wall of the box; what lies above the roof line is not held by it.")
	}
	if j.hasStuds() && c.Width > 0 {
		out = append(out, "Studs outside a cavity are blocked off the rails of the box at their top and foot.")
	}
	if j.own != nil {
		out = append(out, "The roof on posts carries all that lies over the box past it: cover no longer loads the roof, the corner posts and the pads, and no longer holds the box against floating, sliding and tipping.")
	}
	return out
}
