package weather

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// splitter cuts text parted by commas, or by blanks, into rows without allocating
// per field. A quoted field may hold commas and doubled quotes, not a line end: no
// daily file has one, and a missing quote must not swallow the rest of the file.
type splitter struct {
	text   *bufio.Reader
	line   int // number of the line last returned, from 1
	fields [][]byte
	blanks bool  // fields are parted by runs of blanks instead of commas
	failed error // what ended the text before its end
}

// newSplitter starts at the first line of a text.
func newSplitter(text *bufio.Reader) *splitter { return &splitter{text: text} }

// next returns the fields of the next line that is not blank; they stay valid
// until the next call. ok is false at the end of the text, and sound false when
// the quotes of the line do not match.
func (s *splitter) next() (fields [][]byte, sound, ok bool) {
	text, ok := s.nextLine()
	if !ok {
		return nil, true, false
	}
	sound = s.split(text)
	return s.fields, sound, true
}

// nextLine returns the next line that is not blank without its end; it stays
// valid until the next call. ok is false at the end of the text.
func (s *splitter) nextLine() (text []byte, ok bool) {
	for s.failed == nil {
		text, err := s.text.ReadSlice('\n')
		if len(text) == 0 && errors.Is(err, io.EOF) {
			return nil, false
		}
		s.line++
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			fault := tooLong(s.line)
			s.failed = &fault
			return nil, false
		case err != nil && !errors.Is(err, io.EOF):
			s.failed = s.here(err)
			return nil, false
		}
		text = bytes.TrimSuffix(bytes.TrimSuffix(text, []byte{'\n'}), []byte{'\r'})
		if len(bytes.TrimSpace(text)) > 0 {
			return text, true
		}
	}
	return nil, false
}

// tooLong is the fault of a line past longestLine.
func tooLong(line int) Fault {
	return Fault{Line: line, Found: fmt.Sprintf("a line of more than %d characters", longestLine), Allowed: "shorter lines", Mend: "is this a daily record?"}
}

// here says of an error at which line it came.
func (s *splitter) here(err error) error {
	var fault *Fault
	if errors.As(err, &fault) {
		fault.Line = s.line
		return fault
	}
	return fmt.Errorf("line %d: %w", s.line, err)
}

// stop ends the text here: what follows would only repeat a fault.
func (s *splitter) stop() { s.text.Reset(bytes.NewReader(nil)) }

// split fills fields from one line, false when quotes do not match.
func (s *splitter) split(text []byte) bool {
	s.fields = s.fields[:0]
	if s.blanks {
		s.splitBlanks(text)
		return true
	}
	for {
		if len(text) == 0 || text[0] != '"' {
			i := bytes.IndexByte(text, ',')
			if i < 0 {
				s.fields = append(s.fields, text)
				return true
			}
			s.fields, text = append(s.fields, text[:i]), text[i+1:]
			continue
		}
		end, doubled := 1, false
		for {
			i := bytes.IndexByte(text[end:], '"')
			if i < 0 {
				return false
			}
			end += i
			if end+1 < len(text) && text[end+1] == '"' {
				end, doubled = end+2, true
				continue
			}
			break
		}
		field := text[1:end]
		if doubled {
			field = bytes.ReplaceAll(field, []byte(`""`), []byte(`"`))
		}
		s.fields = append(s.fields, field)
		text = text[end+1:]
		if len(text) == 0 {
			return true
		}
		if text[0] != ',' {
			return false
		}
		text = text[1:]
	}
}

// splitBlanks fills fields from one line parted by runs of blanks.
func (s *splitter) splitBlanks(text []byte) {
	start := -1 // of a word, -1 between words
	for i, c := range text {
		switch blank := c == ' ' || c == '\t'; {
		case blank && start >= 0:
			s.fields, start = append(s.fields, text[start:i]), -1
		case !blank && start < 0:
			start = i
		}
	}
	if start >= 0 {
		s.fields = append(s.fields, text[start:])
	}
}

// names returns the fields as trimmed strings, for a header.
func names(fields [][]byte) []string {
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = strings.TrimSpace(string(f))
	}
	return out
}

// number reads a finite decimal number; ok is false for anything else, such as
// "NaN", "inf", hexadecimal or an empty text.
func number(text string) (v float64, ok bool) {
	if strings.ContainsAny(text, "xX_") {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// whole reads a whole number of up to 7 digits padded with blanks.
func whole(b []byte) (n int, ok bool) {
	b = bytes.TrimSpace(b)
	negative := len(b) > 0 && b[0] == '-'
	if negative {
		b = b[1:]
	}
	if len(b) > 7 {
		return 0, false
	}
	n, ok = digits(b)
	if negative {
		n = -n
	}
	return n, ok
}
