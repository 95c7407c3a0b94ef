package assess

import (
	"math"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// TakeoffOf lists what is bought to set, strengthen and cover the box, priced
// by the price list of the project. Quantities are net; the table of items says
// what each covers. An error names a row that is not in its table.
func TakeoffOf(p *model.Project, t *tables.Set) (Takeoff, error) {
	b, err := section.BoxOf(p, t)
	if err != nil {
		return Takeoff{}, err
	}
	l := lister{p: p, t: t, box: b}
	l.ribs()
	l.wales()
	l.openings()
	l.studs()
	l.cavity()
	l.ownRoof()
	l.onRoof()
	l.base()
	l.wings()
	l.defence()
	if l.err != nil {
		return Takeoff{}, l.err
	}
	return total(l.items), nil
}

// lister gathers the items of a project; the first fault is kept.
type lister struct {
	p     *model.Project
	t     *tables.Set
	box   tables.Box
	items []Item
	err   error
}

// add lists a quantity of an item, in the unit of its key; volume is what its
// density weighs, m3.
func (l *lister) add(key, text string, count int, length, quantity, volume float64) {
	l.weighed(key, text, count, length, quantity, volume*l.density(key)/1000)
}

// weighed lists a quantity of an item whose mass is known, t.
func (l *lister) weighed(key, text string, count int, length, quantity, mass float64) {
	if quantity <= 0 {
		return
	}
	row, _ := l.t.Item(key)
	it := Item{Key: key, Text: text, Count: count, Length: length, Quantity: quantity, Unit: row.Unit, Mass: mass, Price: math.NaN()}
	if price, ok := priceOf(l.p.Prices, key); ok {
		it.Price = price * quantity
	}
	l.items = append(l.items, it)
}

// priceOf looks a key up in a price list, whatever its case.
func priceOf(prices map[string]float64, key string) (float64, bool) {
	if v, ok := prices[key]; ok {
		return v, true
	}
	var names []string
	for name := range prices {
		if strings.EqualFold(strings.TrimSpace(name), key) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return 0, false
	}
	slices.Sort(names) // two spellings: the same one every time
	return prices[names[0]], true
}

// bars lists count bars of one length each, by weight.
func (l *lister) bars(what, id string, count int, each float64) {
	if id == "" || count <= 0 || each <= 0 {
		return
	}
	row, ok := l.t.Bar(id)
	if !ok {
		l.fail("strengthening", id, "a row of the bar table")
		return
	}
	props, err := steel.BarProps(row)
	if err != nil {
		l.err = err
		return
	}
	length := float64(count) * each
	l.add("steel kg", what+", "+row.Name, count, length, props.Area*length*l.density("steel kg"), props.Area*length)
}

// density is that of an item, kg/m3.
func (l *lister) density(key string) float64 {
	row, ok := l.t.Item(key)
	if !ok {
		panic("assess: no item " + key)
	}
	return row.Density
}

// fail keeps the first name that is not in its table.
func (l *lister) fail(field, value, allowed string) {
	if l.err == nil {
		l.err = model.Problem{Field: field, Value: value, Allowed: allowed, Text: "it is not in its table"}
	}
}

// rod lists count round bars of a diameter, mm.
func (l *lister) rod(what string, diameter float64, count int, each float64) {
	if diameter <= 0 || count <= 0 {
		return
	}
	area := math.Pi / 4 * diameter * diameter * 1e-6
	length := float64(count) * each
	l.add("rebar kg", what+", "+quantity.Brief.Text(diameter/1000, quantity.Thickness), count, length, area*length*l.density("rebar kg"), area*length)
}

// block lists a volume of something by its density.
func (l *lister) block(key, what string, count int, volume float64) {
	l.add(key, what, count, 0, volume, volume)
}

// area lists an area, m2.
func (l *lister) area(key, what string, m2 float64) { l.add(key, what, 0, 0, m2, 0) }

// pitches is how many pieces stand along a length at a spacing, both ends
// included.
func pitches(length, spacing float64) int {
	if spacing <= 0 {
		return 0
	}
	return int(math.Ceil(length/spacing-1e-9)) + 1
}

// ribCount is the number of ribs: as many equal bays as come nearest to the
// spacing, and a rib between each two.
func ribCount(b tables.Box, spacing float64) int {
	if spacing <= 0 {
		return 0
	}
	return max(1, int(math.Round(b.L/spacing))) - 1
}

// total adds items up and names those without a price.
func total(items []Item) Takeoff {
	t := Takeoff{Items: items}
	for _, it := range items {
		t.Mass += it.Mass
		t.Price += it.Price
		if math.IsNaN(it.Price) && !slices.Contains(t.Unpriced, it.Key) {
			t.Unpriced = append(t.Unpriced, it.Key)
		}
	}
	return t
}

// less is what one take-off has more than another; what both have alike is
// left out.
func (t Takeoff) less(other Takeoff) Takeoff {
	var items []Item
	for _, it := range t.Items {
		items = mergeItem(items, it, 1)
	}
	for _, it := range other.Items {
		items = mergeItem(items, it, -1)
	}
	items = slices.DeleteFunc(items, func(it Item) bool { return math.Abs(it.Quantity) < 1e-9 })
	return total(items)
}

// mergeItem adds an item to a list, to the line of the same thing where there
// is one.
func mergeItem(items []Item, it Item, sign int) []Item {
	k := float64(sign)
	for i := range items {
		if o := &items[i]; o.Key == it.Key && o.Text == it.Text {
			o.Count += sign * it.Count
			o.Length += k * it.Length
			o.Quantity += k * it.Quantity
			o.Mass += k * it.Mass
			o.Price += k * it.Price
			return items
		}
	}
	it.Count *= sign
	it.Length *= k
	it.Quantity *= k
	it.Mass *= k
	it.Price *= k
	return append(items, it)
}
