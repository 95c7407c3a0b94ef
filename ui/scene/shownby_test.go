package scene

import (
	"math"
	"testing"

	"hillset/engine/check"
)

// A bar of a wall that is beyond its limits is seen at the wall: the mark there
// takes the worst of all that is drawn in its place.
func TestBarsAreJudgedWhereTheirWallIs(t *testing.T) {
	nan := math.NaN()
	cs := []check.Check{
		{ID: "header", Part: "back wall, header", Ratio: 2.3, RatioLRFD: nan},
		{ID: "end-post", Part: "corner posts, blind end", Ratio: 1.2, RatioLRFD: nan},
		{ID: "wale", Part: "left side wall, wale 1", Ratio: 0.9, RatioLRFD: nan},
		{ID: "side-sheet", Part: "left side wall", Ratio: 0.4, RatioLRFD: nan},
		{ID: "end-sheet", Part: "back wall", Ratio: 0.2, RatioLRFD: nan},
		{ID: "purlin", Part: "roof, purlin 2", Ratio: 0.3, RatioLRFD: nan},
		{ID: "roof-slab", Part: "roof on posts", Ratio: 0.5, RatioLRFD: nan},
	}
	for long, want := range map[bool]map[string]float64{
		false: {"back wall": 2.3, "left side wall": 0.9, "roof": 0.3, "roof on posts": 0.5},
		true:  {"back wall": 2.3, sideWalls: 0.9, "roof": 0.3, "roof on posts": 0.5},
	} {
		got := gather(cs, long)
		if len(got) != len(want) {
			t.Errorf("long %v: %d parts, want %d", long, len(got), len(want))
		}
		for _, v := range got {
			if v.worst == nil || v.worst.Worst() != want[v.part] {
				t.Errorf("long %v: %s: %s, want %v", long, v.part, v.words(), want[v.part])
			}
		}
	}
}
