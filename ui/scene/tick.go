package scene

import "hillset/ui/units"

// tick is the length on paper by which the scale of a diagram is told, mm, and
// what the reader's ruler calls it.
func (o *Options) tick() (mm float64, name string) {
	if o.Units == units.US {
		return 2.54, "1/10 in"
	}
	return 1, "1 mm"
}
