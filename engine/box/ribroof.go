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
		if err := quantity.Range("roof span over the rib", in.RoofSpan, in.Width, maxHeight); err != nil {
			return err
		}
	}
	last := in.offset() + bearing
	for k, x := range in.Purlins {
		if err := quantity.Range(fmt.Sprintf("place of purlin %d", k+1), x, last+minGap, in.RoofSpan-in.offset()-minGap); err != nil {
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
func (in Rib) roofSpan() float64 {
	if in.RoofSpan > 0 {
		return in.RoofSpan
	}
	return in.Width
}

// offset is how far the roof sheet reaches beyond the axis of a post.
func (in Rib) offset() float64 { return (in.roofSpan() - in.Width) / 2 }

// onBeam brings an even load on the roof, kPa, and wheels to the beam, which is
// walked from the right; edges is what comes down on its two ends, kN, the
// right one first.
func (in Rib) onBeam(even float64, wheels frame.Load) (beam frame.Load, edges [2]float64, err error) {
	if even == 0 && len(wheels) == 0 {
		return nil, edges, nil
	}
	if len(in.Purlins) > 0 {
		return in.byPurlins(even, wheels)
	}
	if in.Beam.Area == 0 { // the edges of the sheet stand over the posts
		load := frame.Add(frame.Uniform(even, in.roofSpan()), wheels)
		total, at := load.Total()
		if total == 0 {
			return nil, edges, nil
		}
		right := total * at / in.roofSpan()
		return nil, [2]float64{right * in.length(), (total - right) * in.length()}, nil
	}
	off := in.offset()
	beam = frame.Uniform(even, in.Width)
	if len(wheels) > 0 {
		beam = frame.Add(beam, wheels.Clip(off, off+in.Width).Turned(in.Width))
	}
	return beam.Scale(in.length()), edges, nil
}

// byPurlins is what purlins and the edges of the sheet bring to the beam; the
// edges stand over the posts.
func (in Rib) byPurlins(even float64, wheels frame.Load) (beam frame.Load, edges [2]float64, err error) {
	places := RoofStrip{Span: in.RoofSpan, Supports: in.Purlins}.places()
	load := frame.Uniform(even, in.RoofSpan)
	if len(wheels) > 0 {
		load = frame.Add(load, wheels)
	}
	forces, err := frame.Reactions(places, load)
	if err != nil {
		return nil, edges, err
	}
	n := len(forces) - 1
	edges = [2]float64{forces[n] * in.length(), forces[0] * in.length()}
	beam = make(frame.Load, 0, 4*n)
	for k := n - 1; k > 0; k-- {
		p := forces[k] * in.length() / bearing
		at := in.Width - (places[k] - in.offset()) - bearing/2
		beam = append(beam, frame.LoadPoint{S: at}, frame.LoadPoint{S: at, P: p}, frame.LoadPoint{S: at + bearing, P: p}, frame.LoadPoint{S: at + bearing})
	}
	return beam, edges, nil
}
