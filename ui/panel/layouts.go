package panel

import "fyne.io/fyne/v2"

// halves lays two objects side by side; the first gets share of the width.
type halves struct{ share float32 }

// MinSize is as tall as the taller of the two at their widths.
func (h *halves) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		m := o.MinSize()
		s.Height = fyne.Max(s.Height, m.Height)
	}
	s.Width = 120
	return s
}

// Layout gives each its share and the full height.
func (h *halves) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	a := size.Width * h.share
	objs[0].Resize(fyne.NewSize(a, size.Height))
	objs[0].Move(fyne.NewPos(0, 0))
	if len(objs) > 1 {
		m := objs[1].MinSize()
		objs[1].Resize(fyne.NewSize(size.Width-a, m.Height))
		objs[1].Move(fyne.NewPos(a, (size.Height-m.Height)/2))
	}
}

// tight stacks objects without gaps, for the parts of one row.
type tight struct{}

// MinSize adds the heights of what is shown.
func (tight) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		if o.Visible() {
			m := o.MinSize()
			s.Width = fyne.Max(s.Width, m.Width)
			s.Height += m.Height
		}
	}
	return s
}

// Layout gives each the full width and its own height.
func (tight) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		// the width decides how words wrap, and so the height
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(size.Width, h))
		o.Move(fyne.NewPos(0, y))
		y += h
	}
}
