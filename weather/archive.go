package weather

import (
	"archive/tar"
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"path"
	"slices"
	"strings"
)

// mostFiles is how many files an archive of one record may hold, one a month of
// three centuries; common practice.
const mostFiles = 4000

// tarBlock is the size of a header in a tar archive, bytes.
const tarBlock = 512

// isArchive recognises a tar archive (POSIX ustar, and GNU's form of it).
func isArchive(content *bufio.Reader) bool {
	const at = 257 // of the magic word in the first header
	head, _ := content.Peek(tarBlock)
	empty := len(head) == tarBlock && bytes.Count(head, []byte{0}) == tarBlock // an archive of nothing
	return empty || len(head) >= at+5 && string(head[at:at+5]) == "ustar"
}

// readArchive reads the files of an archive, such as one for each year, and joins
// them to one record.
func readArchive(content io.Reader, pick Pick, f *faults) *record {
	var whole *joiner
	var passed []string // entries that are no files
	archive := tar.NewReader(content)
	for files := 0; ; {
		entry, err := archive.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			f.list = append(f.list, inFile(f.name, damaged("an archive", err)))
			return nil
		}
		switch {
		case entry.Typeflag == tar.TypeDir, strings.HasPrefix(path.Base(entry.Name), "."): // dot files are what some systems add beside each file
			continue
		case entry.Typeflag != tar.TypeReg:
			passed = append(passed, entry.Name)
			continue
		}
		if files++; files > mostFiles {
			f.add(Fault{Found: fmt.Sprintf("more than %d files", mostFiles), Allowed: "the files of one record"})
			return nil
		}
		part := readPart(archive, &faults{name: f.name + "/" + entry.Name}, pick, f)
		if part == nil {
			if len(f.list) >= maxFaults {
				return nil
			}
			continue
		}
		if whole == nil {
			whole = &joiner{record: part, f: f, from: entry.Name, seen: map[Date]int{}}
			whole.remember(0)
			continue
		}
		whole.join(part, entry.Name)
		if len(whole.rows) > mostRows {
			f.add(Fault{Found: fmt.Sprintf("more than %d rows", mostRows), Allowed: "one row a day of one station"})
			return nil
		}
	}
	switch {
	case f.any():
		return nil
	case whole == nil:
		f.add(Fault{Found: "an archive without files", Allowed: "the files of one record", Mend: "pack the files themselves, no folders or links"})
		return nil
	}
	rec := whole.finished()
	if len(passed) > 0 {
		rec.notes = append(rec.notes, fmt.Sprintf("%d entries of the archive are links or devices and were not followed, the first is %.80q", len(passed), passed[0]))
	}
	return rec
}

// readPart reads one file of an archive; its faults go to those of the archive.
func readPart(content io.Reader, own *faults, pick Pick, all *faults) *record {
	text, err := decode(content)
	if err != nil {
		all.list = append(all.list, inFile(own.name, err))
		return nil
	}
	split := newSplitter(text)
	part := detect(text).read(split, pick, own)
	if split.failed != nil {
		own.list = append(own.list, inFile(own.name, split.failed))
	}
	if own.any() {
		all.list, all.more = append(all.list, own.list...), all.more+own.more
		return nil
	}
	if part.finish != nil { // our own plain layout, whose head speaks for the whole series
		own.add(Fault{Found: "the layout " + part.layout, Allowed: "files of an agency", Mend: "join our plain files to one, under one header"})
		all.list = append(all.list, own.list...)
		return nil
	}
	return part
}

// joiner lays the files of one record together.
type joiner struct {
	*record
	f     *faults
	from  string       // name of the file before
	seen  map[Date]int // place of each day in rows
	moved []string     // notes on changes of station
	twice int          // days with a reading of two stations
}

// remember notes the days of the rows from one on.
func (j *joiner) remember(from int) {
	for i := from; i < len(j.rows); i++ {
		j.seen[j.rows[i].date] = i
	}
}

// longestHandover is how many days two stations of one place may both report when
// one takes over from the other; common practice.
const longestHandover = 31

// join adds a file. A day that a file before has too takes what was missing there.
// Where both have a value it must be the same, except while one station takes over
// from another at the same place, when the one before it is kept.
func (j *joiner) join(part *record, name string) {
	if part.layout != j.layout {
		j.f.add(Fault{Found: part.layout + " in " + name, Allowed: j.layout + ", as in " + j.from, Mend: "keep the files of one record in the archive"})
		return
	}
	other := part.station.ID != j.station.ID
	if other && !samePlace(part.station, j.station) {
		j.f.add(Fault{Found: fmt.Sprintf("station %s in %s", part.station.ID, name), Allowed: fmt.Sprintf("station %s, as in %s", j.station.ID, j.from),
			Mend: "keep the files of one place in the archive"})
		return
	}
	if other {
		j.moved = append(j.moved, fmt.Sprintf("station %s (%s) goes on as %s (%s) in %s", j.station.ID, j.station.Name, part.station.ID, part.station.Name, name))
	}
	before := len(j.rows)
	for _, r := range part.rows {
		i, has := j.seen[r.date]
		if !has {
			j.rows = append(j.rows, r)
			continue
		}
		switch differ := j.rows[i].take(&r); {
		case differ && other && j.twice < longestHandover:
			j.twice++
		case differ:
			j.f.add(Fault{Found: fmt.Sprintf("%v, line %d of %s", r.date, r.line, name), Allowed: "each day once", Mend: "another file of the archive gives the day other values, keep one"})
		}
	}
	j.remember(before)
	j.totals = append(j.totals, part.totals...)
	j.notes = append(j.notes, part.notes...)
	for i := range part.tallies {
		j.tallies[i].n += part.tallies[i].n
	}
	j.station, j.from = part.station, name
}

// samePlace tells whether two stations stand within about 5 km, when one is taken
// to have replaced the other.
func samePlace(a, b Station) bool {
	const near = 0.05 // deg
	return math.Abs(a.Latitude-b.Latitude) <= near && math.Abs(a.Longitude-b.Longitude) <= near
}

// finished returns the record with each note once.
func (j *joiner) finished() *record {
	notes := j.moved
	for _, note := range j.notes {
		if !slices.Contains(notes, note) {
			notes = append(notes, note)
		}
	}
	j.notes = notes
	if j.twice > 0 {
		j.notes = append(j.notes, fmt.Sprintf("%d days have readings of both stations, those of the one before were kept", j.twice))
	}
	return j.record
}

// take takes from another row of the same day what is missing in this one, and
// tells whether they differ in what both have.
func (r *row) take(o *row) (differ bool) {
	mine := []*float64{&r.tmin, &r.tmax, &r.precip, &r.solar, &r.vapour, &r.wind, &r.snowDepth}
	empty := math.IsNaN(r.precip)
	for i, theirs := range o.values() {
		switch {
		case math.IsNaN(*mine[i]):
			*mine[i] = theirs
		case !math.IsNaN(theirs) && theirs != *mine[i]:
			differ = true
		}
	}
	if empty {
		r.marks |= o.marks
	}
	r.rejected, r.outOfRange = r.rejected+o.rejected, r.outOfRange+o.outOfRange
	return differ
}
