package weather

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// Bounds of a text; common practice, far beyond any daily record.
const (
	longestLine   = 1 << 16 // characters
	largestGrowth = 200     // times a compressed file may grow; a table of digits grows 5 to 20 times
	freeGrowth    = 1 << 24 // bytes that any compressed file may hold
)

// open returns the text of a file as a stream: unpacked when it is gzip, decoded
// when a byte-order mark says that it is UTF-8 or UTF-16. It is an error when the
// content is no text.
func open(r io.Reader) (*bufio.Reader, error) {
	content, err := unpack(r)
	if err != nil {
		return nil, err
	}
	return decode(content)
}

// unpack returns the content of a file, unpacked when it is gzip.
func unpack(r io.Reader) (*bufio.Reader, error) {
	packed := &counter{r: r}
	b := bufio.NewReader(packed)
	if magic, _ := b.Peek(2); !bytes.Equal(magic, []byte{0x1f, 0x8b}) {
		return b, nil
	}
	z, err := gzip.NewReader(b)
	if err != nil {
		return nil, damaged("a gzip stream", err)
	}
	return bufio.NewReader(&unpacked{z: z, packed: packed}), nil
}

// decode returns content as text.
func decode(content io.Reader) (*bufio.Reader, error) {
	text := bufio.NewReaderSize(transform.NewReader(content, unicode.BOMOverride(transform.Nop)), longestLine)
	head, err := text.Peek(longestLine)
	if len(head) == 0 && errors.Is(err, io.EOF) {
		return nil, &Fault{Found: "an empty file", Allowed: "a daily record", Mend: "download or save it again"}
	}
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, bufio.ErrBufferFull) {
		return nil, err
	}
	if err := notText(head); err != nil {
		return nil, err
	}
	return text, nil
}

// counter counts the bytes read through it.
type counter struct {
	r io.Reader
	n int64
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	return n, err
}

// unpacked reads a compressed file and stops one that grows without end.
type unpacked struct {
	z      io.Reader
	packed *counter
	n      int64
}

func (u *unpacked) Read(p []byte) (int, error) {
	n, err := u.z.Read(p)
	u.n += int64(n)
	if u.n > freeGrowth && u.n > largestGrowth*u.packed.n {
		return 0, &Fault{Found: fmt.Sprintf("a file that grows to more than %d times its packed size", largestGrowth), Allowed: "less", Mend: "this is no daily record"}
	}
	if err != nil && !errors.Is(err, io.EOF) {
		err = damaged("a gzip stream", err)
	}
	return n, err
}
