package site

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// page is the text of a file of keys.
type page struct {
	name string
	data []byte
}

// newPage leaves out a byte-order mark, as some editors set.
func newPage(name string, data []byte) *page {
	return &page{name, bytes.TrimPrefix(data, []byte("\ufeff"))}
}

// nested is how deep brackets may stand within brackets: a file of keys needs three,
// and the time to parse more grows with the square of their number.
const nested = 100

// illegible is the fault of what is no text at all: YAML allows no control
// characters but tab and the ends of lines (YAML 1.2.2, section 5.1), and the
// file must be UTF-8.
func (p *page) illegible() *Fault {
	at := func(i int, text string) *Fault {
		return &Fault{File: p.name, Line: 1 + bytes.Count(p.data[:i], []byte("\n")), Text: text}
	}
	if bytes.HasPrefix(p.data, []byte("\xff\xfe")) || bytes.HasPrefix(p.data, []byte("\xfe\xff")) {
		return at(0, "found UTF-16; allowed UTF-8: save the file as UTF-8")
	}
	for i, open := 0, 0; i < len(p.data); {
		r, size := utf8.DecodeRune(p.data[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			return at(i, fmt.Sprintf("found byte 0x%02x, which is not UTF-8; allowed text in UTF-8: save the file as UTF-8", p.data[i]))
		case r < ' ' && !strings.ContainsRune("\t\r\n", r), r >= 0x7f && r < 0xa0 && r != 0x85:
			return at(i, fmt.Sprintf("found control character 0x%02x; allowed text: is it the right file?", r))
		}
		switch r {
		case '[', '{':
			open++
		case ']', '}':
			open = max(open-1, 0)
		}
		if open > nested {
			return at(i, fmt.Sprintf("found brackets within brackets, more than %d deep; allowed a few: is it the right file?", nested))
		}
		i += size
	}
	return nil
}

// mends are what to do about errors of YAML's grammar, by what the parser says.
var mends = []struct{ says, mend string }{
	{"cannot start any token", "; if it is a tab, indent with blanks"},
	{"mapping value is not allowed", "; put a text that holds a colon in quotes"},
}

// parse turns the text into YAML's tree and returns its map.
func (p *page) parse(kind, least string) (ast.Node, *Fault) {
	file, err := parser.ParseBytes(p.data, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		fault := &Fault{File: p.name, Text: err.Error()}
		var syntax yaml.Error
		if errors.As(err, &syntax) {
			said := syntax.GetMessage()
			fault.Text = "not YAML: " + strings.ReplaceAll(said, "\t", `\t`)
			for _, m := range mends {
				if strings.Contains(said, m.says) {
					fault.Text += m.mend
					break
				}
			}
			if at := syntax.GetToken(); at != nil {
				fault.Line = at.Position.Line
				fault.Text = fmt.Sprintf("column %d: %s", at.Position.Column, fault.Text)
			}
		}
		return nil, fault
	}
	var bodies []ast.Node
	for _, doc := range file.Docs {
		// A directive (%YAML 1.2) is no content, nor are comments.
		if doc.Body != nil && doc.Body.Type() != ast.CommentType && doc.Body.Type() != ast.DirectiveType {
			bodies = append(bodies, doc.Body)
		}
	}
	switch len(bodies) {
	case 0:
		return nil, &Fault{File: p.name, Text: "found nothing; allowed at least " + least}
	case 1:
		if _, ok := bodies[0].(ast.MapNode); !ok {
			return nil, &Fault{File: p.name, Line: bodies[0].GetToken().Position.Line, Text: fmt.Sprintf("found %s; allowed keys with values", describe(bodies[0]))}
		}
		return bodies[0], nil
	}
	return nil, &Fault{File: p.name, Line: bodies[1].GetToken().Position.Line, Text: "found a second document; allowed one " + kind + " in a file"}
}

// longest is how much of a line is shown, characters.
const longest = 160

// locate gives every fault its file, its line - that of its key, or of the nearest
// section around it that is there - and the text of the line.
func (p *page) locate(list faults, lines map[string]int) {
	rows := strings.Split(lineEnds.Replace(string(p.data)), "\n")
	for _, fault := range list {
		fault.File = p.name
		for key := fault.Key; fault.Line == 0 && key != ""; key = key[:max(strings.LastIndexAny(key, ".["), 0)] {
			fault.Line = lines[key]
		}
		if fault.Line == 0 || fault.Line > len(rows) {
			continue
		}
		fault.Source = legible(rows[fault.Line-1])
	}
}

// lineEnds are the other ends of lines that YAML knows.
var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// legible shows a line or a key without what would disturb a terminal, and not
// all of it where it is very long.
func legible(text string) string {
	shown := []rune(strings.Map(func(r rune) rune {
		if r != '\t' && r != '\u00a0' && !unicode.IsPrint(r) {
			return unicode.ReplacementChar
		}
		return r
	}, text))
	if len(shown) > longest {
		return string(shown[:longest-3]) + "..."
	}
	return string(shown)
}
