package frame

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Errors of the solver, to be found with errors.Is.
var (
	// ErrMechanism says that members and supports do not hold the frame.
	ErrMechanism = errors.New("mechanism")
	// ErrUnstable says that the compression is at or beyond the critical load.
	ErrUnstable = errors.New("unstable under its compression")
)

// Node is a joint. X, Y and R hold it against moving along x, along y and
// turning; the K values are springs against the same, kN/m and kNm/rad.
// Lift says that the spring KY is ground below the node: it pushes up and lets
// go when the node rises. Only SolveContact heeds it.
type Node struct {
	Px, Py     float64 // m
	X, Y, R    bool
	KX, KY, KR float64
	Lift       bool
}

// Member is a straight prismatic bar from node I to node J. A hinge lets the
// end turn freely against its node.
type Member struct {
	I, J           int
	E, A, Iz       float64 // kPa, m2, m4
	HingeI, HingeJ bool
}

// Frame is a plane frame.
type Frame struct {
	Nodes   []Node
	Members []Member
}

// LoadCase is a set of loads: forces and moment (x, y, turning to the left) at
// nodes, and line loads along members, positive to the left of the direction
// from I to J. Shorter slices and nil mean no load on the rest.
type LoadCase struct {
	Nodes   [][3]float64
	Members []Load
}

// check refuses geometry and stiffness that make no frame.
func (f *Frame) check() error {
	if err := quantity.Range("number of nodes", float64(len(f.Nodes)), 2, 5000); err != nil {
		return err
	}
	if err := quantity.Range("number of members", float64(len(f.Members)), 1, 10000); err != nil {
		return err
	}
	for k, n := range f.Nodes {
		for _, v := range []struct {
			name   string
			v      float64
			lo, hi float64
		}{
			{"x", n.Px, -1e5, 1e5}, {"y", n.Py, -1e5, 1e5},
			{"spring x", n.KX, 0, 1e15}, {"spring y", n.KY, 0, 1e15}, {"spring r", n.KR, 0, 1e15},
		} {
			if !(v.v >= v.lo && v.v <= v.hi) {
				return quantity.Range(fmt.Sprintf("%s of node %d", v.name, k), v.v, v.lo, v.hi)
			}
		}
	}
	for k, m := range f.Members {
		if err := f.checkMember(k, m); err != nil {
			return err
		}
	}
	return nil
}

func (f *Frame) checkMember(k int, m Member) error {
	last := len(f.Nodes) - 1
	if m.I < 0 || m.J < 0 || m.I > last || m.J > last || m.I == m.J {
		return fmt.Errorf("%w: member %d runs from node %d to node %d, allowed two nodes of 0 to %d",
			quantity.ErrRange, k, m.I, m.J, last)
	}
	for _, v := range []struct {
		name   string
		v      float64
		lo, hi float64
	}{
		{"length", f.Length(k), 1e-4, 1e5}, {"E", m.E, 1, 1e12}, {"A", m.A, 1e-9, 1e6}, {"I", m.Iz, 1e-15, 1e6},
	} {
		if !(v.v >= v.lo && v.v <= v.hi) {
			return quantity.Range(fmt.Sprintf("%s of member %d", v.name, k), v.v, v.lo, v.hi)
		}
	}
	return nil
}

// check refuses loads that are not finite or stand off their members.
func (lc LoadCase) check(f *Frame) error {
	if len(lc.Nodes) > len(f.Nodes) || len(lc.Members) > len(f.Members) {
		return fmt.Errorf("%w: loads on %d nodes and %d members, allowed %d and %d",
			quantity.ErrRange, len(lc.Nodes), len(lc.Members), len(f.Nodes), len(f.Members))
	}
	for k, n := range lc.Nodes {
		for _, v := range n {
			if !(math.Abs(v) <= 1e12) {
				return quantity.Range(fmt.Sprintf("load on node %d", k), v, -1e12, 1e12)
			}
		}
	}
	for k, ld := range lc.Members {
		if len(ld) == 0 {
			continue
		}
		if err := ld.Check(f.Length(k)); err != nil {
			return fmt.Errorf("member %d: %w", k, err)
		}
	}
	return nil
}

// member is the load on member k, nil for none.
func (lc LoadCase) member(k int) Load {
	if k < len(lc.Members) {
		return lc.Members[k]
	}
	return nil
}

// Length is the length of member k, m.
func (f *Frame) Length(k int) float64 {
	i, j := f.Nodes[f.Members[k].I], f.Nodes[f.Members[k].J]
	return math.Hypot(j.Px-i.Px, j.Py-i.Py)
}

// axis is the direction of member k.
func (f *Frame) axis(k int) (c, s float64) {
	i, j, l := f.Nodes[f.Members[k].I], f.Nodes[f.Members[k].J], f.Length(k)
	return (j.Px - i.Px) / l, (j.Py - i.Py) / l
}

// Refine divides every member into n equal parts, with their loads; the
// nodes keep their numbers and new ones follow. parts lists the new members of
// each old one in order. A second-order solution wants some eight parts in
// every compressed member.
func (f *Frame) Refine(lc LoadCase, n int) (fine Frame, loads LoadCase, parts [][]int) {
	fine.Nodes = append(fine.Nodes, f.Nodes...)
	loads.Nodes = lc.Nodes
	for k, m := range f.Members {
		a, b, l := f.Nodes[m.I], f.Nodes[m.J], f.Length(k)
		var mine []int
		from := m.I
		for p := range n {
			part := m
			part.I, part.HingeI = from, m.HingeI && p == 0
			part.J, part.HingeJ = m.J, m.HingeJ && p == n-1
			lo, hi := float64(p)/float64(n), float64(p+1)/float64(n)
			if p < n-1 {
				part.J = len(fine.Nodes)
				fine.Nodes = append(fine.Nodes, Node{Px: a.Px + (b.Px-a.Px)*hi, Py: a.Py + (b.Py-a.Py)*hi})
			}
			from = part.J
			mine = append(mine, len(fine.Members))
			fine.Members = append(fine.Members, part)
			loads.Members = append(loads.Members, lc.member(k).Clip(lo*l, hi*l))
		}
		parts = append(parts, mine)
	}
	return fine, loads, parts
}
