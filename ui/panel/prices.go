package panel

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// priceRow is the list of unit prices as a table.
type priceRow struct {
	*labelled
	entry *commitEntry
}

func (r *priceRow) show(p *model.Project, _ units.System) {
	if r.entry.show(priceText(p.Prices)) {
		r.say("")
	}
}

// priceTable makes the table of prices.
func (w *Window) priceTable() *priceRow {
	r := &priceRow{}
	r.entry = newCommitLines(func(text string) {
		prices, err := readPrices(text)
		if err != nil {
			r.say(w.explain(err))
			return
		}
		if r.commit(func(p *model.Project) error { p.Prices = prices; return nil }) {
			r.entry.taken()
			r.show(w.desk.Project(), w.desk.Units())
		}
	})
	r.entry.SetMinRowsVisible(4)
	r.labelled = w.stacked("Type prices", "Your unit prices, one a line: item; price. What has no price is not priced. Items that are counted: "+strings.Join(w.tables.ItemKeys(), ", ")+".", r.entry)
	r.entry.back = func() { r.say("") }
	return r
}

// priceText writes prices as the table shows them, by the names of the items.
func priceText(prices map[string]float64) string {
	items := make([]string, 0, len(prices))
	for item := range prices {
		items = append(items, item)
	}
	slices.Sort(items)
	var b strings.Builder
	for _, item := range items {
		b.WriteString(item + "; " + strconv.FormatFloat(prices[item], 'f', -1, 64) + "\n")
	}
	return b.String()
}

// readPrices reads the table back. A line without a price is not priced; it is
// no price of zero.
func readPrices(text string) (map[string]float64, error) {
	var out map[string]float64
	for i, line := range strings.Split(text, "\n") {
		item, price, parted := strings.Cut(strings.ReplaceAll(line, "\t", ";"), ";")
		item, price = strings.TrimSpace(item), strings.TrimSpace(price)
		switch {
		case item == "" && price == "":
			continue
		case item == "":
			return nil, fmt.Errorf("line %d: %q: the item is missing", i+1, strings.TrimSpace(line))
		case !parted && strings.ContainsAny(item, "0123456789"):
			return nil, fmt.Errorf("line %d: %q: part item and price by a semicolon or a tab", i+1, item)
		case price == "":
			continue
		}
		if _, twice := out[item]; twice {
			return nil, fmt.Errorf("line %d: %q stands twice", i+1, item)
		}
		v, err := units.Parse(quantity.None, price, units.Metric)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		if out == nil {
			out = map[string]float64{}
		}
		out[item] = v
	}
	return out, nil
}
