// Package panel is everything round the drawing: the window with its header,
// tool row and pages of typed values, the list of checks with their workings,
// menus, files and sheets. All numbers are typed and shown in the reader's
// units; nothing is only on hover.
package panel
