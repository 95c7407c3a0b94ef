package assess

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

const (
	srcBishop  = "Bishop 1955 (memory); checked against cases SL-08 to SL-16 (derived)"
	srcSpencer = "Spencer 1967, 1973 (memory); checked by two solvers (derived)"
	srcOMS     = "Fellenius 1927 (memory)"
	srcSkin    = "slope without end (textbook; a public examination, verified)"
)

// apartMost is how far two methods may differ before it is said.
const apartMost = 0.05

// write is the check of a case with its working.
func (h *hillside) write(c *hillCase) check.Check {
	f := &c.out
	out := check.Check{ID: c.id, Title: titleOfSlope(c.id), Demand: quantity.Of("F asked", c.asked.Factor, quantity.Factor),
		Capacity: quantity.Of("F", f.factor(), quantity.Factor), Ratio: c.asked.Factor / f.factor(), RatioLRFD: math.NaN(),
		Method: "Slices along the worst circle found: Bishop simplified, and Spencer on the same circle; the lower one counts",
		Source: fmt.Sprintf("%s: %s (%s)", c.asked.Name, c.asked.Src.Text, c.asked.Src.Mark), Working: h.slopeWorking(c)}
	out.Assumptions = h.slopeAssumptions(c)
	out.Validity = h.slopeValidity(c)
	if out.Ratio > 1 {
		out.Remedy = "Flatten the slope, drain it, or have the strength of its soils tested; a geotechnical engineer judges the rest."
	}
	return out
}

// slopeWorking is the working of a case.
func (h *hillside) slopeWorking(c *hillCase) []check.Line {
	f := &c.out
	slip := f.Slip
	if c.mirror {
		slip = slip.Mirror()
	}
	centre, r, _ := slip.Circle()
	m := f.mass
	q, line := quantity.Of, func(text, formula, src string, res quantity.Q, terms ...quantity.Q) check.Line {
		return check.Line{Text: text, Formula: formula, Source: src, Result: res, Terms: terms}
	}
	soils, drives := 0.0, 0.0
	for i := range m.Slices {
		s := &m.Slices[i]
		b := s.X[1] - s.X[0]
		ma := math.Cos(s.Alpha) + math.Sin(s.Alpha)*s.Tan/f.Bishop
		soils += (s.C*b + (s.Weight-s.U*b)*s.Tan) / ma
		drives += s.Weight*math.Sin(s.Alpha) + m.Kh*s.Soil*m.Lever(s)
	}
	var out []check.Line
	if f.crack > 0 {
		out = append(out, line("Crack at the head", "z = (2·c/(F·γ))·tan(45° + φm/2)", "Terzaghi 1943 (memory)", q("z", f.crack, quantity.Length)))
	}
	out = append(out, []check.Line{
		line("Worst circle found", "from A to B round C", "", q("R", r, quantity.Length),
			q("xA", slip.A[0], quantity.Length), q("zA", slip.A[1], quantity.Length), q("xB", slip.B[0], quantity.Length), q("zB", slip.B[1], quantity.Length),
			q("xC", centre[0], quantity.Length), q("zC", centre[1], quantity.Length)),
		line("Soil that slides, over the width of slope", "W", "", q("W", m.Weight(), quantity.LineLoad), q("deepest", m.Deep, quantity.Length), q("least asked", minDepth, quantity.Length)),
		line("What drives it", drivesFormula(m.Kh), srcBishop, q("D", drives, quantity.LineLoad)),
		line("What holds it", "S = Σ[c·b + (W − u·b)·tanφ]/mα, mα = cosα + sinα·tanφ/F", srcBishop, q("S", soils, quantity.LineLoad)),
		line("Bishop simplified", "F = S/D", srcBishop, q("F", f.Bishop, quantity.Factor), q("S", soils, quantity.LineLoad), q("D", drives, quantity.LineLoad)),
	}...)
	if f.unsettled == nil {
		out = append(out, line("Spencer on the same circle: all forces and moments balance", "X = E·tanθ", srcSpencer,
			q("F", f.spencer.F, quantity.Factor), q("θ", f.spencer.Theta, quantity.Angle)))
	}
	if o, err := m.Ordinary(); err == nil {
		out = append(out, line("Ordinary method, for comparison", "F = Σ[c·l + (W·cosα − u·l)·tanφ]/D", srcOMS, q("F", o, quantity.Factor)))
	}
	out = append(out, line("Asked for: "+c.asked.Name, "F asked/F", fmt.Sprintf("%s (%s)", c.asked.Src.Text, c.asked.Src.Mark),
		q("r", c.asked.Factor/f.factor(), quantity.Ratio), q("F asked", c.asked.Factor, quantity.Factor), q("F", f.factor(), quantity.Factor)))
	if s := f.skin; s != nil {
		need := h.asked("skin")
		out = append(out,
			line("Skin of the steepest stretch, dry (for information)", "F = [c + γ·z·cos²β·tanφ]/(γ·z·sinβ·cosβ)", srcSkin, q("F", s.dry, quantity.Factor),
				q("β", s.in.Beta, quantity.Angle), q("z", s.in.Depth, quantity.Length)),
			line(fmt.Sprintf("The same, soaked, with water running down the slope (for information; agencies ask for %.1f)", need.Factor),
				"F = [c + (γ·z·cos²β − u)·tanφ]/(γ·z·sinβ·cosβ)", srcSkin, q("F", s.soaked, quantity.Factor), q("u", s.in.Pore(), quantity.Pressure)))
	}
	return out
}

