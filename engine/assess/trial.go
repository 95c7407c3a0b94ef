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
	within        bool    // every check of the box that was made holds, and see unlike
	decides, part string  // check of the box with the largest ratio
	ratio         float64 // of it; NaN where it is one that could not be made
	why           string  // why not everything could be computed
	checks        []rated // all that stages came to, those of the open cut as well
}

// rated is a check of a trial at the stage and place where it is worst.
type rated struct {
	slot
	ratio float64 // NaN where it could not be made
}

// ofBox tells whether a check counts for the questions of the header: the open
// cut and the wing walls stand beside the box.
func (r rated) ofBox() bool { return !ofCut(r.id) && !ofWing(r.id) }

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
		return trial{why: Words(problems[0])}, nil
	}
	j, err := newJobIn(ctx, p, t, k.field)
	if ctx.Err() != nil {
		return trial{}, ctx.Err()
	}
	if err != nil {
		return trial{why: Words(err)}, nil
	}
	j.heavier = k.heavier
	worst := newWorst()
	stages := j.work(ctx, worst)
	if err := ctx.Err(); err != nil {
		return trial{}, err
	}
	for i := range stages {
		if sr := &stages[i]; len(sr.blocks) > 0 {
			return trial{why: Words(sr.blocks[0])}, nil
		} else if sr.err != nil {
			return trial{why: Words(each(sr.err)[0])}, nil
		}
	}
	return worst.trial(), nil
}

// trial is the verdict of the checks of the box that could be made. Whether one
// could not be made that others can, only they tell: see unlike.
func (w *worstOf) trial() trial {
	out := trial{why: "no check could be made", ratio: math.Inf(-1)}
	for _, s := range w.order {
		out.checks = append(out.checks, rated{slot: s, ratio: w.best[s].ratio})
	}
	if c, ok := out.worst(func(c rated) bool { return c.ofBox() && known(c.ratio) }); ok {
		out.ratio, out.decides, out.part = c.ratio, c.id, c.part
		out.within, out.why = held(c.ratio), ""
	}
	return out
}

// worst is the check that must be shown of those that count: one beyond limits
// before one that could not be made, and that before one within. False where
// there is none.
func (tr *trial) worst(counts func(rated) bool) (rated, bool) {
	var out rated
	found := false
	for _, c := range tr.checks {
		if counts(c) && (!found || worse(c.ratio, out.ratio)) {
			out, found = c, true
		}
	}
	return out, found
}

// unlike lets a trial within limits count as beyond where it could not make a
// check of the box that another trial made or did not come to: nobody can vouch
// for it.
func (tr *trial) unlike(other *trial) {
	if !tr.within {
		return
	}
	if c, ok := tr.worst(func(c rated) bool { return c.ofBox() && !known(c.ratio) && known(other.ratioAt(c.slot)) }); ok {
		tr.within, tr.decides, tr.part, tr.ratio = false, c.id, c.part, c.ratio
	}
}
