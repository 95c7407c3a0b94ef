package sheet

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"hillset/geom"
)

// pdfPage is one page of a PDF file as its content stream says, in points with
// y up, read by a small parser that shares nothing with the writer.
type pdfPage struct {
	w, h  float64
	ops   string
	paths []pdfPath
	texts []pdfText
	// begun and ended count the marked contents (layers); open and shut the
	// saved and restored graphics states.
	begun, ended, open, shut int
}

type pdfPath struct {
	parts  []geom.Polyline
	width  float64
	op     string
	closed int
	layer  string
	fill   string
	stroke string
}

type pdfText struct {
	text       string
	x, y, size float64
	turned     bool
}

var (
	mediaBox  = regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)
	pagesBox  = regexp.MustCompile(`(?s)/Type /Pages.*?/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)
	contentsN = regexp.MustCompile(`/Contents (\d+) 0 R`)
)

// parsePDF reads the pages of an uncompressed file.
func parsePDF(t testing.TB, file []byte) []pdfPage {
	t.Helper()
	if !bytes.HasPrefix(file, []byte("%PDF-1.")) || !bytes.HasSuffix(bytes.TrimSpace(file), []byte("%%EOF")) {
		t.Fatal("not a PDF file")
	}
	common := pagesBox.FindSubmatch(file)
	var out []pdfPage
	for _, part := range bytes.Split(file, []byte("<</Type /Page\n"))[1:] {
		head := part[:bytes.Index(part, []byte("endobj"))]
		box := mediaBox.FindSubmatch(head)
		if box == nil {
			box = common
		}
		if box == nil {
			t.Fatal("no page box")
		}
		n := contentsN.FindSubmatch(head)
		start := bytes.Index(file, []byte(fmt.Sprintf("\n%s 0 obj\n", n[1])))
		body := file[start:]
		body = body[bytes.Index(body, []byte("stream\n"))+7:]
		body = body[:bytes.Index(body, []byte("\nendstream"))]
		pg := pdfPage{w: number(t, string(box[1])), h: number(t, string(box[2])), ops: string(body)}
		pg.read(t)
		out = append(out, pg)
	}
	if len(out) == 0 {
		t.Fatal("no pages")
	}
	return out
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("not a number: %q", s)
	}
	return v
}

// read runs the operators of the content stream.
func (pg *pdfPage) read(t testing.TB) {
	var stack []string
	var cur pdfPath
	var size float64
	var at geom.Vec
	cm := false
	layer := ""
	num := func(back int) float64 { return number(t, stack[len(stack)-back]) }
	for _, tok := range tokens(t, pg.ops) {
		switch tok {
		case "q":
			pg.open++
			cur = pdfPath{layer: layer}
		case "Q":
			pg.shut++
			cm = false
		case "cm":
			at, cm = geom.Vec{num(2), num(1)}, true
		case "w":
			cur.width = num(1)
		case "rg":
			cur.fill = strings.Join(stack[len(stack)-3:], " ")
		case "RG":
			cur.stroke = strings.Join(stack[len(stack)-3:], " ")
		case "m":
			cur.parts = append(cur.parts, geom.Polyline{{num(2), num(1)}})
		case "l":
			k := len(cur.parts) - 1
			cur.parts[k] = append(cur.parts[k], geom.Vec{num(2), num(1)})
		case "h":
			cur.closed++
		case "S", "f*", "B*":
			cur.op = tok
			pg.paths = append(pg.paths, cur)
		case "BDC":
			pg.begun++
			layer = stack[len(stack)-1]
		case "EMC":
			pg.ended++
			layer = ""
		case "Tf":
			size = num(1)
		case "Td":
			if !cm {
				at = geom.Vec{num(2), num(1)}
			}
		case "Tj":
			pg.texts = append(pg.texts, pdfText{stack[len(stack)-1][1:], at[0], at[1], size, cm})
		default:
			stack = append(stack, tok)
			continue
		}
		stack = stack[:0]
	}
}

// tokens splits a content stream; strings come decoded from UTF-16.
func tokens(t testing.TB, s string) []string {
	var out []string
	for i := 0; i < len(s); {
		switch c := s[i]; {
		case c == ' ' || c == '\n' || c == '[' || c == ']':
			i++
		case c == '(':
			text, n := literal(t, s[i:])
			out = append(out, "("+text) // told apart from an operator
			i += n
		default:
			j := i
			for j < len(s) && !strings.ContainsRune(" \n[]", rune(s[j])) {
				j++
			}
			out = append(out, s[i:j])
			i = j
		}
	}
	return out
}

// literal decodes a string in parentheses and gives its length in the file.
func literal(t testing.TB, s string) (string, int) {
	var raw []byte
	for i := 1; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
			c := s[i]
			if c == 'r' {
				c = '\r'
			}
			raw = append(raw, c)
		case ')':
			var u []uint16
			for k := 0; k+1 < len(raw); k += 2 {
				u = append(u, uint16(raw[k])<<8|uint16(raw[k+1]))
			}
			return string(utf16.Decode(u)), i + 1
		default:
			raw = append(raw, s[i])
		}
	}
	t.Fatal("string without an end")
	return "", 0
}

// allText joins the texts of a page.
func (pg *pdfPage) allText() string {
	var b strings.Builder
	for _, x := range pg.texts {
		b.WriteString(x.text)
		b.WriteByte('\n')
	}
	return b.String()
}
