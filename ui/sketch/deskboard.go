package sketch

import (
	"errors"
	"fmt"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/desk"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// NewBoard makes a board that shows a section of the project on the desk and
// follows it. Call Close when the board is no longer shown.
func NewBoard(d *desk.Desk, kind Kind, o Options) *Board {
	src := &deskSource{d: d, kind: kind}
	b := New(src, kind, o)
	b.onDesk = src
	b.close = d.Listen(func(e desk.Event) {
		switch e.Kind {
		case desk.ModelChanged:
			b.follows()
			if untouched(d) {
				b.choose("")
				b.SetTool(Select)
				b.camSet, b.toWhole = false, false
				b.fit()
			}
		case desk.ViewChanged:
			b.ModelChanged()
		case desk.ResultReady:
			b.ResultReady()
		case desk.WaterReady:
			if kind == LongSection { // what comes first is only of this section
				b.Redraw()
			}
		}
	})
	return b
}

// untouched says whether the project was just laid on the desk: another file,
// whose section may lie elsewhere.
func untouched(d *desk.Desk) bool {
	_, undo := d.CanUndo()
	_, redo := d.CanRedo()
	return !undo && !redo
}

// Close ends following the desk.
func (b *Board) Close() {
	if b.close != nil {
		b.close()
		b.close = nil
	}
}

// SetLayers chooses what is drawn; nil draws all. It concerns boards on a
// desk: other sources draw what they like.
func (b *Board) SetLayers(show map[scene.Layer]bool) {
	if b.onDesk != nil {
		b.onDesk.show = show
		b.Redraw()
	}
}

// Mark draws a part as selected, by its name in the checks; "" for none.
func (b *Board) Mark(part string) {
	if b.onDesk != nil && b.onDesk.marked != part {
		b.onDesk.marked = part
		b.Redraw()
	}
}

// SetPortrait gives what the steel does at the stage and station looked at, to
// be drawn by the layers that show it; nil draws none.
func (b *Board) SetPortrait(p *assess.Portrait) {
	if b.onDesk != nil && b.onDesk.portrait != p {
		b.onDesk.portrait = p
		b.Redraw()
	}
}

// deskSource shows a desk to a board.
type deskSource struct {
	d        *desk.Desk
	kind     Kind
	show     map[scene.Layer]bool
	marked   string
	portrait *assess.Portrait
}

func (s *deskSource) Project() *model.Project { return s.d.Project() }
func (s *deskSource) EndGesture()             { s.d.EndGesture() }
func (s *deskSource) Undo()                   { s.d.Undo() }
func (s *deskSource) Redo()                   { s.d.Redo() }

func (s *deskSource) Edit(what, merge string, change func(*model.Project) error) error {
	return s.d.Edit(what, merge, change)
}

// View builds the section at the stage and station that are looked at.
func (s *deskSource) View() (*section.View, error) {
	p := s.d.Project()
	st, err := stageOf(p, s.d.StageID())
	if err != nil {
		return nil, err
	}
	if s.kind == CrossSection {
		return section.NewCross(p, tables.Default(), st, s.d.Station())
	}
	return section.NewLong(p, tables.Default(), st)
}

func stageOf(p *model.Project, id string) (model.Stage, error) {
	for _, st := range p.Stages {
		if st.ID == id {
			return st, nil
		}
	}
	return model.Stage{}, model.Problem{Field: "stages", Value: fmt.Sprintf("%q", id), Allowed: "a stage of the project", Text: "is not a stage of the project"}
}

// Scene draws the section with the last result: that of the change in hand
// follows within a frame or two. After a failure of the engine there is none.
func (s *deskSource) Scene(v *section.View, mmPerM float64, clip geom.Rect) (*scene.Scene, error) {
	var r *assess.Result
	if s.d.Err() == nil {
		r = s.d.Result()
	}
	p := s.d.Project()
	return scene.Build(v, r, scene.Options{MMPerM: mmPerM, Units: s.d.Units(), Show: s.show, Clip: clip, Selected: s.marked,
		Project: p, Bars: tables.Default().Bar, Lumber: tables.Default().Lumber, Avoid: s.held(p, v), CountLost: true, Advice: advice(v), Portrait: s.portrait, Water: s.d.Water(),
		Soils: func(id string) (model.Soil, bool) {
			for _, soil := range p.Site.Soils {
				if soil.ID == id {
					return soil, true
				}
			}
			return model.Soil{}, false
		}})
}

// advice is what to do next while nothing is built yet.
func advice(v *section.View) []string {
	if !isNatural(v) {
		return nil
	}
	if !v.Long {
		return []string{"The hill as it was found.", "Choose a later stage below", "to see the box in it."}
	}
	return []string{"The hill as it was found.", "Next: press C and click where the box is to stand,", "or choose a later stage below to see it there."}
}

// held are the places of the handles.
func (s *deskSource) held(p *model.Project, v *section.View) []geom.Vec {
	hs := CrossHandles
	if s.kind == LongSection {
		hs = LongHandles
	}
	var out []geom.Vec
	for _, h := range hs(p, v) {
		out = append(out, h.At)
	}
	return out
}

func (s *deskSource) Format(v float64, kind quantity.Kind) string {
	return units.Format(v, kind, s.d.Units())
}

func (s *deskSource) Entry(v float64, kind quantity.Kind) string {
	return units.Entry(v, kind, s.d.Units())
}

func (s *deskSource) Parse(text string, kind quantity.Kind) (float64, error) {
	return units.Parse(kind, text, s.d.Units())
}

// Explain writes a problem of the input in the reader's units.
func (s *deskSource) Explain(err error) string {
	var p model.Problem
	if errors.As(err, &p) {
		return units.FormatProblem(p, s.d.Units())
	}
	return units.Say(err.Error(), s.d.Units())
}

// Round lengths of drawing: a decimetre or three inches, and a centimetre or
// half an inch for the keys.
const inch = 0.0254

func (s *deskSource) Steps() (grid, nudge float64) {
	if s.d.Units() == units.US {
		return 3 * inch, inch / 2
	}
	return 0.1, 0.01
}
