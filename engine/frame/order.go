package frame

import "sort"

// order numbers the nodes so that connected ones lie close together (reverse
// Cuthill-McKee), which keeps the band of the stiffness matrix narrow.
func (f *Frame) order() []int {
	n := len(f.Nodes)
	next := make([][]int, n)
	for _, m := range f.Members {
		next[m.I] = append(next[m.I], m.J)
		next[m.J] = append(next[m.J], m.I)
	}
	byDegree := make([]int, n)
	for k := range byDegree {
		byDegree[k] = k
	}
	sort.SliceStable(byDegree, func(a, b int) bool { return len(next[byDegree[a]]) < len(next[byDegree[b]]) })
	rank := make([]int, n) // position in byDegree, to sort neighbours quickly
	for k, v := range byDegree {
		rank[v] = k
	}
	seen := make([]bool, n)
	list := make([]int, 0, n)
	for _, start := range byDegree {
		if seen[start] {
			continue
		}
		seen[start] = true
		list = append(list, start)
		for head := len(list) - 1; head < len(list); head++ {
			near := next[list[head]]
			sort.Slice(near, func(a, b int) bool { return rank[near[a]] < rank[near[b]] })
			for _, v := range near {
				if !seen[v] {
					seen[v] = true
					list = append(list, v)
				}
			}
		}
	}
	place := make([]int, n)
	for k, v := range list {
		place[v] = n - 1 - k
	}
	return place
}
