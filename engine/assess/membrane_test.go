package assess

import (
	"testing"

	"hillset/engine/model"
)

// TestAdviceAgainstRust: where it is rust that brings the store beyond limits, a
// membrane is offered, for no longer than it takes.
func TestAdviceAgainstRust(t *testing.T) {
	p := demo(t, "put-right").Clone()
	keepDry(p)
	for i := range p.Stages {
		if p.Stages[i].Kind == model.StageService {
			p.Stages[i].Years = 90
		}
	}
	if s := ScoreOf(run(t, p)); s.Beyond == 0 {
		t.Fatal("rust of 90 years brings nothing beyond limits")
	}
	m := byIDPrefix(t, advice(t, p), "membrane")
	if m.After.open() != 0 || !(m.Q[0].Val < 90) {
		t.Errorf("%s %v leaves %+v", m.Text, m.Q, m.After)
	}
	q, _ := after(t, p, m.Apply)
	last := &q.Defence.Layers[len(q.Defence.Layers)-1]
	last.Life -= lifeStep
	if ScoreOf(run(t, q)).open() == 0 {
		t.Errorf("%g years would do as well", last.Life)
	}
	if len(m.Adds.Items) != 1 || m.Adds.Items[0].Key != "membrane m2" {
		t.Errorf("adds %+v", m.Adds.Items)
	}
}
