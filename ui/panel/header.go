package panel

import (
	"fmt"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/ui/sheet"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// header is the strip on top: the verdict and the three answers.
type header struct {
	w       *Window
	sign    *mark
	verdict *flow
	count   *flow
	lead    *cell
	answers [3]*answer
	box     *fyne.Container
	go_     *chip // leads to the page of the next step
	next    step  // what is to be done next
	asked   int   // waits for results so far
}

// answer is one question with its answer.
type answer struct {
	question, text *flow
	box            *cell
}

func newAnswer(q string, lead func()) *answer {
	a := &answer{question: newFlow(q + " ›").caption().atMost(1), text: newFlow("").atMost(3)}
	a.box = newCell(container.New(&column{gap: 1}, a.question, a.text), lead)
	return a
}

// computing is shown where an answer is on its way.
const computing = "computing…"

func newHeader(w *Window) *header {
	h := &header{w: w, sign: newMark(26), verdict: newFlow("").strong().sized(theme.SizeNameSubHeadingText).atMost(2), count: newFlow("").caption().atMost(1)}
	h.count.colour = theme.ColorNameForeground
	h.answers = [3]*answer{
		newAnswer("What gives way first?", h.toGoverning),
		newAnswer("How deep may this box sit here?", func() { w.openPage("fill") }),
		newAnswer("How high may the water come?", func() { w.openPage("water") }),
	}
	h.go_ = newChip("Go there", h.goThere)
	h.go_.Hide()
	h.lead = newCell(container.New(&column{gap: 1}, h.verdict, h.count), h.toGoverning)
	lead := container.NewBorder(nil, nil, container.New(&inset{4, 4}, container.NewVBox(h.sign)), container.NewVBox(h.go_), h.lead)
	row := container.New(&shares{of: []float32{0.37, 0.21, 0.21, 0.21}, gap: 14}, lead, h.answers[0].box, h.answers[1].box, h.answers[2].box)
	h.box = container.New(&inset{6, 4}, container.New(&headerHeight{h}, row))
	return h
}

// headerHeight keeps the strip as tall as its texts may become, so that the
// drawing below does not jump.
type headerHeight struct{ h *header }

// MinSize has room for three lines of an answer and of the verdict.
func (l *headerHeight) MinSize([]fyne.CanvasObject) fyne.Size {
	a := l.h.answers[0]
	return fyne.NewSize(400, max(a.question.pitch()+3*a.text.pitch(), 2*l.h.verdict.pitch()+l.h.count.pitch(), 3*a.text.pitch()+l.h.count.pitch())+4)
}

// Layout gives the row everything.
func (l *headerHeight) Layout(objs []fyne.CanvasObject, size fyne.Size) { objs[0].Resize(size) }

func (h *header) object() fyne.CanvasObject { return h.box }

// toGoverning leads to the check that governs; while nothing is checked to the
// page of the next step.
func (h *header) toGoverning() {
	r := h.w.desk.Result()
	if r == nil || r.Governing() == nil {
		if h.next.page == "" {
			h.w.openPage("checks")
			return
		}
		h.goThere()
		return
	}
	h.w.showCheck(r.Governing())
}

// goThere leads to the next step: its page, and its tool taken in hand.
func (h *header) goThere() {
	if !h.w.openPage(h.next.page) {
		h.w.status.say("There is no next step: page 9 lists what was checked.")
		return
	}
	if h.next.tool != sketch.Select {
		h.w.takeTool(h.next.tool)
		return
	}
	h.w.reveal(h.next.row)
}

// patience is how long an old verdict may stand before it is called stale.
const patience = 250 * time.Millisecond

// waiting notes that the project changed. The answers that take long are
// called for at once; the verdict stays until it is late.
func (h *header) waiting() {
	h.asked++
	n := h.asked
	time.AfterFunc(patience, func() {
		h.w.post(func() {
			if n == h.asked && !h.w.desk.Fresh() && h.w.desk.Err() == nil {
				h.pending()
			}
		})
	})
	for _, a := range h.answers[1:] {
		a.text.set(computing)
	}
}

// pending shows that the verdict is on its way.
func (h *header) pending() {
	h.sign.clear()
	h.verdict.paint(theme.ColorNameForeground)
	h.verdict.set(sentence(computing))
	h.count.set("")
	h.go_.Hide()
	for _, a := range h.answers {
		a.text.set(computing)
	}
}

// show brings the strip up to the desk.
func (h *header) show() {
	d := h.w.desk
	r := d.Result()
	switch {
	case d.Err() != nil:
		h.failed(d.Err())
	case r == nil || !d.Fresh():
		h.pending()
	default:
		h.result(r)
	}
}

// failed says that the calculation itself broke.
func (h *header) failed(err error) {
	h.sign.set(check.NotChecked)
	h.verdict.paint(theme.ColorNameForeground)
	h.verdict.set("Not checked: " + h.w.explain(err))
	h.count.set("The project is kept. Undo the last change, or save and send the file to the makers.")
	h.go_.Hide()
	for _, a := range h.answers {
		a.text.set(units.None)
	}
}

// longVerdict is from how many letters on the verdict is written smaller.
const longVerdict = 90

func (h *header) result(r *assess.Result) {
	g := r.Governing()
	next, blocked := h.w.firstThing(r.Blocks)
	h.next = next
	if blocked && next.page != "" {
		h.go_.Show()
	} else {
		h.go_.Hide()
	}
	if g == nil {
		h.sign.set(check.NotChecked)
		h.verdict.paint(theme.ColorNameForeground)
		h.verdict.set("Nothing is checked yet.")
		if blocked {
			h.verdict.set("Next: " + next.words + ".")
		}
	} else {
		h.sign.set(g.Verdict())
		h.verdict.paint(theme.ColorNameForeground)
		words := h.w.verdictWords(g)
		if blocked {
			words = "So far " + lowerFirst(words)
		}
		h.verdict.set(words)
	}
	h.verdict.sized(theme.SizeNameSubHeadingText).atMost(2)
	if len(h.verdict.text) > longVerdict {
		h.verdict.sized(theme.SizeNameText).atMost(3)
	}
	h.count.set(h.counted(r, g, blocked, next))
	first := h.w.firstWay(g)
	if g != nil && blocked && g.Verdict() != check.Beyond {
		first = waitsForNext
	}
	h.answers[0].text.set(first)
	h.answers[1].text.set(h.w.answerWords(&r.Depth, r))
	h.answers[2].text.set(h.w.answerWords(&r.WaterUp, r))
	h.verdict.Refresh()
	h.box.Refresh()
}

// counted says how much was checked and what was not.
func (h *header) counted(r *assess.Result, g *check.Check, blocked bool, next step) string {
	n := 0
	for i := range r.Checks {
		if r.Checks[i].Verdict() == check.NotChecked {
			n++
		}
	}
	if g != nil && blocked {
		return "Next: " + next.words
	}
	if g == nil {
		return "Click a page on the right and work down from 1 Hill."
	}
	return fmt.Sprintf("%d checks made, %d not checked (page 9)", len(r.Checks)-n, n)
}

// verdictWords says the governing check in one sentence.
func (w *Window) verdictWords(g *check.Check) string {
	return fmt.Sprintf("%s: %s, %s%s", sentence(g.Verdict().String()), sheet.Called(g.Part, g.Title), timesLimit(g.Worst()), w.where(g))
}

// timesLimit says a ratio in words.
func timesLimit(r float64) string {
	switch {
	case math.IsInf(r, 1):
		return "nothing is left of its resistance"
	case r > 1:
		return ratioNumber(r) + " times its limit"
	}
	return ratioNumber(r) + " of its limit"
}

// plainly is the ratio from which on the next whole number is near enough.
const plainly = 10

// ratioDigits keeps as many decimals as say something.
func ratioDigits(r float64) int {
	switch {
	case r < 2:
		return 2
	case r < plainly:
		return 1
	}
	return 0
}

// ratioNumber writes a ratio in as many digits as say something.
func ratioNumber(r float64) string {
	d := ratioDigits(r)
	switch {
	case math.IsInf(r, 1):
		return "without limit"
	case d == 0 || r <= 1:
		return units.Number(r, d)
	}
	return units.Number(ceilTo(r, d), d)
}

// ceilTo rounds up, so that what is just beyond a limit is not shown as at it.
func ceilTo(v float64, digits int) float64 {
	k := math.Pow10(digits)
	return math.Ceil(v*k-1e-9) / k
}

// where says the stage and the place of a check.
func (w *Window) where(c *check.Check) string {
	s := ""
	if name := w.stageName(c.Stage); name != "" {
		s = ", in stage “" + name + "”"
	}
	if c.HasStation {
		s += " at " + units.Format(c.Station, quantity.Length, w.desk.Units())
	}
	return s
}

func (w *Window) stageName(id string) string {
	for _, s := range w.desk.Project().Stages {
		if s.ID == id {
			return s.Name
		}
	}
	return ""
}

// firstWay answers the first question.
func (w *Window) firstWay(g *check.Check) string {
	switch {
	case g == nil:
		return "Not known yet"
	case g.Verdict() == check.Beyond:
		return sentence(sheet.Called(g.Part, g.Title)) + w.where(g)
	}
	return "Nothing that was checked. Nearest to its limit: " + sheet.Called(g.Part, g.Title) + w.where(g)
}
