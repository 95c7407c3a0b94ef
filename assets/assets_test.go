package assets

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// The faces are those of the published module, and their measures those that
// text heights on paper are worked out from (OS/2 table, verified: 2048 units
// per em, capital height 1480).
func TestFaces(t *testing.T) {
	for name, f := range map[string]struct{ got, want []byte }{
		"regular": {Regular(), goregular.TTF}, "bold": {Bold(), gobold.TTF},
	} {
		if !bytes.Equal(f.got, f.want) {
			t.Errorf("%s differs from the published face", name)
		}
		face, err := sfnt.Parse(f.got)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if face.UnitsPerEm() != 2048 {
			t.Errorf("%s: %d units per em, want 2048", name, face.UnitsPerEm())
		}
		os2 := table(t, f.got, "OS/2")
		if h := int(os2[88])<<8 | int(os2[89]); h != 1480 {
			t.Errorf("%s: capital height %d, want 1480", name, h)
		}
	}
}

// Both faces have every sign that formulas, slopes and levels are written
// with.
func TestFacesHaveTheSigns(t *testing.T) {
	const signs = "≥≤√−°²³⁴·½¼¾×±ΣΔπσγφδτβμαλψηρν∫≈∞'\"″′–—…%"
	for name, ttf := range map[string][]byte{"regular": Regular(), "bold": Bold()} {
		face, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		for _, r := range signs {
			if i, err := face.GlyphIndex(&buf, r); err != nil || i == 0 {
				t.Errorf("%s has no %q", name, r)
			}
		}
	}
}

func table(t *testing.T, ttf []byte, tag string) []byte {
	t.Helper()
	n := int(ttf[4])<<8 | int(ttf[5])
	be := func(at int) int {
		return int(ttf[at])<<24 | int(ttf[at+1])<<16 | int(ttf[at+2])<<8 | int(ttf[at+3])
	}
	for i := range n {
		if at := 12 + 16*i; string(ttf[at:at+4]) == tag {
			return ttf[be(at+8) : be(at+8)+be(at+12)]
		}
	}
	t.Fatalf("no table %s", tag)
	return nil
}

func TestLicenceIsCarried(t *testing.T) {
	b, err := files.ReadFile("fonts/LICENSE")
	if err != nil || !strings.Contains(string(b), "Redistribution and use") {
		t.Errorf("licence of the typeface: %v", err)
	}
}

// Every file of the folder is a table that can be opened by its bare name.
func TestTablesAreThere(t *testing.T) {
	names, err := fs.Glob(Tables(), "*")
	if err != nil || len(names) == 0 {
		t.Fatalf("no tables: %v", err)
	}
	for _, name := range names {
		if b, err := fs.ReadFile(Tables(), name); err != nil || len(b) == 0 || !strings.HasSuffix(name, ".csv") {
			t.Errorf("%s: %d bytes, %v", name, len(b), err)
		}
	}
}
