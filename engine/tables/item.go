package tables

import "strings"

// Item is one kind of thing that is bought. Its key stands in the price list
// of a project, where upper and lower case are the same.
type Item struct {
	Key     string
	Unit    string  // of the quantity that is priced: kg, m2, m3, t, piece
	Density float64 // kg/m3; 0 where it has none or the project gives it
	Covers  string  // what is counted in it
	Src     Source
}

func parseItem(r *row) Item {
	it := Item{
		Key: r.text("key"), Unit: r.oneOf("unit", "kg", "m2", "m3", "t", "piece"),
		Density: r.num("density_kg_m3", 1, 0, 8000), Covers: r.text("covers"), Src: r.source(),
	}
	if r.err == nil && it.Key != strings.ToLower(it.Key) {
		r.fail("key", it.Key, "is not in lower case")
	}
	return it
}
