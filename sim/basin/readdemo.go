package basin

import (
	"bytes"
	"embed"
	"io"
)

//go:embed demo/basin.yaml demo/units.geojson demo/reaches.csv
var demo embed.FS

// demoFile is the demo's basin file among the embedded ones.
const demoFile = "basin.yaml"

// Demo is an invented watershed of sixty units, three soils, a ditch network and one
// tributary; the weather of its station is the caller's to supply. It panics when an
// embedded file is at fault, which a test rules out.
func Demo() *Basin {
	b, err := Read(demoFile, bytes.NewReader(DemoFile(demoFile)), OpenDemo)
	if err != nil {
		panic(err)
	}
	return b
}

// OpenDemo opens a file of the demo by the name that its basin file gives it.
func OpenDemo(name string) (io.ReadCloser, error) { return demo.Open("demo/" + name) }

// DemoFile is the text of a file of the demo: basin.yaml, units.geojson, reaches.csv.
// It panics when there is none of that name.
func DemoFile(name string) []byte {
	data, err := demo.ReadFile("demo/" + name)
	if err != nil {
		panic(err)
	}
	return data
}
