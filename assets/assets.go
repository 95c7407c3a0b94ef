// Package assets embeds what the program carries with it: tables of values
// and the typeface of screen and paper.
package assets

import (
	"embed"
	"io/fs"
)

//go:embed fonts tables
var files embed.FS

// Regular gives the TrueType file of the upright face, the one used on the
// screen and on paper alike. The caller must not change it.
func Regular() []byte { return font("go-regular.ttf") }

// Bold gives the TrueType file of the bold face. The caller must not change it.
func Bold() []byte { return font("go-bold.ttf") }

// Tables gives the folder of tables, one CSV file each. The header row of a
// table names the unit of every column; the columns source and mark say where
// a row comes from and how far that source was seen.
func Tables() fs.FS {
	sub, err := fs.Sub(files, "tables")
	if err != nil {
		panic("assets: no folder of tables: " + err.Error())
	}
	return sub
}

func font(name string) []byte {
	b, err := files.ReadFile("fonts/" + name)
	if err != nil {
		panic("assets: embedded font is missing: " + name)
	}
	return b
}
