package panel

import (
	"path/filepath"
	"strings"

	"hillset/engine/model"
)

// sheetPage is what stands in the title block, and the handing over: the PDF
// and the report.
func (w *Window) sheetPage() *page {
	s := func(label, help string, ref func(p *model.Sheet) *string) row {
		return w.text(label, help, func(p *model.Project) *string { return ref(&p.Sheet) })
	}
	return newPage("sheet", "10 Sheet", "The drawing for the site: both sections to scale, with the checks, at the stage and station that are shown.", func(*model.Project) []row {
		return []row{
			w.pick("Paper", "", fixed("A4", "A4", "A3", "A3", "letter", "Letter", "tabloid", "Tabloid"), func(p *model.Project) *string { return &p.Sheet.Size }),
			w.export.lying(),
			w.export.waterDrawn(),
			w.export.pathRow(),
			buttons(w.export.button, w.button("Copy report as text", func() { w.copyText(w.report()) })),
			w.export.noteRow(),
			head("Title block"),
			w.text("Title", "", func(p *model.Project) *string { return &p.Title }),
			s("Owner", "", func(p *model.Sheet) *string { return &p.Owner }),
			s("Place", "", func(p *model.Sheet) *string { return &p.Place }),
			s("Drawn by", "", func(p *model.Sheet) *string { return &p.DrawnBy }),
			s("Number", "", func(p *model.Sheet) *string { return &p.Number }),
			s("Revision", "", func(p *model.Sheet) *string { return &p.Revision }),
			s("Date", "YYYY-MM-DD; empty leaves it out", func(p *model.Sheet) *string { return &p.Date }),
			head("Notes"),
			w.notes("Notes", "Printed on the sheet.", 5, func(p *model.Project) *string { return &p.Sheet.Notes }),
			w.tick("Invented for demonstration; every sheet says so", func(p *model.Project) *bool { return &p.Invented }),
			head("Prices"),
			w.priceTable(),
		}
	})
}

// pdfPath is where the sheet goes unless another path was typed: beside the
// project.
func (w *Window) pdfPath() string {
	if p := w.desk.Path(); p != "" {
		return strings.TrimSuffix(p, filepath.Ext(p)) + ".pdf"
	}
	return filepath.Join(w.folder(), fileName(w.desk.Project().Title)+".pdf")
}
