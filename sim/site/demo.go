package site

import (
	"bytes"
	_ "embed"
)

//go:embed demo.yaml
var demo []byte

// Demo is an invented field with a wet prairie depression. It panics when the
// embedded file is at fault, which a test rules out.
func Demo() Field {
	f, err := ReadField("demo.yaml", bytes.NewReader(demo))
	if err != nil {
		panic(err)
	}
	return f
}

// DemoFile is the text of the demo's field file.
func DemoFile() string { return string(demo) }
