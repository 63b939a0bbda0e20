package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"mottle/soil"
	"mottle/weather"
)

// brokenFolder holds the broken inputs, each with its expected error beside it.
var brokenFolder = filepath.Join("..", "..", "testdata", "broken")

// Bounds of what a broken input may take.
const (
	longestRead = 5 * time.Second
	mostMemory  = 200 << 20 // bytes
	mostLines   = 51        // fifty faults, and how many more
)

// brokenPicks are what is asked for beside a file.
var brokenPicks = map[string]string{
	"ghcn-station-not-there.csv": "USC00999999", "long-station-not-there.csv": "USC00999999", "daymet-station-not-there.csv": "USC00999999",
	"plain-station-not-there.csv": "USC00999999", "located-station-not-there.csv": "USC00999999", "openmeteo-station-not-there.csv": "USC00999999",
	"map-unit-not-there.csv": "7", "component-not-there.csv": "Fabula",
}

// brokenReaders read a file as the program does, by the folder of the file.
var brokenReaders = map[string]func(name string, r io.Reader) error{
	"weather": func(name string, r io.Reader) error {
		_, _, err := weather.Read(name, r, weather.Pick{Station: brokenPicks[name]})
		return err
	},
	"soil": func(name string, r io.Reader) error {
		pick := soil.SurveyPick{MapUnit: brokenPicks[name]}
		if strings.HasPrefix(name, "component") {
			pick = soil.SurveyPick{Component: brokenPicks[name]}
		}
		_, err := soil.ReadSurvey(name, r, pick)
		return err
	},
}

// brokenFiles lists the inputs of a folder; each has a file of its error, and no such
// file stands alone.
func brokenFiles(t *testing.T, folder string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(brokenFolder, folder))
	if err != nil {
		t.Fatal(err)
	}
	has := map[string]bool{}
	for _, e := range entries {
		has[e.Name()] = true
	}
	for _, e := range entries {
		file, isWant := strings.CutSuffix(e.Name(), ".want")
		switch {
		case isWant && !has[file]:
			t.Errorf("%s stands without its input", e.Name())
		case !isWant && !has[file+".want"]:
			t.Errorf("%s stands without its error", file)
		case !isWant:
			names = append(names, file)
		}
	}
	return names
}

// broken returns a file and the first line of its error, "" where it is sound.
func broken(t *testing.T, folder, name string) (data []byte, want string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(brokenFolder, folder, name))
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(brokenFolder, folder, name+".want"))
	if err != nil {
		t.Fatal(err)
	}
	return data, strings.TrimSuffix(string(text), "\n")
}

// TestBroken reads every broken input and compares the first line of the error. All
// lines name the file, what was found and what is allowed, none says the same again,
// and neither time nor memory run away.
func TestBroken(t *testing.T) {
	for folder, least := range map[string]int{"weather": 70, "soil": 12} {
		names := brokenFiles(t, folder)
		if len(names) < least {
			t.Errorf("%s: %d inputs, want %d", folder, len(names), least)
		}
		for _, name := range names {
			data, want := broken(t, folder, name)
			err := bounded(t, name, func() error { return brokenReaders[folder](name, bytes.NewReader(data)) })
			checkError(t, name, want, err)
		}
	}
}

// bounded runs a reader within the bounds. What is allocated in all is never less
// than what is held at any time.
func bounded(t *testing.T, name string, read func() error) error {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	start := time.Now()
	err := read()
	took := time.Since(start)
	runtime.ReadMemStats(&after)
	if n := after.TotalAlloc - before.TotalAlloc; n > mostMemory || took > longestRead {
		t.Errorf("%s: %v and %d MB; allowed %v and %d MB", name, took, n>>20, longestRead, mostMemory>>20)
	}
	return err
}

// checkError compares the first line of an error, and looks at the form of all.
func checkError(t *testing.T, name, want string, err error) {
	t.Helper()
	if want == "" || err == nil {
		if (want == "") != (err == nil) {
			t.Errorf("%s: error\n%v\nwant\n%s", name, err, want)
		}
		return
	}
	lines := strings.Split(err.Error(), "\n")
	if lines[0] != want {
		t.Errorf("%s: error\n%s\nwant\n%s", name, lines[0], want)
	}
	if len(lines) > mostLines {
		t.Errorf("%s: %d lines, want at most %d", name, len(lines), mostLines)
	}
	for i, line := range lines {
		more := i == mostLines-1 && strings.HasSuffix(line, " more")
		place := strings.HasPrefix(line, name+":") || strings.HasPrefix(line, name+"/") // a file of an archive
		found, allowed := strings.Index(line, ": found "), strings.Index(line, "; allowed ")
		if !more && !(place && found > 0 && allowed > found) || slices.Contains(lines[:i], line) {
			t.Errorf("%s: line %d is said before, or is not name: found; allowed: %s", name, i+1, line)
		}
	}
}

// brokenLayouts are the first words of the names of weather files, by layout.
var brokenLayouts = map[string]string{
	"Mottle plain CSV": "plain", "GHCN-Daily station CSV": "ghcn", "NOAA daily summaries CSV": "summary",
	"NOAA daily summaries CSV, older layout": "oldsummary", "GHCN-Daily fixed width": "dly", "GHCN-Daily long CSV": "long",
	"Daymet pixel CSV": "daymet", "USCRN daily": "uscrn", "NASA POWER daily point CSV": "power", "gridMET point CSV": "gridmet",
	"Open-Meteo daily CSV": "openmeteo", "Environment Canada daily CSV": "eccc", "daily CSV with a location column": "located",
}

