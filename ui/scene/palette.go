package scene

import (
	"image/color"
	"math"
)

// Roles: what a colour is for. Every difference that matters is drawn by
// hatch, line type or words too; colour only helps.
const (
	Paper       Role = "paper"
	Ink         Role = "ink"      // text, outlines of the works
	Thin        Role = "thin"     // dimension lines, leaders, axes
	Earth       Role = "earth"    // ground lines
	HatchSoil   Role = "hatch"    // signs in natural ground
	HatchFill   Role = "hatchput" // signs in what is put back
	Gravel      Role = "gravel"
	Sand        Role = "sand"
	Silt        Role = "silt"
	Clay        Role = "clay"
	Organic     Role = "organic"
	Bedrock     Role = "bedrock"
	FillTint    Role = "fill"
	StoneTint   Role = "stone"
	Concrete    Role = "concrete"
	FoamTint    Role = "foam"
	Steel       Role = "steel"
	Room        Role = "room" // inside of the box
	Dug         Role = "dug"  // open excavation
	WaterLine   Role = "water"
	WaterTint   Role = "watertint"
	Pressure    Role = "pressure"
	PressTint   Role = "presstint"
	WithinMark  Role = "within"
	BeyondMark  Role = "beyond"
	UnknownMark Role = "unknown"
	Selection   Role = "selection"

	// What the steel does.
	Bending  Role = "bending" // outlines and values of moments
	BendTint Role = "bendtint"
	Squeeze  Role = "squeeze" // thrusts
	Bent     Role = "bent"    // deformed shape

	// How far a bay is used, from the least to beyond limits.
	UseLow    Role = "uselow"
	UseMid    Role = "usemid"
	UseHigh   Role = "usehigh"
	UseBeyond Role = "usebeyond"
)

// Palette turns roles into opaque colours.
type Palette map[Role]color.RGBA

// Look names a palette.
type Look string

// The looks. Daylight is for a screen in the sun; Print stays apart in grey.
const (
	Light    Look = "light"
	Dark     Look = "dark"
	Daylight Look = "daylight"
	Print    Look = "print"
)

// Looks lists the looks in the order they are offered.
func Looks() []Look { return []Look{Light, Dark, Daylight, Print} }

// Published colour-blind-safe sets: Okabe and Ito (2008) and the high-contrast
// set of Tol (2021), as quoted in references/site.md section 5 (verified).
var (
	okBlack  = rgb(0x000000)
	okOrange = rgb(0xE69F00)
	okSky    = rgb(0x56B4E9)
	okGreen  = rgb(0x009E73)
	okYellow = rgb(0xF0E442)
	okBlue   = rgb(0x0072B2)
	okVerm   = rgb(0xD55E00)
	okPurple = rgb(0xCC79A7)
	tolBlue  = rgb(0x004488)
	tolRed   = rgb(0xBB5566)
	white    = rgb(0xFFFFFF)
)

func rgb(v uint32) color.RGBA {
	return color.RGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xFF}
}

// mix is t of a and the rest of b, in sRGB values.
func mix(a, b color.RGBA, t float64) color.RGBA {
	f := func(x, y uint8) uint8 { return uint8(math.Round(t*float64(x) + (1-t)*float64(y))) }
	return color.RGBA{R: f(a.R, b.R), G: f(a.G, b.G), B: f(a.B, b.B), A: 0xFF}
}

// Colours gives the palette of a look; an unknown look gives Light.
func Colours(l Look) Palette {
	switch l {
	case Dark:
		return darkPalette()
	case Daylight:
		return strongPalette()
	case Print:
		return printPalette()
	}
	return lightPalette()
}

// tints lays the ground colours of materials over the paper, t of each.
func tints(p Palette, paper color.RGBA, t float64) {
	for role, c := range map[Role]color.RGBA{
		Gravel: okOrange, Sand: okYellow, Silt: mix(okSky, okBlack, 0.75), Clay: mix(okVerm, okBlack, 0.8), Organic: okGreen,
		Bedrock: okBlue, FillTint: mix(okYellow, okBlack, 0.4), StoneTint: rgb(0x7F8A94), FoamTint: okVerm,
	} {
		p[role] = mix(c, paper, t)
	}
	p[Dug] = mix(rgb(0x808890), paper, t*0.5)
	p[PressTint] = mix(okPurple, paper, 1.9*t)
	p[WaterTint] = mix(okSky, paper, 1.6*t)
	p[BendTint] = mix(okGreen, paper, 1.5*t)
	p[UseLow], p[UseMid] = mix(okSky, paper, 0.16), mix(okSky, paper, 0.36)
	p[UseHigh], p[UseBeyond] = mix(okOrange, paper, 0.6), mix(okVerm, paper, 0.62)
	dark := Luminance(paper) < 0.5
	ground := okBlack
	if dark {
		ground = white
	}
	p[Bending], p[Squeeze], p[Bent] = mix(okGreen, ground, 0.62), mix(okBlue, ground, 0.72), mix(okVerm, ground, 0.66)
	if dark {
		p[Squeeze] = mix(okSky, white, 0.9)
		p[UseHigh], p[UseBeyond] = mix(okOrange, paper, 0.45), mix(mix(okVerm, white, 0.72), paper, 0.66)
	}
}

