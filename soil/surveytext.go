package soil

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
)

// longestRow is the most bytes of one row; those of the database have under 10 kB.
const longestRow = 1 << 20

var errLongRow = errors.New("a row that is too long")

// rowGuard passes the bytes of one row and ends with an error in one that goes on,
// as behind a quote that is never closed.
type rowGuard struct {
	r    io.Reader
	left int
}

func (g *rowGuard) Read(p []byte) (int, error) {
	if g.left <= 0 {
		return 0, errLongRow
	}
	n, err := g.r.Read(p[:min(len(p), g.left)])
	g.left -= n
	return n, err
}

// contents are what is told by its first bytes and is no table.
var contents = []struct{ magic, found, mend string }{
	{"\x1f\x8b", "a packed file", "unpack it first"},
	{"PK\x03\x04", "a workbook or a zip archive", "save the sheet as CSV, or unpack the archive"},
	{"\xd0\xcf\x11\xe0", "a workbook", "save the sheet as CSV"},
	{"%PDF-", "a PDF document", "export the table as CSV"},
	{"\x89PNG", "a picture", "export the table as CSV"},
	{"\xff\xd8\xff", "a picture", "export the table as CSV"},
	{"\xff\xfe", "text in UTF-16", "save it as UTF-8"},
	{"\xfe\xff", "text in UTF-16", "save it as UTF-8"},
	{"<", "a web page or a service's answer", "download the table again, as CSV"},
	{"{", "an answer in JSON", "request the table as CSV"},
	{"[", "an answer in JSON", "request the table as CSV"},
}

// tableText checks the beginning of a text for what is no table parted by commas,
// and passes over a byte-order mark.
func (t *surveyTable) tableText(r io.Reader) (*bufio.Reader, error) {
	text := bufio.NewReaderSize(r, 1<<16)
	if mark, _ := text.Peek(3); bytes.Equal(mark, []byte("\uFEFF")) {
		if _, err := text.Discard(3); err != nil {
			return nil, fmt.Errorf("%s: %w", t.name, err)
		}
	}
	head, _ := text.Peek(1 << 16)
	fault := func(line int, found, mend string) error {
		return &surveyFault{name: t.name, line: line, found: found, allowed: "comma-separated values with the header of the database", mend: mend}
	}
	start := bytes.TrimSpace(head)
	if len(start) == 0 {
		return nil, t.broken(io.EOF, "an empty table")
	}
	for _, c := range contents {
		if bytes.HasPrefix(start, []byte(c.magic)) {
			return nil, fault(0, c.found, c.mend)
		}
	}
	if bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(start, '\r') >= 0 {
		return nil, fault(1, "lines that end in a carriage return alone", "save the file with the line ends of Unix or Windows")
	}
	line, _, _ := bytes.Cut(start, []byte{'\n'})
	for _, other := range []struct{ mark, name string }{{";", "semicolons"}, {"\t", "tabs"}, {"|", "bars"}} {
		if bytes.Count(line, []byte(other.mark)) > bytes.Count(line, []byte{','}) {
			return nil, fault(1, "fields parted by "+other.name, "save the file as CSV with commas, and points in decimal numbers")
		}
	}
	if null := bytes.IndexByte(head, 0); null >= 0 {
		return nil, fault(1+bytes.Count(head[:null], []byte{'\n'}), "a null byte", "the file is damaged, download or copy it again")
	}
	return text, nil
}

// numberMend guesses what is wrong with a text that is no number, or with a number
// x out of its range.
func numberMend(text string, x float64, err error) string {
	switch {
	case err == nil && !(x > -99 && x < math.Inf(1)):
		return "leave it blank where the value is missing"
	case err == nil:
		return "is it a slip, or in another unit?"
	case strings.Contains(text, ","):
		return "write a point in decimal numbers"
	case !strings.ContainsAny(text, "0123456789"):
		return "take the row out if it is one of units"
	}
	return ""
}