// TestBrokenCoversLayouts: no layout is without the faults that any record can have.
func TestBrokenCoversLayouts(t *testing.T) {
	names := brokenFiles(t, "weather")
	for _, layout := range weather.Layouts() {
		first := brokenLayouts[layout]
		if first == "" {
			t.Errorf("no broken input of %s", layout)
			continue
		}
		for _, alternatives := range [][]string{
			{"cut-in-row"}, {"extremes-exchanged"}, {"all-missing"}, {"day-twice", "element-twice", "month-twice"}, {"header-only", "element-only"},
			{"in-fahrenheit", "in-kelvin"}, {"column-renamed", "column-missing", "element-missing"}, {"semicolons", "tabs", "blanks-squeezed"},
		} {
			if !slices.ContainsFunc(names, func(name string) bool {
				return slices.ContainsFunc(alternatives, func(fault string) bool { return strings.HasPrefix(name, first+"-"+fault+".") })
			}) {
				t.Errorf("%s: no input %s-%s", layout, first, strings.Join(alternatives, ", or "))
			}
		}
	}
}

// TestBrokenCommand gives some of the inputs to the program itself: status 2, the lines
// of the error on standard error, nothing on standard output, and no file written.
func TestBrokenCommand(t *testing.T) {
	for _, name := range []string{
		"plain-mixed-with-ghcn.csv", "plain-in-kelvin.csv", "plain-cut-in-stream.csv.gz", "plain-utf16-no-mark.csv", "ghcn-two-stations.csv",
		"ghcn-date-us-order.csv", "daymet-extremes-exchanged.csv", "openmeteo-hourly.csv", "archive-of-a-link.tar.gz", "archive-bad-file.tar.gz",
		"any-page.html", "any-workbook.xlsx", "any-empty.csv",
	} {
		data, want := broken(t, "weather", name)
		err := brokenReaders["weather"](name, bytes.NewReader(data))
		checkError(t, name, want, err)
		if err == nil {
			continue
		}
		said := "mottle: " + strings.ReplaceAll(err.Error(), "\n", "\nmottle: ") + "\n"
		refused(t, name, data, said, "compare", "--weather", name, "--out", "result")
		refused(t, name, data, said, "weather", name, "--write", "plain.csv", "--out", "figures")
	}
	for _, name := range []string{"gap.csv", "shares-as-fractions.csv", "units-row.csv"} {
		data, want := broken(t, "soil", name)
		err := brokenReaders["soil"](name, bytes.NewReader(data))
		checkError(t, name, want, err)
		refused(t, name, data, "mottle: "+strings.ReplaceAll(err.Error(), "\n", "\nmottle: ")+"\n", "soil", name)
	}
}

// TestBrokenGap: a record can be read whose years do not follow each other, or that
// lacks precipitation, which hours may give; no comparison is made with it.
func TestBrokenGap(t *testing.T) {
	const head = "# latitude: 46.9\n# elevation_m: 285\ndate,tmin_C,tmax_C,precip_mm\n"
	const orFill = "mottle: or fill them all, from the nearest year, with --fill-gaps\n"
	for name, c := range map[string]struct{ text, want string }{
		"gap.csv": {head + yearOf(2001, "DATE,5,15,2\n") + yearOf(2005, "DATE,5,15,2\n"), // 2002 to 2004 are 1096 days
			"mottle: gap.csv: fill weather: 3 gaps are longer than 7 days: choose other years or another station, or allow long gaps, which then take the values of the nearest year\n" +
				"mottle:   first: Tmin from 2002-01-01, 1096 days\nmottle:   first: Tmax from 2002-01-01, 1096 days\nmottle:   first: precipitation from 2002-01-01, 1096 days\n" + orFill},
		"dry.csv": {head + yearOf(2001, "DATE,5,15,\n") + yearOf(2002, "DATE,5,15,\n"),
			"mottle: dry.csv: precipitation: the record has none; fill it from a neighbour (mottle weather --fill) or give its hours (--hourly)\n"},
	} {
		if err := brokenReaders["weather"](name, strings.NewReader(c.text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		refused(t, name, []byte(c.text), c.want, "compare", "--weather", name, "--out", "result")
	}
}

// refused runs the program beside a file alone in its folder.
func refused(t *testing.T, name string, data []byte, said string, args ...string) {
	t.Helper()
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("mottle", args...) // TestMain puts it in the path
	var stdout, stderr bytes.Buffer
	cmd.Dir, cmd.Stdout, cmd.Stderr = folder, &stdout, &stderr
	err := cmd.Run()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != 2 || stdout.Len() > 0 {
		t.Errorf("mottle %s: %v, standard output %q; want status 2 and nothing", strings.Join(args, " "), err, stdout.String())
	}
	if diff := cmp.Diff(said, stderr.String()); diff != "" {
		t.Errorf("mottle %s: standard error (-want +got):\n%s", strings.Join(args, " "), diff)
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) != 1 {
		t.Errorf("mottle %s: %v, %d files; want none but %s", strings.Join(args, " "), err, len(entries), name)
	}
}

// yearOf writes a row for each day of a year; DATE stands for the day.
func yearOf(year int, row string) string {
	var b strings.Builder
	for d := weather.NewDate(year, 1, 1); d.Year() == year; d++ {
		b.WriteString(strings.ReplaceAll(row, "DATE", d.String()))
	}
	return b.String()
}
