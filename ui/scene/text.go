package scene

import (
	"fmt"
	"strings"
)

// Dump writes a scene as text, one line per item, with rounded numbers: the
// same scene gives the same text on every machine. Hatches and other paths of
// many parts are summed up by their number of parts and points, their extent
// and a checksum of the rounded points.
func Dump(s *Scene) string {
	var w strings.Builder
	fmt.Fprintf(&w, "scene %q at %s mm/m, bounds %s\n", s.Caption, num(s.MMPerM), rect(s.Bounds.Min, s.Bounds.Max))
	for _, t := range s.Lost {
		fmt.Fprintf(&w, "lost %q\n", t)
	}
	for _, it := range s.Items {
		if it.Path != nil {
			dumpPath(&w, it.Path)
		} else {
			dumpLabel(&w, it.Label)
		}
	}
	return w.String()
}

func num(v float64) string {
	s := fmt.Sprintf("%.3f", v)
	if strings.Trim(s, "-0.") == "" {
		return "0"
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

func rect(a, b [2]float64) string {
	return fmt.Sprintf("(%s %s)-(%s %s)", num(a[0]), num(a[1]), num(b[0]), num(b[1]))
}

func dumpPath(w *strings.Builder, p *Path) {
	fmt.Fprintf(w, "path %s %q", p.Layer, p.Tag)
	if p.Fill != "" {
		fmt.Fprintf(w, " fill %s", p.Fill)
	}
	if p.Stroke != "" {
		fmt.Fprintf(w, " stroke %s %s", p.Stroke, num(p.Width))
	}
	if p.Dash != nil {
		fmt.Fprintf(w, " dash %v", p.Dash)
	}
	if p.Closed {
		w.WriteString(" closed")
	}
	const few = 3 // parts that are written out
	if len(p.Parts) <= few {
		for _, c := range p.Parts {
			w.WriteString(" |")
			for _, v := range c {
				fmt.Fprintf(w, " %s,%s", num(v[0]), num(v[1]))
			}
		}
	} else {
		points, sum := digest(p)
		fmt.Fprintf(w, " | %d parts %d points sum %08x", len(p.Parts), points, sum)
	}
	w.WriteByte('\n')
}

// digest is the number of points and a checksum (FNV-1a) of their millimetres.
func digest(p *Path) (points int, sum uint32) {
	sum = 2166136261
	for _, c := range p.Parts {
		for _, v := range c {
			points++
			for _, b := range []byte(num(v[0]) + "," + num(v[1]) + ";") {
				sum = (sum ^ uint32(b)) * 16777619
			}
		}
		sum = (sum ^ '|') * 16777619
	}
	return points, sum
}

func dumpLabel(w *strings.Builder, l *Label) {
	fmt.Fprintf(w, "label %s %q %q at %s,%s h %s %s anchor %s,%s", l.Layer, l.Tag, l.Text,
		num(l.At[0]), num(l.At[1]), num(l.Height), l.Role, num(l.Anchor.H), num(l.Anchor.V))
	if l.Angle != 0 {
		fmt.Fprintf(w, " angle %s", num(l.Angle))
	}
	if l.Bold {
		w.WriteString(" bold")
	}
	w.WriteByte('\n')
}
