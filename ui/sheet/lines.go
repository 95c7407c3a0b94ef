package sheet

import (
	"strings"
)

// breakLines breaks text into lines no wider than w millimetres. It breaks at
// spaces, after a hyphen or a slash, and, where a single word is wider than
// the line, inside the word. A field narrower than one letter gets one letter
// per line rather than none. Line ends in the text are kept.
func breakLines(s style, text string, w float64) []string {
	var out []string
	for _, para := range strings.Split(text, "\n") {
		out = append(out, breakPara(s, para, w)...)
	}
	return out
}

func breakPara(s style, para string, w float64) []string {
	var out []string
	line := ""
	for _, p := range pieces(para) {
		if s.width(strings.TrimRight(line+p, " ")) <= w {
			line += p
			continue
		}
		if t := strings.TrimRight(line, " "); t != "" {
			out = append(out, t)
		}
		line = strings.TrimLeft(p, " ")
		for s.width(strings.TrimRight(line, " ")) > w {
			head, rest := splitWord(s, line, w)
			out = append(out, head)
			line = rest
		}
	}
	if t := strings.TrimRight(line, " "); t != "" || len(out) == 0 {
		out = append(out, t)
	}
	return out
}

// pieces cuts a text after the places where a line may end.
func pieces(text string) []string {
	var out []string
	start := 0
	for i, r := range text {
		next := i + len(string(r))
		inside := i > start && next < len(text)
		if r == ' ' || (inside && (r == '-' || r == '/') && text[next] != ' ') {
			out = append(out, text[start:next])
			start = next
		}
	}
	if start < len(text) {
		out = append(out, text[start:])
	}
	return out
}

// splitWord takes as many letters of a word as fit, at least one.
func splitWord(s style, word string, w float64) (head, rest string) {
	runes := []rune(word)
	n := 1
	for n < len(runes) && s.width(string(runes[:n+1])) <= w {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}
