package site

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the lines beside the broken fields anew")

// soon is far more than any file needs: the slowest take a twentieth of a second.
const soon = 5 * time.Second

// TestBroken: each broken file gives exactly the lines beside it, one a fault, each
// with the line of the file that it is about, in bounded time.
func TestBroken(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(fields, "broken", "*.yaml"))
	if err != nil || len(files) < 70 {
		t.Fatalf("found %d broken files (%v); there are more", len(files), err)
	}
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) { broken(t, path) })
	}
}

func broken(t *testing.T, path string) {
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	began := time.Now()
	f, err := ReadField(filepath.Base(path), bytes.NewReader(data))
	if took := time.Since(began); took > soon {
		t.Errorf("took %v", took)
	}
	if err == nil {
		t.Fatal("read without a fault")
	}
	if !cmp.Equal(f, Field{}) {
		t.Error("a field beside the fault")
	}
	wantPath := strings.TrimSuffix(path, ".yaml") + ".want"
	if *update {
		if err := os.WriteFile(wantPath, []byte(err.Error()+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, readErr := os.ReadFile(wantPath)
	if readErr != nil {
		t.Fatal(readErr)
	}
	if diff := cmp.Diff(string(want), err.Error()+"\n"); diff != "" {
		t.Error(diff)
	}
	text := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.TrimPrefix(string(data), "\ufeff"))
	lines := strings.Split(text, "\n")
	for _, fault := range Faults(err) {
		if strings.Contains(fault.Error(), "\n") {
			t.Errorf("%q: more than a line", fault.Error())
		}
		if fault.Line == 0 {
			continue
		}
		// What cannot be shown is replaced, and a very long line is cut.
		shown := strings.TrimSuffix(fault.Source, "...")
		if strings.ContainsRune(shown, '\ufffd') {
			continue
		}
		if stands := lines[fault.Line-1]; !strings.HasPrefix(stands, shown) || len(shown) == 0 && len(stands) > 0 {
			t.Errorf("line %d: shown %q, there stands %.200q", fault.Line, fault.Source, stands)
		}
	}
}

// TestSound: marks and ends of lines of any editor, JSON, and YAML's directives
// are read alike (YAML 1.2.2, sections 5.2, 5.4 and 6.8).
func TestSound(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(fields, "sound", "*.yaml"))
	if err != nil || len(files) < 5 {
		t.Fatalf("found %d files (%v)", len(files), err)
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		f, err := ReadField(filepath.Base(path), bytes.NewReader(data))
		if err != nil {
			t.Error(err)
			continue
		}
		if f.Restrictive != 2 || f.Tile.Depth != 1.0668 { // 3.5 ft of 0.3048 m
			t.Errorf("%s: restrictive layer %g m, tile %g m deep", path, f.Restrictive, f.Tile.Depth)
		}
	}
}

// endless is a reader of blank lines without an end that counts what was taken.
type endless struct{ taken int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '\n'
	}
	e.taken += len(p)
	return len(p), nil
}

// TestTooLong: what is no field file, of ten megabytes or without an end, is not
// read to its end.
func TestTooLong(t *testing.T) {
	for name, text := range map[string]string{"35 kB": strings.Repeat("# line\n", 5000), "10 MB": strings.Repeat("name: x\n", 10<<20/8)} {
		_, err := ReadField("long.yaml", strings.NewReader(text))
		if err == nil || err.Error() != "long.yaml: found more than 16384 bytes; allowed a field file: is it the right one?" {
			t.Errorf("%s: got %v", name, err)
		}
	}
	var e endless
	if _, err := ReadField("long.yaml", &e); err == nil || e.taken > 1<<20 {
		t.Errorf("got %v after %d bytes", err, e.taken)
	}
}

// TestFaults: an error is taken apart into what it joins.
func TestFaults(t *testing.T) {
	one := &Fault{Key: "name", Text: "found nothing"}
	list := Faults(errors.Join(one, errors.New("the disk is gone")))
	if len(list) != 2 || list[0] != one || list[1].Error() != "the disk is gone" || Faults(nil) != nil {
		t.Errorf("got %v", list)
	}
}

// FuzzReadField: any text gives a field that passes its own checks, or faults
// that begin with the file's name.
func FuzzReadField(f *testing.F) {
	for _, pattern := range []string{fields + "/*.yaml", fields + "/broken/*.yaml", fields + "/sound/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatalf("%s: %d files, %v", pattern, len(files), err)
		}
		for _, path := range files {
			data, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Add(demo)
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := ReadFile("x.yaml", bytes.NewReader(data))
		if err == nil {
			if err := file.Field.Validate(); err != nil {
				t.Error(err)
			}
			for _, w := range file.Warnings(nil) {
				if w.Text == "" || w.Line == 0 {
					t.Errorf("warning %+v", w)
				}
			}
			return
		}
		for _, fault := range Faults(err) {
			if fault.File != "x.yaml" || strings.Contains(fault.Error(), "\n") {
				t.Error(fault)
			}
		}
	})
}
