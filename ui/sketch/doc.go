// Package sketch is the drawing surface: it shows a section and lets it be
// changed by pointer and by keys.
//
// It holds a renderer of its own that turns a display list into pixels
// (Painter), the handles by which a drawing is taken hold of (Handle), the
// rules by which a point is drawn to another (Snap) and the widget that puts
// the three together (Board).
//
// All methods of Board belong to the goroutine of the user interface.
package sketch
