package version

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The packaging file names the same program and the same version.
func TestPackagingAgrees(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "..", "FyneApp.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for field, want := range map[string]string{"Name": Name, "Version": Number} {
		m := regexp.MustCompile(`(?m)^\s*` + field + `\s*=\s*"(.*)"`).FindSubmatch(b)
		if m == nil || !strings.HasPrefix(string(m[1]), want) {
			t.Errorf("%s is %q, want %q", field, m, want)
		}
	}
}
