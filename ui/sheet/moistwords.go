package sheet

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/engine/water"
	"hillset/ui/units"
)

// moistTitle heads what is said of the ground above the water.
const moistTitle = "Above the water table"

// MoistWords say how high over the water the ground at the box stays nearly
// saturated by suction; nothing where no ground is chosen.
func MoistWords(p *model.Project, t *tables.Set, sys units.System) []string {
	var out []string
	known := false
	var src tables.Source
	for _, m := range water.MoistAt(p, t) {
		name := upperFirst(m.Where) + " (" + m.Soil
		if m.Class != "" && !strings.EqualFold(m.Class, m.Soil) {
			name += ", " + strings.ToLower(m.Class)
		}
		name += ")"
		switch {
		case math.IsNaN(m.Height):
			out = append(out, name+": not known how high it stays wet over the water, "+units.Say(m.Why, sys)+".")
			continue
		case math.IsInf(m.Height, 1):
			out = append(out, name+": kept nearly saturated all the way up by the rain that reaches the water.")
		default:
			out = append(out, name+": nearly saturated up to "+units.Format(m.Height, quantity.Length, sys)+" over the water.")
		}
		known, src = true, m.Src
	}
	switch {
	case known:
		out = append(out, fmt.Sprintf("Nearly saturated is an effective saturation of %g or more, under the rain that reaches the water. %s (%s): the ground of one place may differ several times. "+
			"It presses on nothing, and rust does not count it: the rates in soil hold with and without ground water (memory), and ground so wet keeps air from the steel.",
			water.NearlySaturated, src.Text, src.Mark))
	case len(out) > 0:
		out = append(out, "Textures are given on page 2.")
	}
	return out
}

func moistPart(p *model.Project, t *tables.Set, sys units.System) []WaterPart {
	lines := MoistWords(p, t, sys)
	if len(lines) == 0 {
		return nil
	}
	return []WaterPart{{moistTitle, lines}}
}
