// Package assets embeds what the program carries with it: tables of values,
// the typeface of screen and paper.
package assets

import "embed"

//go:embed fonts
var files embed.FS

// Regular gives the TrueType file of the upright face, the one used on the
// screen and on paper alike. The caller must not change it.
func Regular() []byte { return font("go-regular.ttf") }

// Bold gives the TrueType file of the bold face. The caller must not change it.
func Bold() []byte { return font("go-bold.ttf") }

func font(name string) []byte {
	b, err := files.ReadFile("fonts/" + name)
	if err != nil {
		panic("assets: embedded font is missing: " + name)
	}
	return b
}
