package scene

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

// PanelLayer holds the box folded flat, with all its values.
const PanelLayer Layer = "panels"

// PanelOptions say how the box is folded flat.
type PanelOptions struct {
	Width, Height float64 // of the drawing, mm on paper, margins included
	Units         units.System
	Selected      string // part drawn as selected, by its name in the checks
	Shell         Shell  // the zero value takes NominalShell
}

// Measures of the panels, mm on paper.
const (
	panelSide  = 4.0  // margin round all
	panelGap   = 9.0  // between panels side by side
	panelTop   = 15.0 // title and the worst of the panel, on two lines
	titleWide  = 32.0 // room for the words over a narrow panel
	panelFoot  = 8.0  // ticks and their numbers
	panelKey   = 9.0  // a row of the legend
	leastWide  = 60.0 // the narrowest drawing that can be read
	mostScale  = 100.0
	leastShare = 0.7 // of the scale of the box alone, that the wing walls must leave
)

// sheetPanel is a panel with its place on the drawing.
type sheetPanel struct {
	assess.Panel
	title string
	at    geom.Vec // lower left corner, m
	bays  []assess.Bay
}

// BuildPanels draws the box folded flat: each face to scale and upright, with
// the worst ratio of every bay over all stages. The scale is the largest at
// which all panels fit; Scene.MMPerM tells it. It fails where the result has no
// panels or the drawing is too small to be read.
func BuildPanels(r *assess.Result, o PanelOptions) (*Scene, error) {
	switch {
	case r == nil || len(r.Panels) == 0:
		return nil, fmt.Errorf("panels: nothing was worked out")
	case !(o.Width >= leastWide && o.Height >= leastWide) || math.IsInf(o.Width, 0) || math.IsInf(o.Height, 0):
		return nil, fmt.Errorf("panels: width %g mm, height %g mm: want %g mm or more", o.Width, o.Height, leastWide)
	}
	if o.Shell == (Shell{}) {
		o.Shell = NominalShell()
	}
	ps := panelsOf(r)
	key := keyRows(o.Width - 2*panelSide)
	scale := largestScale(ps, o, panelKey*float64(key))
	caption := "The box folded flat: demand over strength, worst of all stages"
	if box := slices.DeleteFunc(slices.Clone(ps), func(p sheetPanel) bool { return wingFace(p.Face) }); len(box) < len(ps) {
		// the box itself comes first: the wing walls may not make it much smaller
		if alone := largestScale(box, o, panelKey*float64(key)); scale < leastShare*alone {
			ps, scale = box, alone
			caption += "; no room here for the wing walls"
		}
	}
	if scale == 0 {
		return nil, fmt.Errorf("panels: they find no room on %g mm x %g mm", o.Width, o.Height)
	}
	b := &builder{v: &section.View{}, r: r, left: maxHatch, mm: 1 / scale,
		o: Options{MMPerM: scale, Units: o.Units, Selected: o.Selected, Shell: o.Shell}}
	b.at.win = geom.Rect{Max: geom.Vec{o.Width * b.mm, o.Height * b.mm}}
	flow(ps, o, scale)
	for i := range ps {
		b.panel(&ps[i])
	}
	for i := range ps {
		b.titled(&ps[i])
	}
	for i := range ps {
		b.panelTexts(&ps[i])
	}
	b.panelLegend()
	s := b.scene()
	s.Caption = caption
	return s, nil
}

// panelsOf gives the panels of a result in the order they are drawn, with
// their bays. The floor and what stands
// outside are left out where nothing was checked on them.
func panelsOf(r *assess.Result) []sheetPanel {
	var out []sheetPanel
	for _, f := range []section.Face{section.Left, section.Right, section.Roof, section.Back, section.Front, section.Floor,
		assess.LeftSkin, assess.RightSkin, assess.BackSkin, assess.OverRoof, assess.LeftWing, assess.RightWing} {
		p := sheetPanel{title: faceName(f, r.Project)}
		for _, b := range r.Bays {
			if b.Panel == f {
				p.bays = append(p.bays, b)
			}
		}
		// What is worse lies over what shares its place.
		slices.SortStableFunc(p.bays, func(a, b assess.Bay) int { return cmp.Compare(bayWeight(&a), bayWeight(&b)) })
		for _, q := range r.Panels {
			if q.Face == f {
				p.Panel = q
			}
		}
		if p.Length > 0 && p.Height > 0 && (len(p.bays) > 0 || f != section.Floor && !outsideFace(f)) {
			out = append(out, p)
		}
	}
	return out
}

