package sketch

import (
	"fmt"
	"strings"
)

// drawnPath is the path of the line that the tool adds to, "" for none.
func (b *Board) drawnPath() string {
	switch b.tool {
	case DrawGround:
		return groundPath
	case AddWater:
		return "site.water.observed["
	case DrawStratum:
		for i, s := range b.src.Project().Site.Strata {
			if s.ID == b.stratum {
				return fmt.Sprintf("site.strata[%d].top[", i)
			}
		}
	}
	return ""
}

// lastDrawn is the point that Backspace takes back: the selected one when it
// belongs to the line in hand, else its last. It gives the place in the list
// of handles, -1 for none, and the place along the line.
func (b *Board) lastDrawn() (handle, along int) {
	path := b.drawnPath()
	handle, along = -1, -1
	if path == "" {
		return
	}
	n := 0
	for i := range b.handles {
		if !strings.HasPrefix(b.handles[i].ID, path) {
			continue
		}
		handle, along = i, n
		if b.handles[i].ID == b.selected {
			return
		}
		n++
	}
	return
}
