package assess

import (
	"context"
	"math"

	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// trial is the outcome of one assessment with something changed.
type trial struct {
	within        bool    // every check of the box that was made holds
	decides, part string  // check of the box with the largest ratio
	ratio         float64 // of it
	why           string  // why not everything could be computed
	checks        []rated // all that stages came to, those of the open cut as well
}

// rated is a check of a trial at the stage and place where it is worst.
type rated struct {
	slot
	ratio float64 // NaN where it could not be made
}

// ofBox tells whether a check counts for the questions of the header.
func (r rated) ofBox() bool { return !ofCut(r.id) }

// ofPart tells the checks of single parts of the box, sheets, bars and frames,
// from those of the box as a body on its pads.
func (r rated) ofPart() bool { return r.ofBox() && !ofBody(r.slot) }

// ofBody tells the checks of the box as a body: afloat, sliding, tipping, and
// what it stands on.
func ofBody(s slot) bool {
	switch s.part {
	case "box", "pads", "rock bed":
		return true
	}
	return false
}

// ofCut tells the checks of the open excavation from those of the box.
func ofCut(id string) bool {
	switch id {
	case batterID, "spoil", "trench-egress":
		return true
	}
	return false
}

// try runs an assessment and tells whether every check that was made holds,
// leaving the checks of the open cut aside. Nothing is drawn or written.
func try(ctx context.Context, p *model.Project, t *tables.Set) (trial, error) {
	return tryKept(ctx, p, t, kept{})
}

// kept is what a trial does not take from the project.
type kept struct {
	heavier map[string]float64 // scales the wheels of vehicles, by the id of their surcharge
	field   *water.Field       // computed before; nil computes it
}

// tryKept is try with something kept.
func tryKept(ctx context.Context, p *model.Project, t *tables.Set, k kept) (trial, error) {
	if problems := p.Validate(); len(problems) > 0 {
		return trial{why: problems[0].Error()}, nil
	}
	j, err := newJobIn(ctx, p, t, k.field)
	if ctx.Err() != nil {
		return trial{}, ctx.Err()
	}
	if err != nil {
		return trial{why: asProblem(err).Error()}, nil
	}
	j.heavier = k.heavier
	worst := newWorst()
	stages := j.work(ctx, worst)
	if err := ctx.Err(); err != nil {
		return trial{}, err
	}
	for i := range stages {
		if sr := &stages[i]; len(sr.blocks) > 0 {
			return trial{why: sr.blocks[0].Error()}, nil
		} else if sr.err != nil {
			return trial{why: asProblem(each(sr.err)[0]).Error()}, nil
		}
	}
	return worst.trial(), nil
}

// trial is the verdict of the checks of the box.
func (w *worstOf) trial() trial {
	out := trial{why: "no check could be made", ratio: math.Inf(-1)}
	for _, s := range w.order {
		c := rated{slot: s, ratio: w.best[s].ratio}
		out.checks = append(out.checks, c)
		if c.ofBox() && c.ratio > out.ratio {
			out.ratio, out.decides, out.part = c.ratio, c.id, c.part
			out.within, out.why = c.ratio <= 1, ""
		}
	}
	return out
}

// worst is the check with the largest ratio of those that count; false where
// there is none.
func (tr *trial) worst(counts func(rated) bool) (rated, bool) {
	var out rated
	found := false
	for _, c := range tr.checks {
		if counts(c) && (!found || c.ratio > out.ratio) && !math.IsNaN(c.ratio) {
			out, found = c, true
		}
	}
	return out, found
}