func drivesFormula(kh float64) string {
	if kh > 0 {
		return "D = ΣW·sinα + Σkh·W·(zC − zg)/R"
	}
	return "D = ΣW·sinα"
}

// slopeAssumptions are what a case takes for granted.
func (h *hillside) slopeAssumptions(c *hillCase) []string {
	out := []string{
		c.wet.words,
		"No slip goes through the box, concrete or rock: it passes under or round them. The box counts by its weight.",
		fmt.Sprintf("%d circles were tried; what slides less deep than the least asked is the skin.", c.out.Tried),
		"The lowest stratum goes on below the drawing, with the water pressing there as at its foot.",
		"Soil above the water table has no strength from suction.",
	}
	switch {
	case c.out.undrained:
		out = append(out, "Short term: soils with an undrained strength have that one, the others their effective strength. It is less than with the effective strength of all.")
	case c.short && h.undrained(c.view):
		out = append(out, "Effective strengths; with the undrained ones given the factor is higher.")
	case c.short:
		out = append(out, "Effective strengths: no undrained strength is given for any soil here.")
	}
	if c.asked.ID == "cut" {
		b := h.asked("building")
		out = append(out, fmt.Sprintf("No building stands uphill: below one %.1f is asked for.", b.Factor),
			"The slope that excavation law asks for holds whatever the factor is: see the check of the batter.",
			"The stages while the fill comes up are not searched: they stand between the open cut and the finished hill.")
		switch {
		case c.out.cracked && c.out.crack == 0:
			out = append(out, "A dry crack behind the crest was tried: it does not lower the factor. Keep rain out of any that opens.")
		case c.out.crack > 0:
			out = append(out, "A dry crack stands open at the head of the slip, as deep as the strength called on there leaves it: the factor is less with it. Keep rain out of it.")
		}
		if h.p.Cut.Spoil.Height > 0 {
			out = append(out, "The spoil heap lies behind this face.")
		}
	}
	if c.part == finishedPart {
		out = append(out, "The section goes through the box: beside it there is fill alone, see both sides of the fill.")
	}
	if c.id == slopeQuakeID {
		out = append(out, "The earthquake pushes with a constant share of the weight; the soils lose no strength and the water stays as it is.")
	}
	return out
}

// slopeValidity says where the working of a case does not hold.
func (h *hillside) slopeValidity(c *hillCase) string {
	f := &c.out
	text := "Circles only, in this section: a weak seam or a joint may let the ground slide at less."
	if f.unsettled != nil {
		return text + " The method that balances all forces and moments gave no result (" + f.unsettled.Error() + "): Bishop's stands alone."
	}
	if d := math.Abs(f.Bishop-f.spencer.F) / math.Min(f.Bishop, f.spencer.F); d > apartMost {
		text += fmt.Sprintf(" The two methods differ by %.0f %%: have the slope judged.", d*100)
	}
	lo, hi := c.view.Ground[0][0], c.view.Ground[len(c.view.Ground)-1][0]
	slip := f.Slip
	if c.mirror {
		slip = slip.Mirror()
	}
	if slip.A[0]-lo < edgeNear || hi-slip.B[0] < edgeNear {
		text += " The circle reaches the end of the section: with a longer ground line it may be worse."
	}
	return text
}

// edgeNear is how near the end of a section a slip counts as cut short, m.
const edgeNear = 0.3
