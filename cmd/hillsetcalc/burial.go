package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// The depths of the saying that a box may be buried 4 to 6 ft, m.
const (
	fourFeet = 4 * 0.3048
	sixFeet  = 6 * 0.3048
)

func burialCommand(args []string, out, errs io.Writer) int {
	q := askReport("burial", out, errs)
	p, err := q.open(args)
	if err != nil {
		return q.fail(err)
	}
	rows, err := assess.BurialTable(p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	return q.answer(func() any { return burialReport(p, rows) }, func() string { return burialList(p, rows, q.system) })
}

// burialList is the table of burials for reading.
func burialList(p *model.Project, rows []assess.Burial, sys units.System) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", p.Title)
	if p.Invented {
		b.WriteString("Invented demonstration data\n")
	}
	b.WriteString("How high each soil may stand against the bare sheet\n\n")
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "CLASS\tSOIL\tDRAINED\tHOLDS 4 FT / 6 FT\tFLOODED\tHOLDS 4 FT / 6 FT\tON THE ROOF")
	for _, r := range rows {
		fmt.Fprintln(w, strings.Join([]string{
			r.Class, r.Name, sheet.BurialWords(r.Drained, r.WholeDrained, sys), holds(r.Drained),
			sheet.BurialWords(r.Flooded, r.WholeFlooded, sys), holds(r.Flooded), sheet.BurialWords(r.RoofCover, false, sys),
		}, "\t"))
	}
	w.Flush()
	b.WriteString("\n" + sheet.BurialNote + "\nA licensed engineer and the code in force decide.\n")
	return trimmed(b.String())
}

// holds says whether the saying holds for a height; it never does for a soil
// that is not allowed, whose height is NaN.
func holds(h float64) string { return yes(h > fourFeet) + " / " + yes(h > sixFeet) }

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// The JSON table of burials. Heights are in m; null is a soil that is not
// allowed as backfill.
type burialJSON struct {
	Program  string     `json:"program"`
	Title    string     `json:"title"`
	Invented bool       `json:"invented"`
	Note     string     `json:"note"`
	Soils    []soilJSON `json:"soils"`
}

type soilJSON struct {
	Class     string   `json:"class"`
	Name      string   `json:"name"`
	Drained   wallJSON `json:"drained"`
	Flooded   wallJSON `json:"flooded"`
	OnTheRoof *float64 `json:"on_the_roof"`
}

type wallJSON struct {
	Height    *float64 `json:"height"`
	WholeWall bool     `json:"whole_wall"`
	Holds4ft  bool     `json:"holds_4_ft"`
	Holds6ft  bool     `json:"holds_6_ft"`
}

func burialReport(p *model.Project, rows []assess.Burial) burialJSON {
	out := burialJSON{Program: version.Text, Title: p.Title, Invented: p.Invented, Note: sheet.BurialNote, Soils: []soilJSON{}}
	wall := func(h float64, whole bool) wallJSON {
		return wallJSON{number(h), whole, h > fourFeet, h > sixFeet}
	}
	for _, r := range rows {
		out.Soils = append(out.Soils, soilJSON{r.Class, r.Name, wall(r.Drained, r.WholeDrained), wall(r.Flooded, r.WholeFlooded), number(r.RoofCover)})
	}
	return out
}
