package panel

import (
	"reflect"
	"strings"
	"testing"

	"hillset/engine/model"
)

func TestMeasuredPoints(t *testing.T) {
	// One shot of 10 m at 30° from (2, 100): H = 8.660, V = 5 (by hand).
	for _, c := range []struct {
		name  string
		form  int
		text  string
		start [4]string
		want  []model.Vec
		says  string
	}{
		{"distance and level", 0, "0\t99,20\n3\t99,95", [4]string{}, []model.Vec{{0, 99.2}, {3, 99.95}}, ""},
		{"feet and inches", 0, "0,0\n10 ft,6'4\"", [4]string{}, []model.Vec{{0, 0}, {3.048, 76 * in}}, ""},
		{"chained shots", 1, "10 30\n10 30", [4]string{"2 m", "100 m"}, []model.Vec{{2, 100}, {10.6602540378, 105}, {19.3205080757, 110}}, ""},
		{"a fan", 2, "10 30\n20 30", [4]string{"2", "100", "1.5", "0.5"}, []model.Vec{{2, 100}, {10.6602540378, 106}, {19.3205080757, 111}}, ""},
		{"stadia level sight", 3, "1.6 1.5 1.4 0", [4]string{"0", "50", "1.4", ""}, []model.Vec{{0, 50}, {20, 49.9}}, ""},
		{"level book", 4, "dist,BS,IS,FS\n0,1.5,,\n5,,1.0,\n9,,,0.5", [4]string{"", "100", "", ""}, []model.Vec{{0, 100}, {5, 100.5}, {9, 101}}, ""},
		{"level book with a known end", 4, "dist,BS,IS,FS\n0,1.5,,\n9,,,0.5", [4]string{"", "100", "100.98", ""}, []model.Vec{{0, 100}, {9, 100.98}}, "Misclosure"},
		{"no number", 0, "0,99\n3,high", [4]string{}, nil, "Row 2"},
		{"out of order", 0, "5,99\n3,98", [4]string{}, nil, "front of it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, "")
			b.surveyDialog(c.form, c.text)
			s := b.surveyed
			for i, text := range c.start {
				s.start[i].SetText(text)
			}
			s.read()
			if !strings.Contains(s.result.text, c.says) {
				t.Errorf("the dialog says %q", s.result.text)
			}
			if c.want == nil {
				if !s.use.Disabled() || s.points != nil {
					t.Error("it can be used")
				}
				return
			}
			s.take()
			got := b.project().Site.Ground
			if len(got) != len(c.want) {
				t.Fatalf("%v; the dialog says %q", got, s.result.text)
			}
			for i := range got {
				if d := got[i].Sub(c.want[i]).Len(); d > 1e-9 {
					t.Errorf("point %d: %v, want %v", i, got[i], c.want[i])
				}
			}
			if b.asking() {
				t.Error("the dialog stays")
			}
		})
	}
}

func TestPointsOutOfOrderCanBeMended(t *testing.T) {
	b := newBench(t, "")
	b.openPage("hill")
	var line *lineRow
	for _, r := range b.rows() {
		if l, ok := r.(*lineRow); ok {
			line = l
		}
	}
	typed(line.entry, "5;99\n3;98\n8;101")
	if len(b.project().Site.Ground) != 0 || line.mend.Hidden || line.fault.text == "" {
		t.Fatalf("ground %v, button hidden %v, says %q", b.project().Site.Ground, line.mend.Hidden, line.fault.text)
	}
	line.mend.Tapped(nil)
	if want := []model.Vec{{3, 98}, {5, 99}, {8, 101}}; !reflect.DeepEqual(b.project().Site.Ground, want) {
		t.Errorf("ground %v", b.project().Site.Ground)
	}
	b.q.drain()
	typed(line.entry, "")
	if len(b.project().Site.Ground) != 0 {
		t.Errorf("an empty table leaves %v", b.project().Site.Ground)
	}
}
