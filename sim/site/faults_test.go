package site

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the .want files of the broken fields anew")

// TestBroken: each broken file gives exactly the lines beside it.
func TestBroken(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(fields, "broken", "*.yaml"))
	if err != nil || len(files) < 20 {
		t.Fatalf("found %d broken files (%v); there are more", len(files), err)
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		f, err := ReadField(filepath.Base(path), bytes.NewReader(data))
		if err == nil {
			t.Errorf("%s: read without a fault", path)
			continue
		}
		if !cmp.Equal(f, Field{}) {
			t.Errorf("%s: a field beside the fault", path)
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
			t.Errorf("%s:\n%s", path, diff)
		}
	}
}

// TestTooLong: what is no field file is not read to its end.
func TestTooLong(t *testing.T) {
	_, err := ReadField("long.yaml", strings.NewReader(strings.Repeat("# line\n", 5000)))
	if err == nil || !strings.HasPrefix(err.Error(), "long.yaml: found more than 16384 bytes") {
		t.Errorf("got %v", err)
	}
}

// FuzzReadField: any text gives a field that passes its own checks, or faults
// that begin with the file's name.
func FuzzReadField(f *testing.F) {
	for _, pattern := range []string{"*.yaml", "broken/*.yaml"} {
		files, err := filepath.Glob(filepath.Join(fields, pattern))
		if err != nil {
			f.Fatal(err)
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
		field, err := ReadField("x.yaml", bytes.NewReader(data))
		if err == nil {
			if err := field.Validate(); err != nil {
				t.Error(err)
			}
			return
		}
		if !strings.HasPrefix(err.Error(), "x.yaml:") {
			t.Error(err)
		}
	})
}
