package panel

import (
	"fmt"
	"strings"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// report writes the result of the project as plain text: verdict, answers,
// every check with its working, what is not checked and what was taken for
// granted.
func (w *Window) report() string {
	var b strings.Builder
	p, r := w.desk.Project(), w.desk.Result()
	fmt.Fprintf(&b, "%s\n%s\n", p.Title, Version)
	if p.Invented {
		fmt.Fprintln(&b, sheet.InventedNote)
	}
	fmt.Fprintf(&b, "%s\n\n", sheet.Status)
	if r == nil || !w.desk.Fresh() {
		fmt.Fprintln(&b, "The result is still being computed.")
		return b.String()
	}
	w.reportHead(&b)
	for i := range r.Checks {
		c := &r.Checks[i]
		if c.Verdict() != check.NotChecked {
			fmt.Fprintf(&b, "\n%s", plain(w.checkParts(c)))
		}
	}
	fmt.Fprintln(&b, "\nNot checked")
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Verdict() == check.NotChecked {
			fmt.Fprintf(&b, "- %s (%s): %s\n", c.Title, c.Part, sheet.Unmade(c, w.desk.Units()))
		}
	}
	fmt.Fprintln(&b, "\nTaken for granted throughout")
	for _, a := range units.SayAll(r.Assumed, w.desk.Units()) {
		fmt.Fprintf(&b, "- %s\n", a)
	}
	return b.String()
}

// reportHead is the verdict with the answers, and what is missing.
func (w *Window) reportHead(b *strings.Builder) {
	r := w.desk.Result()
	if g := r.Governing(); g != nil {
		fmt.Fprintln(b, w.verdictWords(g))
	}
	fmt.Fprintf(b, "How deep may this box sit here? %s\n", w.answerWords(&r.Depth, r))
	fmt.Fprintf(b, "How high may the water come? %s\n", w.answerWords(&r.WaterUp, r))
	for _, pr := range r.Blocks {
		fmt.Fprintf(b, "Still missing: %s\n", w.missingWords(pr))
	}
}

func (w *Window) missingWords(p model.Problem) string {
	return fieldName(p.Field) + ": " + units.FormatProblem(p, w.desk.Units())
}
