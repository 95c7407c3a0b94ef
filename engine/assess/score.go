package assess

import (
	"math"

	"hillset/engine/check"
)

// mostExcess bounds what one check adds to Score.Excess, so that a check without
// any resistance does not hide what becomes of the others.
const mostExcess = 10.0

// count adds a check to a score.
func (s *Score) count(id, part string, ratio float64) {
	if !known(ratio) {
		s.Missing++
		return
	}
	if was, is := ruleMet(s.Governs, s.Worst), ruleMet(id, ratio); s.Governs == "" || was && !is || was == is && ratio > s.Worst {
		s.Worst, s.Governs, s.Part = ratio, id, part
	}
	if ratio > 1 {
		s.Beyond++
		s.Excess += math.Min(ratio-1, mostExcess)
	}
}

// score sums up a trial.
func (tr *trial) score() Score {
	s := Score{Blocked: tr.why}
	for _, c := range tr.checks {
		s.count(c.id, c.part, c.ratio)
	}
	return s
}

// ScoreOf sums up an assessment: all checks that a stage came to, those of the
// open cut with them. What no stage can ever check is not counted, nor are the
// water works, frost, air and the hillside, which no trial comes to.
func ScoreOf(r *Result) Score {
	s := Score{}
	if len(r.Blocks) > 0 {
		s.Blocked = r.Blocks[0].Error()
	}
	for i := range r.Checks {
		c := &r.Checks[i]
		if untried(c.ID, c.Part) {
			continue
		}
		if c.Verdict() == check.NotChecked {
			if c.Stage != "" {
				s.Missing++
			}
			continue
		}
		s.count(c.ID, c.Part, c.Worst())
	}
	return s
}
