package box

import (
	"fmt"

	"hillset/engine/frame"
	"hillset/engine/quantity"
)

// InnerShare is what the most loaded inner support of a bar over equal spans
// takes, over what falls on one span: 1.25 for two spans, 1.1 for three and
// more (structure reference, section 4; beam tables), 1 for a single span.
func InnerShare(spans int) float64 {
	if spans < 2 {
		return 1
	}
	return Rail{Spans: spans}.form().r
}

// bearing is the width over which a purlin presses on the beam, m: narrow, so that what it brings is as good as a force.
const bearing = 0.01

// checkRoof refuses purlins beside the roof.
func (in Rib) checkRoof() error {
	if in.Beam.Area == 0 {
		if err := quantity.Range("number of purlins without a roof beam", float64(len(in.Purlins)), 0, 0); err != nil {
			return err
		}
	}
	if in.RoofSpan != 0 || len(in.Purlins) > 0 {
		if err := quantity.Within("roof span over the rib", in.RoofSpan, in.Width, maxHeight, quantity.Length); err != nil {
			return err
		}
	}
	last := in.offset() + bearing
	for k, x := range in.Purlins {
		if err := quantity.Within(fmt.Sprintf("place of purlin %d", k+1), x, last+minGap, in.RoofSpan-in.offset()-minGap, quantity.Length); err != nil {
			return err
		}
		last = x
	}
	return nil
}

// checkWheels refuses wheels beside the roof and such as pull at it.
func (in Rib) checkWheels() error {
	return RoofStrip{Span: in.roofSpan(), Wheels: in.Wheels}.checkWheels()
}

// roofSpan is the span of the roof sheet over the beam.
func (in *Rib) roofSpan() float64 {
	if in.RoofSpan > 0 {
		return in.RoofSpan
	}
	return in.Width
}

// offset is how far the roof sheet reaches beyond the axis of a post.
func (in *Rib) offset() float64 { return (in.roofSpan() - in.Width) / 2 }

// onRoof brings an even load on the roof, kPa, and wheels to the beam, which is
// walked from the right, and to the tops of the posts.
func (l *ribLoads) onRoof(in *Rib, f *ribFrame, even float64, wheels frame.Load) error {
	if even == 0 && len(wheels) == 0 {
		return nil
	}
	if len(in.Purlins) > 0 {
		return l.byPurlins(in, f, even, wheels)
	}
	if in.Beam.Area == 0 { // the edges of the sheet stand over the posts
		load := frame.Add(frame.Uniform(even, in.roofSpan()), wheels)
		if total, at := load.Total(); total != 0 {
			right := total * at / in.roofSpan()
			l.onPosts(in, f, right, total-right)
		}
		return nil
	}
	off := in.offset()
	beam := frame.Uniform(even, in.Width)
	if len(wheels) > 0 {
		beam = frame.Add(beam, wheels.Clip(off, off+in.Width).Turned(in.Width))
	}
	l.members[f.roof] = beam.Scale(in.length())
	return nil
}

// byPurlins is what purlins and the edges of the sheet bring to the beam; the
// edges stand over the posts.
func (l *ribLoads) byPurlins(in *Rib, f *ribFrame, even float64, wheels frame.Load) error {
	var few [16]float64
	forces := few[:0]
	if len(wheels) > 0 {
		var err error
		if forces, err = frame.ReactionsIn(forces, f.roofAt, wheels); err != nil {
			return err
		}
	}
	n := len(f.roofAt) - 1
	on := func(k int) float64 {
		if len(forces) > 0 {
			return even*f.even[k] + forces[k]
		}
		return even * f.even[k]
	}
	l.onPosts(in, f, on(n), on(0))
	beam := l.members[f.roof]
	for k := n - 1; k > 0; k-- {
		p := on(k) * in.length() / bearing
		at := in.Width - (f.roofAt[k] - in.offset()) - bearing/2
		beam = append(beam, frame.LoadPoint{S: at}, frame.LoadPoint{S: at, P: p}, frame.LoadPoint{S: at + bearing, P: p}, frame.LoadPoint{S: at + bearing})
	}
	l.members[f.roof] = beam
	return nil
}

// onPosts is what comes down on the tops of the right and the left post, kN per
// m of box.
func (l *ribLoads) onPosts(in *Rib, f *ribFrame, right, left float64) {
	tops := f.tops()
	l.down[tops[0]], l.down[tops[1]] = right*in.length(), left*in.length()
}