func lightPalette() Palette {
	paper := rgb(0xFCFCFA)
	p := Palette{
		Paper: paper, Ink: rgb(0x1B1F23), Thin: rgb(0x3C444C), Earth: mix(okBlack, okVerm, 0.62),
		HatchSoil: rgb(0x6E655C), HatchFill: rgb(0x5A6068), Concrete: rgb(0xD9DBDD), Steel: rgb(0x1B1F23), Room: paper,
		WaterLine: mix(okBlue, okBlack, 0.9), Pressure: mix(okPurple, okBlack, 0.58),
		WithinMark: mix(okBlue, okBlack, 0.9), BeyondMark: mix(okVerm, okBlack, 0.82), UnknownMark: rgb(0x5B6168), Selection: mix(okGreen, okBlack, 0.8),
	}
	tints(p, paper, 0.16)
	return p
}

func darkPalette() Palette {
	paper := rgb(0x14181C)
	p := Palette{
		Paper: paper, Ink: rgb(0xECEFF1), Thin: rgb(0xB4BDC4), Earth: mix(okOrange, white, 0.55),
		HatchSoil: rgb(0x8E8A82), HatchFill: rgb(0x98A2AC), Concrete: rgb(0x43494F), Steel: rgb(0xECEFF1), Room: rgb(0x1B2127),
		WaterLine: okSky, Pressure: mix(okPurple, white, 0.8),
		WithinMark: okSky, BeyondMark: mix(okOrange, okVerm, 0.55), UnknownMark: rgb(0xA9B1B8), Selection: mix(okGreen, white, 0.8),
	}
	tints(p, paper, 0.17)
	return p
}

// strongPalette is black on white with few tints, for a screen in the sun.
func strongPalette() Palette {
	p := Palette{
		Paper: white, Ink: okBlack, Thin: okBlack, Earth: okBlack,
		HatchSoil: rgb(0x3A3A3A), HatchFill: rgb(0x2A2A2A), Concrete: rgb(0xD0D0D0), Steel: okBlack, Room: white,
		WaterLine: tolBlue, Pressure: mix(okPurple, okBlack, 0.45),
		WithinMark: tolBlue, BeyondMark: mix(tolRed, okBlack, 0.62), UnknownMark: rgb(0x333333), Selection: mix(okGreen, okBlack, 0.7),
	}
	tints(p, white, 0.08)
	return p
}

// printPalette has lines that stay black or nearly so in grey, and tints so
// light that the hatch alone tells the materials apart.
func printPalette() Palette {
	p := Palette{
		Paper: white, Ink: okBlack, Thin: rgb(0x1E1E1E), Earth: okBlack,
		HatchSoil: rgb(0x5A5A5A), HatchFill: rgb(0x4A4A4A), Concrete: rgb(0xDEDEDE), Steel: okBlack, Room: white,
		WaterLine: tolBlue, Pressure: mix(okPurple, okBlack, 0.45),
		WithinMark: tolBlue, BeyondMark: mix(okVerm, okBlack, 0.65), UnknownMark: rgb(0x3A3A3A), Selection: okBlack,
	}
	tints(p, white, 0.10)
	return p
}

// Luminance is the relative luminance of a colour, 0 black to 1 white (WCAG
// 2.1, from IEC 61966-2-1).
func Luminance(c color.RGBA) float64 {
	f := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}

// Contrast is the contrast ratio of two colours, 1 to 21 (WCAG 2.1).
func Contrast(a, b color.RGBA) float64 {
	x, y := Luminance(a), Luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// Lightness is CIE L* of a colour, 0 to 100: how grey it prints.
func Lightness(c color.RGBA) float64 {
	y := Luminance(c)
	if y <= 216.0/24389 {
		return y * 24389 / 27
	}
	return 116*math.Cbrt(y) - 16
}
