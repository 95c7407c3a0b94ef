package climate

import (
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// MostFines is the share finer than 0.075 mm up to which rock and sand are
// taken not to heave: the field proxy for less than 3 % finer than 0.02 mm, the
// limit of FAA P-154 subbase; in gravel the one is about half of the other
// where that is below 18 % (CRREL SR 97-13, verified; the proxy derived).
const MostFines = 0.06

const srcFines = "less than 3 % finer than 0.02 mm does not heave (FAA P-154), in gravel half of what is finer than 0.075 mm (CRREL SR 97-13, verified); 6 % passing No. 200 (derived)"

// Susceptible tells whether a soil with this share finer than 0.075 mm is
// taken to heave when it freezes.
func Susceptible(fines float64) (bool, error) {
	err := limit.Within("fines", fines, 0, 1, q.Share)
	return fines > MostFines, err
}

// Families of soil, as the thermal table names them.
const (
	Gravel = "gravel"
	Sand   = "sand"
	Silt   = "silt"
	Clay   = "clay"
)

// Group is the frost group of a soil from F1, which heaves least, to F4, by the
// share finer than 0.02 mm (TM 5-818-2, memory). It is "NFS" below 3 %, "S" up
// to where F1 or F2 begins, and empty where the family has none: peat, rock.
// A clay counts as F3, which holds for a plasticity index above 12; leaner ones
// are F4.
func Group(family string, finer02 float64) (string, error) {
	if err := limit.Within("share finer than 0.02 mm", finer02, 0, 1, q.Share); err != nil {
		return "", err
	}
	switch {
	case family == Silt:
		return "F4", nil
	case family == Clay:
		return "F3", nil
	case family != Gravel && family != Sand:
		return "", nil
	case finer02 < 0.03:
		return "NFS", nil
	case finer02 < 0.06:
		return "S", nil
	}
	if family == Sand {
		if finer02 <= 0.15 {
			return "F2", nil
		}
		return "F3", nil
	}
	switch {
	case finer02 <= 0.10:
		return "F1", nil
	case finer02 <= 0.20:
		return "F2", nil
	}
	return "F3", nil
}
