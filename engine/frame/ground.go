package frame

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Bed is ground below a member: it presses back by Modulus times the
// settlement, as springs side by side (Winkler).
type Bed struct {
	Member  int
	Modulus float64 // kN per m of settlement and per m of member, kPa
	Lift    bool    // the ground does not pull: see SolveContact
	Parts   int     // springs stand at the ends of so many equal parts
}

// Limits of a bed.
const (
	minBedParts = 2
	maxBedParts = 1000
	levelTol    = 1e-9 // rise of a member over its length that still counts as level
)

// OnGround divides the level member of a bed, with its load, and sets a spring
// under every node for the length of member that it stands for. The first node
// of every part goes on with its number; pieces lists the new members in order,
// the first in the place of the old one. Statics stay exact between the
// springs; sixteen parts bring moments within 1 % on a member of up to three
// times its characteristic length (4EI/k)^¼, see the tests.
// Errors: values out of range, a member that is not level (quantity.ErrRange).
func (f *Frame) OnGround(lc LoadCase, b Bed) (fine Frame, loads LoadCase, pieces []int, err error) {
	if err := f.check(); err != nil {
		return fine, loads, nil, err
	}
	if err := lc.check(f); err != nil {
		return fine, loads, nil, err
	}
	if err := f.checkBed(b); err != nil {
		return fine, loads, nil, err
	}
	fine.Nodes = append(fine.Nodes, f.Nodes...)
	fine.Members = append(fine.Members, f.Members...)
	loads.Nodes = lc.Nodes
	loads.Members = append(make([]Load, 0, len(f.Members)+b.Parts), lc.Members...)
	for len(loads.Members) < len(f.Members) {
		loads.Members = append(loads.Members, nil)
	}
	m, l, ld := f.Members[b.Member], f.Length(b.Member), lc.member(b.Member)
	h := l / float64(b.Parts)
	from := m.I
	for p := range b.Parts {
		part, to := m, m.J
		if p < b.Parts-1 {
			to = len(fine.Nodes)
			t := float64(p+1) / float64(b.Parts)
			i, j := f.Nodes[m.I], f.Nodes[m.J]
			fine.Nodes = append(fine.Nodes, Node{Px: i.Px + (j.Px-i.Px)*t, Py: i.Py + (j.Py-i.Py)*t})
		}
		part.I, part.J = from, to
		part.HingeI, part.HingeJ = m.HingeI && p == 0, m.HingeJ && p == b.Parts-1
		load := ld.Clip(float64(p)*h, math.Min(float64(p+1)*h, l))
		if p == 0 {
			fine.Members[b.Member], loads.Members[b.Member] = part, load
			pieces = append(pieces, b.Member)
		} else {
			pieces = append(pieces, len(fine.Members))
			fine.Members, loads.Members = append(fine.Members, part), append(loads.Members, load)
		}
		for _, n := range [2]int{from, to} { // half the part each
			fine.Nodes[n].KY += b.Modulus * h / 2
			fine.Nodes[n].Lift = fine.Nodes[n].Lift || b.Lift
		}
		from = to
	}
	return fine, loads, pieces, nil
}

func (f *Frame) checkBed(b Bed) error {
	if b.Member < 0 || b.Member >= len(f.Members) {
		return quantity.Range("member on the ground", float64(b.Member), 0, float64(len(f.Members)-1))
	}
	if _, s := f.axis(b.Member); math.Abs(s) > levelTol {
		return quantity.Range("rise of the member on the ground", s, -levelTol, levelTol)
	}
	if err := quantity.Range("ground modulus", b.Modulus, 1e-3, 1e9); err != nil {
		return err
	}
	return quantity.Range("parts of the member on the ground", float64(b.Parts), minBedParts, maxBedParts)
}

// maxContact bounds the rounds in which springs let go and take hold again.
const maxContact = 100

// SolveContact is Solve where the springs KY of nodes that may lift push but
// do not pull. lifted lists the nodes that have risen from their ground. A
// frame that no longer stands when the ground lets go gives ErrUnstable; one
// that does not stand on all its springs gives ErrMechanism.
func (f *Frame) SolveContact(lc LoadCase) (s *Solution, lifted []int, err error) {
	now := Frame{Nodes: append([]Node{}, f.Nodes...), Members: f.Members}
	for round := range maxContact {
		if s, err = now.Solve(lc); err != nil {
			if round > 0 && errors.Is(err, ErrMechanism) {
				return nil, nil, fmt.Errorf("frame: %w: it lifts off the ground", ErrUnstable)
			}
			return nil, nil, err
		}
		if !f.settle(&now, s) {
			for k := range f.Nodes {
				if f.Nodes[k].KY != now.Nodes[k].KY {
					lifted = append(lifted, k)
				}
			}
			return s, lifted, nil
		}
	}
	return nil, nil, fmt.Errorf("frame: %w: the contact with the ground does not settle", ErrUnstable)
}

// settle lets springs go where the solution pulls at them and has them take
// hold where a node without them sinks; it reports whether any changed.
func (f *Frame) settle(now *Frame, s *Solution) (changed bool) {
	for k := range f.Nodes {
		n := &f.Nodes[k]
		if !n.Lift || n.KY == 0 {
			continue
		}
		want := n.KY
		if s.U[k][1] > 0 {
			want = 0
		}
		if now.Nodes[k].KY != want {
			now.Nodes[k].KY, changed = want, true
		}
	}
	return changed
}
