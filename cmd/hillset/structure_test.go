//go:build window

package main

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/ui/scene"
	"hillset/ui/sketch"
)

// shows tells whether a drawing has anything of a layer.
func shows(s *scene.Scene, l scene.Layer) bool {
	if s == nil {
		return false
	}
	for _, it := range s.Items {
		if it.Path != nil && it.Path.Layer == l || it.Label != nil && it.Label.Layer == l {
			return true
		}
	}
	return false
}

// TestWindowStructure looks at the box as a structure as a person would: the
// panels, the moments, the advice, which is taken and taken back, the limits.
func TestWindowStructure(t *testing.T) {
	path, err := filepath.Abs("../../testdata/potato-store-as-drawn.hillset")
	if err != nil {
		t.Fatal(err)
	}
	fyne.DoAndWait(func() { err = window.Desk().Open(path) })
	if err != nil {
		t.Fatal(err)
	}
	// The tests after it begin with the empty project that the window began with.
	t.Cleanup(func() {
		fyne.DoAndWait(func() { err = window.Desk().New() })
		if err != nil {
			t.Error(err)
		}
		click(t, "1 Hill")
	})
	until(t, "the demo is beyond its limits", func() bool { return strings.HasPrefix(window.Verdict(), "Beyond limits: ") })

	click(t, "Panels")
	until(t, "the box folded flat", func() bool { return shows(window.Panels().Scene(), scene.PanelLayer) })
	click(t, "Both")
	cross := window.Board(sketch.CrossSection)
	do(t, "key", "m")
	until(t, "moments in the cross section", func() bool {
		s, err := cross.Drawn()
		return err == nil && shows(s, scene.MomentLines)
	})
	do(t, "key", "m")

	click(t, "12 Advice")
	var before *model.Project
	fyne.DoAndWait(func() { before = project() })
	verdict := ""
	until(t, "advice that was tried", func() bool {
		verdict = window.Verdict()
		return window.Control("Do it") != nil && strings.Contains(window.PageSays(), "checks beyond limits")
	})
	click(t, "Do it")
	until(t, "another verdict", func() bool {
		return window.Desk().Fresh() && !reflect.DeepEqual(project(), before) && window.Verdict() != verdict && !strings.HasPrefix(window.Verdict(), "…")
	})
	do(t, "key", "ctrl+z")
	until(t, "the project from before", func() bool { return reflect.DeepEqual(project(), before) })

	click(t, "11 Limits")
	until(t, "all limits", func() bool { return strings.Contains(window.PageSays(), "Limits of this project") })
	for _, q := range []string{"How deep", "How high may the water", "How heavy", "How many years"} {
		if !strings.Contains(window.PageSays(), q) {
			t.Errorf("the limits say nothing of %q", q)
		}
	}
}
