package weather

import (
	"bytes"
	"errors"
	"fmt"
	"io"
)

// textAllowed is what the content of a file may be.
const textAllowed = "a text file, one packed with gzip, or a tar archive of such"

// contents are what is told by its first bytes and is no text of days.
var contents = []struct{ magic, found, mend string }{
	{"\x1f\x8b", "text that is packed once more", "unpack it first"},
	{"PK\x03\x04", "a workbook or a zip archive", "save the sheet as CSV, or unpack the archive"},
	{"\xd0\xcf\x11\xe0", "a workbook", "save the sheet as CSV"},
	{"%PDF-", "a PDF document", "take the record as CSV"},
	{"\x89PNG", "a picture", "take the record as CSV"},
	{"\xff\xd8\xff", "a picture", "take the record as CSV"},
}

// notText is the fault of content that is no text that can be read, from its
// beginning; nil when it may be.
func notText(head []byte) error {
	for _, c := range contents {
		if bytes.HasPrefix(head, []byte(c.magic)) {
			return &Fault{Found: c.found, Allowed: textAllowed, Mend: c.mend}
		}
	}
	null := bytes.IndexByte(head, 0)
	line := 1 + bytes.Count(head[:max(null, 0)], []byte{'\n'})
	switch {
	case len(bytes.TrimSpace(head)) == 0:
		return &Fault{Found: "blank lines alone", Allowed: "a daily record", Mend: "download or save it again"}
	case null >= 0 && isWide16(head):
		return &Fault{Found: "text in UTF-16 without a byte-order mark", Allowed: textAllowed, Mend: "save it as UTF-8"}
	case null >= 0 && line > 1:
		return &Fault{Line: line, Found: "a null byte", Allowed: textAllowed, Mend: "the file is damaged, download or copy it again"}
	case null >= 0:
		return &Fault{Found: "bytes that are no text", Allowed: textAllowed, Mend: "is this a workbook or a picture?"}
	case bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(head[:len(head)-1], '\r') >= 0:
		return &Fault{Line: 1, Found: "lines that end in a carriage return alone", Allowed: "line feeds, with or without one",
			Mend: "save the file as CSV with the line ends of Unix or Windows"}
	}
	return nil
}

// isWide16 recognises text in which every second byte is null, as that of Latin
// letters in UTF-16 is.
func isWide16(head []byte) bool {
	head = head[:min(len(head), 64)/2*2]
	var null [2]int
	for i, c := range head {
		if c == 0 {
			null[i%2]++
		}
	}
	return len(head) >= 4 && max(null[0], null[1]) == len(head)/2 && min(null[0], null[1]) == 0
}

// damaged is the fault of a packed file or an archive that does not unpack.
func damaged(what string, err error) error {
	return &Fault{Found: fmt.Sprintf("%s that is damaged, %v", what, err), Allowed: "a whole one", Mend: "download it again"}
}

// inFile names the file of an error met on reading it.
func inFile(name string, err error) error {
	var fault *Fault
	if errors.Is(err, io.ErrUnexpectedEOF) {
		errors.As(damaged("an archive", err), &fault)
	}
	if fault != nil || errors.As(err, &fault) {
		named := *fault
		named.Name = name
		return &named
	}
	return fmt.Errorf("%s: %w", name, err)
}
