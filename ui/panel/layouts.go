package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// halves lays two objects side by side; the first gets share of the width,
// both stand in the middle of the row.
type halves struct{ share float32 }

// MinSize is as tall as the taller of the two at their widths.
func (h *halves) MinSize(objs []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(120, 0)
	for _, o := range objs {
		s.Height = max(s.Height, o.MinSize().Height)
	}
	return s
}

// Layout gives each its share.
func (h *halves) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	widths := []float32{size.Width * h.share, size.Width * (1 - h.share)}
	gap := theme.Padding()
	x := float32(0)
	for i, o := range objs {
		w := widths[i]
		if i == 0 && len(objs) > 1 {
			w -= gap
		}
		o.Resize(fyne.NewSize(w, o.Size().Height)) // the width decides how words wrap
		m := o.MinSize().Height
		o.Resize(fyne.NewSize(w, m))
		o.Move(fyne.NewPos(x, max(0, (size.Height-m)/2)))
		x += widths[i]
	}
}

// column stacks objects, each as wide as the column and as tall as it needs
// to be at that width.
type column struct{ gap float32 }

// MinSize adds the heights of what is shown.
func (c *column) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		s.Width = max(s.Width, m.Width)
		if s.Height > 0 && m.Height > 0 {
			s.Height += c.gap
		}
		s.Height += m.Height
	}
	return s
}

// Layout gives each the full width and its own height.
func (c *column) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(size.Width, h))
		o.Move(fyne.NewPos(0, y))
		if h > 0 {
			y += h + c.gap
		}
	}
}

// shares lays objects side by side by shares of the width, all as tall as the
// row.
type shares struct {
	of  []float32
	gap float32
}

// MinSize is as tall as the tallest at its width.
func (l *shares) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objs {
		m := o.MinSize()
		s.Width += m.Width + l.gap
		s.Height = max(s.Height, m.Height)
	}
	return s
}

// Layout divides the width.
func (l *shares) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	all := float32(0)
	for _, s := range l.of {
		all += s
	}
	free := size.Width - l.gap*float32(len(objs)-1)
	x := float32(0)
	for i, o := range objs {
		w := free * l.of[i] / all
		o.Resize(fyne.NewSize(w, size.Height))
		o.Move(fyne.NewPos(x, 0))
		x += w + l.gap
	}
}

// wrapped lays objects side by side at their own widths. What does not fit any
// more goes to the next line.
type wrapped struct{ gap float32 }

// places walks through the objects as they are laid in a width.
func (l *wrapped) places(objs []fyne.CanvasObject, width float32, put func(o fyne.CanvasObject, x, y, w, h float32)) float32 {
	x, y, tall := float32(0), float32(0), float32(0)
	for _, o := range objs {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		if x > 0 && x+m.Width > width {
			x, y, tall = 0, y+tall+l.gap, 0
		}
		put(o, x, y, m.Width, m.Height)
		x += m.Width + l.gap
		tall = max(tall, m.Height)
	}
	return y + tall
}

// MinSize needs the width that was given last.
func (l *wrapped) MinSize(objs []fyne.CanvasObject) fyne.Size {
	right, bottom := float32(0), float32(0)
	for _, o := range objs {
		if o.Visible() {
			right = max(right, o.Position().X+o.Size().Width)
			bottom = max(bottom, o.Position().Y+o.MinSize().Height)
		}
	}
	return fyne.NewSize(min(right, 60), bottom)
}

// Layout puts the objects in lines.
func (l *wrapped) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.places(objs, size.Width, func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	})
}

// letters is how much larger the letters are than at first.
func letters() float32 { return theme.TextSize() / textSize }

// exactly gives its one object a width that grows with the letters alone.
type exactly struct{ width float32 }

// MinSize is that width.
func (e *exactly) MinSize(objs []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(e.width*letters(), objs[0].MinSize().Height)
}

// Layout gives it all there is.
func (e *exactly) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objs {
		o.Resize(size)
		o.Move(fyne.NewPos(0, 0))
	}
}

// inset keeps a margin round one object.
type inset struct{ x, y float32 }

// MinSize adds the margin.
func (m *inset) MinSize(objs []fyne.CanvasObject) fyne.Size {
	return objs[0].MinSize().AddWidthHeight(2*m.x, 2*m.y)
}

// Layout leaves the margin free.
func (m *inset) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	objs[0].Resize(size.SubtractWidthHeight(2*m.x, 2*m.y))
	objs[0].Move(fyne.NewPos(m.x, m.y))
}

// besides lays the pages at the right of the drawing: wider on a wide window.
type besides struct{}

// MinSize is that of both.
func (besides) MinSize(objs []fyne.CanvasObject) fyne.Size {
	a, b := objs[0].MinSize(), objs[1].MinSize()
	return fyne.NewSize(a.Width+sideWidth*letters(), max(a.Height, b.Height))
}

// Layout divides the width.
func (besides) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	w := letters() * min(sideMost, max(sideWidth, size.Width*sideShare))
	objs[0].Resize(fyne.NewSize(size.Width-w, size.Height))
	objs[0].Move(fyne.NewPos(0, 0))
	objs[1].Resize(fyne.NewSize(w, size.Height))
	objs[1].Move(fyne.NewPos(size.Width-w, 0))
}
