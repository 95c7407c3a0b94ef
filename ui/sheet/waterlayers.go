package sheet

import (
	"fmt"
	"strings"

	"hillset/ui/scene"
)

// WaterChoice is what of the computed water is drawn on the first sheet.
type WaterChoice struct {
	Name, Words string
	Layers      []scene.Layer // besides the line of the water table
}

// WaterChoices are those on offer, the usual one first.
var WaterChoices = []WaterChoice{
	{Name: "line", Words: "Water table alone"},
	{Name: "flow", Words: "With flow lines", Layers: []scene.Layer{scene.Flow}},
	{Name: "heads", Words: "With flow lines and heads", Layers: []scene.Layer{scene.Flow, scene.Heads}},
	{Name: "mesh", Words: "With the mesh it is computed on", Layers: []scene.Layer{scene.Mesh}},
}

// WaterNamed finds the layers of a choice by its name; "" is the usual one.
func WaterNamed(name string) ([]scene.Layer, error) {
	var names []string
	for i, c := range WaterChoices {
		if c.Name == name || name == "" && i == 0 {
			return c.Layers, nil
		}
		names = append(names, c.Name)
	}
	return nil, fmt.Errorf("water = %q (allowed: %s)", name, strings.Join(names, ", "))
}