// outsideFace tells the panels of what stands outside the box.
func outsideFace(f section.Face) bool {
	return f == assess.LeftSkin || f == assess.RightSkin || f == assess.BackSkin || f == assess.OverRoof || wingFace(f)
}

// wingFace tells the panels of the wing walls.
func wingFace(f section.Face) bool { return f == assess.LeftWing || f == assess.RightWing }

// faceName is what a face is called on the panels.
func faceName(f section.Face, p *model.Project) string {
	broadside := p != nil && p.Box.Orientation == model.Broadside
	switch {
	case f == assess.OverRoof, wingFace(f):
		return string(f)
	case f == assess.LeftSkin:
		return "skin outside, left"
	case f == assess.RightSkin:
		return "skin outside, right"
	case f == assess.BackSkin && broadside:
		return "skin outside, uphill"
	case f == assess.BackSkin:
		return "skin outside, blind end"
	case f == section.Roof, f == section.Floor:
		return string(f)
	case broadside && f == section.Back:
		return "uphill side"
	case broadside && f == section.Front:
		return "downhill side"
	case broadside:
		return string(f) + " end"
	case f == section.Back:
		return "blind end"
	case f == section.Front:
		return "door end"
	}
	return string(f) + " side"
}

// blockOf is the room of a panel, mm.
func (p *sheetPanel) blockOf(scale float64) (w, h float64) {
	return math.Max(p.Length*scale, titleWide), p.Height*scale + panelTop + panelFoot
}

// flow sets the panels in rows from the top left and tells the height taken,
// mm; +Inf where one is wider than the drawing.
func flow(ps []sheetPanel, o PanelOptions, scale float64) float64 {
	x, y, row := panelSide, panelSide, 0.0
	for i := range ps {
		w, h := ps[i].blockOf(scale)
		if w > o.Width-2*panelSide {
			return math.Inf(1)
		}
		if x+w > o.Width-panelSide {
			x, y, row = panelSide, y+row, 0
		}
		ps[i].at = geom.Vec{x / scale, (o.Height - y - h + panelFoot) / scale}
		x, row = x+w+panelGap, math.Max(row, h)
	}
	return y + row
}

// largestScale is the largest scale at which the panels fit above a legend of
// a height, mm per m; 0 where none does. Rows break differently at each scale,
// so that scales are tried from the largest down.
func largestScale(ps []sheetPanel, o PanelOptions, key float64) float64 {
	for s := mostScale; s >= 1; s *= 0.985 {
		if flow(ps, o, s)+key+panelSide <= o.Height {
			return s
		}
	}
	return 0
}

// titled tells what a panel is and what is worst on it, on two lines where one
// is too long.
func (b *builder) titled(p *sheetPanel) {
	top := p.at.Add(geom.Vec{0, p.Height + (panelTop-3.6)*b.mm})
	l := label(PanelLayer, "panel:title", p.title)
	l.Height, l.Bold = 3, true
	b.must(l, top)
	lines := []string{"nothing checked here"}
	if w := worstBay(p.bays); w != nil {
		lines = []string{"worst " + ratioText(w.Ratio) + ": " + bayName(w)}
		if stage := b.stageName(w.Stage); stage != "" {
			lines = append(lines, stage)
		}
	}
	room := math.Max(p.Length*b.o.MMPerM, titleWide) + 0.8*panelGap
	height := 2.2
	if one := strings.Join(lines, ", "); face.Width(one, height, false) <= room {
		lines = []string{one}
	}
	for i, text := range lines {
		l := label(PanelLayer, "panel:worst", text)
		l.Text, _ = face.Clean(l.Text)
		l.Height = height
		for l.Height > leastText && face.Width(l.Text, l.Height, false) > room {
			l.Height -= 0.1
		}
		b.must(l, top.Sub(geom.Vec{0, (5 + 4.4*float64(i)) * b.mm}))
	}
}

// leastText is the height below which no text of a panel is set, mm.
const leastText = 1.7

// bayName names a bay.
func bayName(w *assess.Bay) string {
	if _, tail, ok := cut2(w.Part); ok {
		return tail
	}
	return w.Part
}

// stageName is the name of a stage of the project.
func (b *builder) stageName(id string) string {
	if b.r.Project == nil {
		return ""
	}
	for _, st := range b.r.Project.Stages {
		if st.ID == id {
			return st.Name
		}
	}
	return ""
}
