package panel

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hillset/engine/model"
	"hillset/ui/scene"
)

// settings are the ways of looking that belong to the person and not to a
// project.
type settings struct {
	Look    scene.Look `json:"look"`
	Letters float32    `json:"letters"` // scale of letters, 1 is ordinary
	Width   float32    `json:"width"`   // of the window, in units
	Height  float32    `json:"height"`
	Folder  string     `json:"folder"` // where files were opened or saved last
	// Sections is which sections are shown.
	Sections showing `json:"sections"`
}

// Size of a window that was never opened before: it fits a small laptop.
const (
	firstWidth  = 1280
	firstHeight = 760
)

func firstSettings() settings {
	return settings{Look: scene.Light, Letters: 1, Width: firstWidth, Height: firstHeight}
}

func settingsFile(dir string) string { return filepath.Join(dir, "view.json") }

// readSettings reads them; what is not there or not readable is as at first.
func readSettings(dir string) settings {
	s := firstSettings()
	if dir == "" {
		return s
	}
	data, err := os.ReadFile(settingsFile(dir))
	if err != nil || json.Unmarshal(data, &s) != nil {
		return firstSettings()
	}
	first := firstSettings()
	if s.Look != scene.Dark && s.Look != scene.Daylight {
		s.Look = scene.Light
	}
	if s.Sections != longOnly && s.Sections != crossOnly && s.Sections != panelsOnly {
		s.Sections = bothSections
	}
	if !(s.Letters >= 0.8 && s.Letters <= 2) {
		s.Letters = first.Letters
	}
	if !(s.Width >= 640 && s.Height >= 480 && s.Width < 20000 && s.Height < 20000) {
		s.Width, s.Height = first.Width, first.Height
	}
	return s
}

// keepSettings writes them in one step, so that a half-written file is never
// found.
func (w *Window) keepSettings() {
	if w.places.config == "" {
		return
	}
	if err := writeSettings(w.places.config, w.set); err != nil {
		w.problem(w.explain(fmt.Errorf("keeping the look of the window: %w", err)))
	}
}

func writeSettings(dir string, s settings) error {
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return model.ReplaceFile(settingsFile(dir), append(data, '\n'))
}
