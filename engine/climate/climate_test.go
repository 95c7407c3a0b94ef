package climate

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/earth/limit"
)

// near asserts got within a share of want.
func near(t *testing.T, name string, got, want, share float64) {
	t.Helper()
	within(t, name, got, want, share*math.Abs(want))
}

// within asserts got within tol of want.
func within(t *testing.T, name string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g within %.3g", name, got, want, tol)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// refused asserts an error that names the field and its range.
func refused(t *testing.T, err error, field string) {
	t.Helper()
	var e *limit.Error
	if !errors.As(err, &e) || !strings.Contains(e.Field, field) || e.Range() == "" {
		t.Errorf("want a refusal of %s, got %v", field, err)
	}
}
