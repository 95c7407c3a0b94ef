package assess

import (
	"math"
	"slices"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

func takeoff(t testing.TB, p *model.Project) Takeoff {
	t.Helper()
	k, err := TakeoffOf(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// item finds a line of a take-off.
func item(t testing.TB, k Takeoff, text string) Item {
	t.Helper()
	i := slices.IndexFunc(k.Items, func(it Item) bool { return it.Text == text })
	if i < 0 {
		t.Fatalf("no line %q in %+v", text, k.Items)
	}
	return k.Items[i]
}

// TestTakeoffByHand counts what is built into a 20 ft box (inside 5.867 x 2.330
// x 2.350 m, outside 6.058 x 2.438 x 2.591 m, ISO 668) by hand. Masses per metre
// of hollow sections by EN 10219 (verified, reference section 3): 100 x 5
// 14.4 kg/m, 60 x 4 6.71, 75 x 4 8.59, 80 x 5 11.3.
func TestTakeoffByHand(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Strengthening = model.Strengthening{
		Ribs: model.Ribs{Spacing: 1.2, Post: "shs100x5", RoofBeam: "shs100x5", FloorTie: "shs80x5", Purlins: 2, Purlin: "shs75x4",
			Struts: []model.Strut{{Height: 1.2, Section: "shs60x4"}}},
		Wales:     []model.Wale{{Height: 0.75, Section: "shs60x4"}, {Height: 1.5, Section: "shs60x4"}, {Height: 2, Section: "shs75x4"}},
		BackWales: []model.Wale{{Height: 0.7, Section: "shs100x5"}},
		Stud:      model.StudSkin{Species: "DF-L", Size: "2x6", Spacing: 0.4, Plywood: "48/24"},
		Cavity:    model.Cavity{Width: 0.2, Fill: model.ConcreteFill, Bar: 12, BarSpacing: 0.25},
	}
	p.Box.Openings = []model.Opening{{ID: "w1", Wall: "left", From: 2, Width: 0.9, Sill: 1, Height: 0.6, Bar: "shs60x4"}}
	p.Box.Ballast = 7000
	p.Wings = model.WingWalls{} // see TestWingTakeoff
	k := takeoff(t, p)
	for _, c := range []struct {
		text             string
		count            int
		length, quantity float64
	}{
		// 6.058/1.2 = 5.05: five bays, four ribs
		{"posts of ribs, SHS 100 x 100 x 5", 8, 8 * 2.35, 8 * 2.35 * 14.4},
		{"roof beams of ribs, SHS 100 x 100 x 5", 4, 4 * 2.33, 4 * 2.33 * 14.4},
		{"floor ties of ribs, SHS 80 x 80 x 5", 4, 4 * 2.33, 4 * 2.33 * 11.3},
		{"cross struts, SHS 60 x 60 x 4", 4, 4 * 2.13, 4 * 2.13 * 6.71}, // 2.33 − 2·0.1
		{"purlins, SHS 75 x 75 x 4", 2, 2 * 5.867, 2 * 5.867 * 8.59},
		{"wales of the long walls, SHS 60 x 60 x 4", 4, 4 * 5.867, 4 * 5.867 * 6.71},
		{"wales of the long walls, SHS 75 x 75 x 4", 2, 2 * 5.867, 2 * 5.867 * 8.59},
		{"wales of the back wall, SHS 100 x 100 x 5", 1, 2.33, 2.33 * 14.4},
		{"frame of opening w1, SHS 60 x 60 x 4", 1, 3, 3 * 6.71}, // 2(0.9 + 0.6)
		// 6.058/0.4 = 15.1: 17 studs on each long wall; 2.438/0.4 = 6.1: 8 behind; 1.5 x 5.5 in
		{"studs, DF-L 2x6", 42, 42 * 2.591, 42 * 2.591 * 0.0381 * 0.1397},
		{"skin, Plywood, span rating 48/24", 0, 0, (2*6.058 + 2.438) * 2.591},
		// plan 0.2(2·6.058 + 2.438 + 2·0.2) = 2.9908 m2
		{"concrete in the cavity", 0, 0, 2.9908 * 2.591},
		// 6.058/0.25 = 24.2: 26 bars each; 2.438/0.25 = 9.8: 11; 12 mm: 0.888 kg/m
		{"upright bars in the cavity, {thickness 0.012 brief}", 63, 63 * 2.591, 63 * 2.591 * 0.888},
		{"pads under the corner castings", 4, 0, 4 * 0.75 * 0.75 * 0.22},
		{"rock bed", 0, 0, 6.058 * 2.438 * 0.23},
		{"toe beam, taken {length 0.3 brief} thick", 0, 0, 1.5 * 3.5 * 0.3},
		{"ballast that stays inside", 0, 0, 7},
		{"ladders or ramps", 3, 0, 3},
		{"on the walls, Membrane, lapped downhill, with 10 % for laps", 0, 0, 1.1 * (2*6.058 + 2.438) * 2.591},
		{"on the walls, Bitumen coating", 0, 0, (2*6.058 + 2.438) * 2.591},
		{"on the roof, Membrane and protection board, with 10 % for laps", 0, 0, 1.1 * 6.058 * 2.438},
		// rock 0.45 m wide on three sides, from the formation to 0.3 m below the roof
		{"round the drain rock, with 10 % for laps", 0, 0, 1.1 * (2.438 + 0.45 + 2*(6.058+0.225)) * 2 * (0.45 + 2.591 - 0.3 + 0.45)},
	} {
		it := item(t, k, c.text)
		if it.Count != c.count || math.Abs(it.Length-c.length) > 1e-9 || math.Abs(it.Quantity-c.quantity) > 0.005*c.quantity {
			t.Errorf("%s: %d pieces, %.3f m, %.3f %s; by hand %d, %.3f, %.3f", c.text, it.Count, it.Length, it.Quantity, it.Unit, c.count, c.length, c.quantity)
		}
	}
	// concrete weighs 2.4 t/m3, steel as much as its kg
	if it := item(t, k, "rock bed"); math.Abs(it.Mass-3.3970*2.19) > 0.01 {
		t.Errorf("rock bed %.3f t", it.Mass)
	}
	if it := item(t, k, "purlins, SHS 75 x 75 x 4"); math.Abs(it.Mass-it.Quantity/1000) > 1e-9 {
		t.Errorf("purlins %.4f t of %.1f kg", it.Mass, it.Quantity)
	}
	if got := len(k.Items); got != 22 {
		t.Errorf("%d lines, 22 by hand", got)
	}
}

// TestTakeoffOfAnOwnRoof: slab and posts, and beams with a deck instead, by
// hand; block foam weighs what the project says.
func TestTakeoffOfAnOwnRoof(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	p.Fill.Roof = []model.RoofLayer{{Kind: "lightfill", Name: "block foam", Thickness: 0.3, Gamma: 0.2}}
	p.Strengthening.RoofSlab = model.RoofSlab{Thickness: 0.15, Bar: 12, BarSpacing: 0.2, EdgeBeam: "shs100x6", Post: "shs100x5", Spacing: 1.5, Gap: 0.1, Footing: 0.5}
	k := takeoff(t, p)
	wide := 2.438 + 2*0.1 + 2*0.1 // gap and post on both sides
	for text, want := range map[string]float64{
		"roof slab": wide * 6.058 * 0.15,
		"bars across the roof slab, {thickness 0.012 brief}":   32 * wide * 0.888, // 6.058/0.2 = 30.3
		"edge beams of the roof of its own, SHS 100 x 100 x 6": 2 * 6.058 * 17.0,
		"posts of the roof of its own, SHS 100 x 100 x 5":      12 * (2.591 + 0.15 + 0.3) * 14.4, // 6.058/1.5 = 4.04: six a side; on pad and bed
		"footings of its posts, half as thick as wide":         12 * 0.5 * 0.5 * 0.25,
		"on the roof, block foam":                              6.058 * 2.438 * 0.3,
	} {
		if it := item(t, k, text); math.Abs(it.Quantity-want) > 0.005*want {
			t.Errorf("%s: %.3f, by hand %.3f", text, it.Quantity, want)
		}
	}
	// 4.431 m3 of 0.2 kN/m3 over 9.81
	if it := item(t, k, "on the roof, block foam"); math.Abs(it.Mass-4.4308*0.2/9.81) > 1e-4 {
		t.Errorf("foam %.4f t", it.Mass)
	}
	s := &p.Strengthening.RoofSlab
	s.Thickness, s.CrossBeam, s.CrossSpacing, s.Deck = 0, "shs75x5", 0.5, "40/20"
	k = takeoff(t, p)
	if it := item(t, k, "cross beams of the roof of its own, SHS 75 x 75 x 5"); it.Count != 14 || math.Abs(it.Length-14*wide) > 1e-9 {
		t.Errorf("%+v", it) // 6.058/0.5 = 12.1
	}
	item(t, k, "deck, Plywood, span rating 40/20")
}

// TestUnpricedIsNotFree: what has no price is named and leaves no sum; keys are
// the same in upper and lower case.
func TestUnpricedIsNotFree(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Prices = map[string]float64{"Steel KG": 2, "concrete m3": 200, "bed rock m3": 40, "ballast t": 30, "ladder": 0, "coating m2": 5, "wall block": 90, "half wall block": 60}
	k := takeoff(t, p)
	if !math.IsNaN(k.Price) || !slices.Equal(k.Unpriced, []string{"membrane m2", "drain cloth m2"}) {
		t.Errorf("price %g, unpriced %v", k.Price, k.Unpriced)
	}
	if it := item(t, k, "ladders or ramps"); it.Price != 0 {
		t.Errorf("a price of nothing that was given: %+v", it)
	}
	p.Prices["membrane m2"], p.Prices["drain cloth m2"] = 9, 3
	k = takeoff(t, p)
	sum := 0.0
	for _, it := range k.Items {
		price, _ := priceOf(p.Prices, it.Key)
		sum += it.Quantity * price
	}
	if math.Abs(k.Price-sum) > 1e-9 || len(k.Unpriced) > 0 {
		t.Errorf("%g, lines add up to %g, unpriced %v", k.Price, sum, k.Unpriced)
	}
	if none := takeoff(t, bareOf(p)); len(none.Items) != 0 || none.Price != 0 || none.Mass != 0 {
		t.Errorf("nothing built in: %+v", none)
	}
}

// bareOf is a project of a box with nothing built in, under or round it.
func bareOf(p *model.Project) *model.Project {
	q := p.Clone()
	q.Strengthening, q.Defence, q.Bedding, q.Fill.Roof = model.Strengthening{}, model.Defence{}, model.Bedding{}, nil
	q.Box.Ballast, q.Cut.Ladders, q.Wings = 0, 0, model.WingWalls{}
	return q
}

// TestTakeoffDifference: what is taken away counts against what is added, and
// what stays is not named.
func TestTakeoffDifference(t *testing.T) {
	p := demo(t, "put-right")
	q := p.Clone()
	q.Box.Ballast = 4000
	q.Strengthening.Ribs.Purlins = 3
	d := takeoff(t, q).less(takeoff(t, p))
	if len(d.Items) != 2 {
		t.Fatalf("%+v", d.Items)
	}
	if it := item(t, d, "ballast that stays inside"); it.Quantity != -3 || it.Mass != -3 {
		t.Errorf("%+v", it)
	}
	if it := item(t, d, "purlins, SHS 75 x 75 x 4"); it.Count != 1 || math.Abs(it.Length-5.867) > 1e-9 {
		t.Errorf("%+v", it)
	}
	if same := takeoff(t, p).less(takeoff(t, p)); len(same.Items) != 0 || same.Price != 0 {
		t.Errorf("no difference: %+v", same)
	}
}

// TestTakeoffNamesTheRow: a row that is not in its table is named; the result of
// a run lists it and keeps its checks.
func TestTakeoffNamesTheRow(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Strengthening.Ribs.Post = "nosuch"
	if _, err := TakeoffOf(p, tables.Default()); err == nil {
		t.Error("no error")
	}
	p = demo(t, "put-right").Clone()
	p.Strengthening.Stud = model.StudSkin{Species: "oak", Size: "2x4", Spacing: 0.4}
	if _, err := TakeoffOf(p, tables.Default()); err == nil {
		t.Error("no error for a timber that is not in the table")
	}
	if r := run(t, demo(t, "put-right")); len(r.Kit.Items) == 0 || r.Kit.Mass <= 0 {
		t.Errorf("%+v", r.Kit)
	}
}

// Membranes are bought with a tenth for laps, layer by layer; boards without;
// cloth wraps the drain rock all round.
func TestLayersOfTheWaterDefence(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Defence.Layers = append(p.Defence.Layers, model.DefenceLayer{Kind: "membrane", Name: "second layer", Thickness: 0.0015}, model.DefenceLayer{Kind: "board", Name: "drainage board", Thickness: 0.008})
	p.Defence.Drain.Cloth.AOS = 0.2
	k := takeoff(t, p)
	walls := (2*6.058 + 2.438) * 2.591
	along := 2.438 + 0.45 + 2*(6.058+0.225)
	for text, want := range map[string]float64{
		"on the walls, Membrane, lapped downhill, with 10 % for laps":    1.1 * walls,
		"on the walls, second layer, with 10 % for laps":                 1.1 * walls,
		"on the roof, Membrane and protection board, with 10 % for laps": 1.1 * 6.058 * 2.438,
		"on the walls, drainage board":                                   walls,
		"round the drain rock, with 10 % for laps":                       1.1 * along * 2 * (2.591 - 0.3 + 0.45 + 0.45), // pad and bed below the box
	} {
		if it := item(t, k, text); math.Abs(it.Quantity-want) > 0.005*want {
			t.Errorf("%s: %.2f m2, by hand %.2f", text, it.Quantity, want)
		}
	}
}
