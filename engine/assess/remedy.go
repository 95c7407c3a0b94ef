package assess

import (
	"context"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Remedy is a change of the project that was tried: the whole assessment was
// run with it.
type Remedy struct {
	ID string
	// Text says what is done, with values as {0}, {1}; Q are those.
	Text string
	Q    []quantity.Q
	// Steps are the changes that a remedy of several consists of, in the order in
	// which they are made; nil for one that is a single change.
	Steps []Step
	// For are the checks beyond limits, as drawn, that it brings within or nearer.
	For []string
	// Fails are checks that it brings beyond limits, or that can no longer be made.
	Fails []string
	// Before and After are the assessments without and with it.
	Before, After Score
	// Adds is what it adds, and its price; the price is NaN where an item of it
	// is not priced.
	Adds  Takeoff
	Apply func(*model.Project) // makes the change
	// Rest is what becomes of the checks that no trial comes to; nil where they were
	// not made. Only the first remedy of Advise has it.
	Rest *Rest
}

// Rest sums up, for a project with a remedy taken, the checks that no trial comes
// to: drains, frost, air and the hillside.
type Rest struct {
	Made   int
	Beyond []check.Check // those beyond limits, the furthest first
}

// restOf makes the checks that no trial comes to on a copy of p with a remedy
// taken.
func restOf(ctx context.Context, p *model.Project, m *Remedy, t *tables.Set) (*Rest, error) {
	p = p.Clone()
	m.Apply(p)
	r, err := Run(ctx, p, t)
	if err != nil || len(r.Blocks) > 0 {
		return nil, err
	}
	if err := Hillside(ctx, r, t); err != nil {
		return nil, err
	}
	out := &Rest{}
	for _, c := range r.Checks {
		if !untried(c.ID, c.Part) || c.Verdict() == check.NotChecked {
			continue
		}
		out.Made++
		if c.Verdict() == check.Beyond {
			out.Beyond = append(out.Beyond, c)
		}
	}
	return out, nil
}

// untried tells the checks that no trial comes to.
func untried(id, part string) bool {
	return ofDrainage(slot{id, part}) || ofClimate(id) || ofHillside(id)
}

// Step is one change of a remedy of several.
type Step struct {
	Text  string // values as {0}, {1}
	Q     []quantity.Q
	After Score // with this step and those before it
	Apply func(*model.Project)
}

// Score sums up an assessment for comparing.
type Score struct {
	Beyond  int     // checks beyond limits
	Worst   float64 // largest ratio
	Governs string  // id of its check
	Part    string
	Excess  float64 // sum over the checks beyond of ratio - 1, each at most 10
	Missing int     // checks that could not be made in a stage
	Blocked string  // why nothing could be computed
}

// Takeoff is what is built in or taken away, by items.
type Takeoff struct {
	Items []Item
	Mass  float64 // t, of all items that have one
	// Price is in the user's currency; NaN where an item is not priced.
	Price    float64
	Unpriced []string // keys of items without a price
}

// Item is one kind of thing of a take-off. Of a difference its numbers are
// negative where it is taken away.
type Item struct {
	Key      string  // of the price list, e.g. "steel kg"; a row of the table of items
	Text     string  // e.g. "posts of ribs, SHS 100 x 100 x 5"
	Count    int     // pieces; 0 where it is not counted in pieces
	Length   float64 // m, of all pieces together; 0 where it has none
	Quantity float64 // in the unit of Key
	Unit     string  // "kg", "m2", "m3", "t", "piece"
	Mass     float64 // t; 0 where it has none worth stating
	Price    float64 // NaN where it is not priced
}
