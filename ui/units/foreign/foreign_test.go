package foreign

import (
	"testing"

	"hillset/ui/units"
)

func TestIn(t *testing.T) {
	for text, want := range map[string][2]int{ // found by a reader of metres, of feet
		"0.35 m of cover":                        {0, 1},
		"0.35 m, 2 kN/m² and 7.5 kPa":            {0, 3},
		"3'-6\" of cover":                        {2, 0},
		"an opening of 12 in.":                   {1, 0},
		"0.5 in the load case D + H":             {0, 0},
		"at the foot of the sheet":               {0, 0},
		"19'-3½\" or 120 psf":                    {3, 0},
		"finer than 0.02 mm":                     {0, 0},
		"taken 50 mm thick":                      {0, 1},
		"rise per metre":                         {0, 1},
		"stone of 1 in (No. 57)":                 {1, 0},
		"a wall of 20 ft standard":               {1, 0},
		"2 L/min against 0.5 gpm":                {1, 1},
		"v/vcra + m, m = 0.29, 1.6S + 0.5L":      {0, 0},
		"People say that burying 4 to 6 ft does": {0, 0},
	} {
		for sys, n := range map[units.System]int{units.Metric: want[0], units.US: want[1]} {
			if got := In(text, sys); len(got) != n {
				t.Errorf("%v, %q: %q, want %d", sys, text, got, n)
			}
		}
	}
	if got := In("the 20 ft box and 20 ft of rope", units.Metric, "20 ft box"); len(got) != 1 {
		t.Errorf("a name counts: %q", got)
	}
}
