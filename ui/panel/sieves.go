package panel

import (
	"fmt"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// sieveRow is the grading of a soil as a typed table: one sieve a line.
type sieveRow struct {
	*labelled
	entry *commitEntry
	id    string // of the soil
}

func (r *sieveRow) show(p *model.Project, sys units.System) {
	if r.entry.show(sieveText(soilOf(p, r.id).Sieves, sys)) {
		r.say("")
	}
}

// sieveTable makes the table of the soil's sieves.
func (w *Window) sieveTable(id string) *sieveRow {
	r := &sieveRow{id: id}
	r.entry = newCommitLines(func(text string) {
		sieves, err := readSieves(text, w.desk.Units())
		if err != nil {
			r.say(w.explain(err))
			return
		}
		keptSieves(sieves, soilOf(w.desk.Project(), id).Sieves, w.desk.Units())
		if r.commit(func(p *model.Project) error {
			s := soilOf(p, id)
			s.Sieves = sieves
			setByUser(s, "sieves")
			return nil
		}) {
			r.entry.taken()
			r.show(w.desk.Project(), w.desk.Units())
		}
	})
	r.entry.SetMinRowsVisible(4)
	r.labelled = w.stacked("Type grading", "Grading by sieves, for the filter rules. One a line: size; share passing. Empty: D15, D50 and D85 above are taken.", r.entry)
	r.entry.back = func() { r.say("") }
	return r
}

// sieveText writes a grading as the table shows it.
func sieveText(sieves []model.Sieve, sys units.System) string {
	var b strings.Builder
	for _, s := range sieves {
		b.WriteString(sieveLine(s, sys) + "\n")
	}
	return b.String()
}

func sieveLine(s model.Sieve, sys units.System) string {
	return decimal(s.Size, quantity.Grain, sys) + "; " + units.Number(100*s.Passes, 1) + " %"
}

// readSieves reads the table back. Cells are parted by semicolons or tabs; the
// lines may stand in any order.
func readSieves(text string, sys units.System) ([]model.Sieve, error) {
	var out []model.Sieve
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		cells := strings.Split(strings.ReplaceAll(line, "\t", ";"), ";")
		if len(cells) != 2 {
			return nil, fmt.Errorf("line %d: %q: part size and share passing by a semicolon or a tab", i+1, strings.TrimSpace(line))
		}
		size, err := units.Parse(quantity.Grain, strings.TrimSpace(cells[0]), sys)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		passes, err := readShare(cells[1], sys)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		out = append(out, model.Sieve{Size: size, Passes: passes})
	}
	slices.SortStableFunc(out, func(a, b model.Sieve) int {
		switch {
		case a.Size < b.Size:
			return -1
		case a.Size > b.Size:
			return 1
		}
		return 0
	})
	return out, gradingError(out)
}

// readShare reads a share passing: a bare number is percent, as laboratories
// write it.
func readShare(text string, sys units.System) (float64, error) {
	text = strings.TrimSpace(text)
	if !strings.HasSuffix(text, "%") {
		text += " %"
	}
	return units.Parse(quantity.None, text, sys)
}

// gradingError says what is wrong with a grading: sizes rise, and shares never
// fall.
func gradingError(sieves []model.Sieve) error {
	for i := 1; i < len(sieves); i++ {
		a, b := sieves[i-1], sieves[i]
		if a.Size == b.Size {
			return fmt.Errorf("the sieve %g mm stands twice", a.Size)
		}
		if b.Passes < a.Passes {
			return fmt.Errorf("less passes the sieve %g mm than the finer one %g mm", b.Size, a.Size)
		}
	}
	return nil
}

// keptSieves keeps the exact values of lines that nobody touched.
func keptSieves(typed, before []model.Sieve, sys units.System) {
	exact := map[string]model.Sieve{}
	for _, s := range before {
		exact[sieveLine(s, sys)] = s
	}
	for i, s := range typed {
		if e, ok := exact[sieveLine(s, sys)]; ok {
			typed[i] = e
		}
	}
}
