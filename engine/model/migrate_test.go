package model

import (
	"reflect"
	"strings"
	"testing"
)

func TestMigrationFromFormat0(t *testing.T) {
	draft := `{"format": 0, "title": "Draft", "site": {"surcharges": [{"id": "digger", "kind": "vehicle"}]}, "later": [1]}`
	d, ps := read(t, draft)
	if d.Project.Format != Format || d.Project.Title != "Draft" {
		t.Errorf("project %+v", d.Project)
	}
	if want := DefaultStages("digger"); !reflect.DeepEqual(d.Project.Stages, want) {
		t.Errorf("stages %+v, want %+v", d.Project.Stages, want)
	}
	if len(at(ps, "later")) != 1 {
		t.Errorf("the unknown field of the old file was not reported: %v", ps)
	}
	text := write(t, d)
	if !strings.Contains(text, `"format": 1`) || !strings.Contains(text, `"later"`) {
		t.Errorf("written as %s", text)
	}
	d2, _ := read(t, text)
	if !reflect.DeepEqual(d.Project, d2.Project) {
		t.Error("the migrated project does not read back")
	}
}

func TestMigrationKeepsStagesOfADraft(t *testing.T) {
	d, _ := read(t, `{"format": 0, "stages": [{"id": "a", "kind": "natural"}]}`)
	if len(d.Project.Stages) != 1 {
		t.Errorf("stages %+v", d.Project.Stages)
	}
	if _, _, err := Read(strings.NewReader(`{"format": 0, "title": 3}`)); err == nil || strings.Contains(err.Error(), "line") {
		t.Errorf("a fault in a migrated file has no place in its text, got %v", err)
	}
}

func TestMigrationForEveryOlderFormat(t *testing.T) {
	for i, f := range migrations {
		if f == nil {
			t.Errorf("no way from format %d to %d", i, i+1)
		}
	}
}
