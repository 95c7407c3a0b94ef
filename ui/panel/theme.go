package panel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"hillset/ui/scene"
)

// look is the theme of the window: the colours of the drawing carried over to
// everything round it, in the letters of the sheet.
type look struct {
	fyne.Theme
	name    scene.Look
	palette scene.Palette
	scale   float32
}

// newLook makes the theme of a look; scale enlarges letters and controls.
func newLook(name scene.Look, scale float32) *look {
	return &look{Theme: theme.DefaultTheme(), name: name, palette: scene.Colours(name), scale: scale}
}

// dark tells whether paper is dark, so that shades lean the right way.
func (l *look) dark() bool { return scene.Luminance(l.palette[scene.Paper]) < 0.3 }

// Font is the one typeface of screen and paper.
func (l *look) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Symbol:
		return l.Theme.Font(s)
	case s.Bold:
		return bold
	}
	return regular
}

// Color takes the colours of the drawing where it has them.
func (l *look) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	variant := theme.VariantLight
	if l.dark() {
		variant = theme.VariantDark
	}
	p := l.palette
	switch n {
	case theme.ColorNameBackground, theme.ColorNameOverlayBackground, theme.ColorNameMenuBackground:
		return p[scene.Paper]
	case theme.ColorNameForeground:
		return p[scene.Ink]
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p[scene.Selection]
	case theme.ColorNameFocus:
		c := p[scene.Selection]
		return color.NRGBA{R: c.R, G: c.G, B: c.B, A: 0x50} // words are read through it
	case theme.ColorNameForegroundOnPrimary:
		return p[scene.Paper]
	case theme.ColorNameInputBackground, theme.ColorNameButton, theme.ColorNameHeaderBackground:
		return l.between(0.07)
	case theme.ColorNameInputBorder:
		return l.between(0.45)
	case theme.ColorNameSeparator, theme.ColorNameDisabledButton:
		return l.between(0.18)
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return l.between(0.62)
	case theme.ColorNameScrollBar:
		return l.between(0.4)
	case theme.ColorNameSelection, theme.ColorNameHover, theme.ColorNamePressed:
		return l.between(0.16)
	case theme.ColorNameError:
		return p[scene.BeyondMark]
	case theme.ColorNameSuccess:
		return p[scene.WithinMark]
	case theme.ColorNameShadow:
		return color.NRGBA{A: 0x48} // over all that a dialog keeps from being used
	}
	return l.Theme.Color(n, variant)
}

// between is a shade on the way from paper to ink.
func (l *look) between(t float64) color.Color {
	a, b := l.palette[scene.Paper], l.palette[scene.Ink]
	m := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*t + 0.5) }
	return color.RGBA{m(a.R, b.R), m(a.G, b.G), m(a.B, b.B), 255}
}

// textSize is the ordinary size of letters, in units.
const textSize = 13

// Size keeps the window close but readable.
func (l *look) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return textSize * l.scale
	case theme.SizeNameCaptionText:
		return 12 * l.scale
	case theme.SizeNameSubHeadingText:
		return 15 * l.scale
	case theme.SizeNameHeadingText:
		return 18 * l.scale
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 5
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 2
	case theme.SizeNameLineSpacing:
		return 3
	}
	return l.Theme.Size(n)
}
