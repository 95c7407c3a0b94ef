// Package ground checks what stands on the ground or in it as a body: a box
// that floats, slides, tips or sinks, a gravity wall, a footing.
//
// Lengths in m, forces in kN, pressures in kPa, angles in rad. Levels of the
// box are measured up from its underside. A factor of safety is +Inf where
// nothing drives.
package ground
