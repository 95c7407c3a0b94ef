package tables

import "testing"

func TestEmbeddedTablesLoad(t *testing.T) {
	if _, err := Load(); err != nil {
		t.Fatal(err)
	}
}
