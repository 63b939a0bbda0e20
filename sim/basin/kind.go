package basin

import (
	"bufio"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// A kind is land of one soil, cover, drainage and station: units that share it are
// run once.

// Shelf keeps the finished kinds of a basin between runs, by key.
type Shelf interface {
	// Get opens what was put under a key; false when there is nothing whole.
	Get(key string) (io.ReadCloser, bool)
	// Put stores what write writes under a key, whole or not at all.
	Put(key string, write func(io.Writer) error) error
}

// kindRun is what a simulated kind leaves: a head, then blocks by calendar year.
type kindRun struct {
	Years    []int       // the complete calendar years
	Measures []string    // names of sim.Measures
	Yearly   [][]float64 // by measure and complete year
}

// kindYear is a calendar year of the record, complete or not; mm over the kind.
type kindYear struct {
	Year           int
	Runoff, Drain  []float64 // by hour
	Seepage, LetIn []float64 // by day, through the base
}

// keyOf names a kind by everything that its run hangs on.
func keyOf(f *site.Field, station string, s *weather.Series) string {
	h := sha256.New()
	fmt.Fprintf(h, "kind 1\n%s\n", station)
	fingerprint(h, f)
	fingerprint(h, s)
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// met is a field that has met its weather.
type met struct {
	field  *site.Field
	series *weather.Series
}

// simulate runs a kind and writes it to w.
func simulate(ctx context.Context, m met, w io.Writer) error {
	d, err := compare.Prepare(ctx, m.field, m.series, compare.Full())
	if err != nil {
		return err
	}
	r, err := d.RunHourly(ctx, m.field.Tile)
	if err != nil {
		return err
	}
	z, err := gzip.NewWriterLevel(w, gzip.BestSpeed)
	if err != nil {
		return err
	}
	e := gob.NewEncoder(z)
	head := kindRun{}
	for _, y := range r.Years {
		head.Years = append(head.Years, y.Year)
	}
	for _, measure := range sim.Measures() {
		values := make([]float64, len(r.Years))
		for i, y := range r.Years {
			values[i] = measure.Of(r, y)
		}
		head.Measures, head.Yearly = append(head.Measures, measure.Name), append(head.Yearly, values)
	}
	if err := e.Encode(head); err != nil {
		return err
	}
	f := r.Forcing
	for i := 0; i < f.Days(); {
		j := i
		for j < f.Days() && f.Year[j] == f.Year[i] {
			j++
		}
		block := kindYear{Year: int(f.Year[i]), Runoff: r.Hourly[24*i : 24*j], Drain: r.HourlyDrain[24*i : 24*j],
			Seepage: r.Days.SeepageOut[i:j], LetIn: r.Days.LetIn[i:j]}
		if err := e.Encode(block); err != nil {
			return err
		}
		i = j
	}
	return z.Close()
}

// kindReader reads a kind year by year.
type kindReader struct {
	head   kindRun
	closer io.Closer
	d      *gob.Decoder
}

func openKind(s Shelf, key string) (*kindReader, error) {
	file, ok := s.Get(key)
	if !ok {
		return nil, fmt.Errorf("basin: the run of kind %s is gone", key)
	}
	z, err := gzip.NewReader(bufio.NewReader(file))
	if err != nil {
		file.Close()
		return nil, fmt.Errorf("basin: kind %s: %w", key, err)
	}
	r := &kindReader{closer: file, d: gob.NewDecoder(z)}
	if err := r.d.Decode(&r.head); err != nil {
		file.Close()
		return nil, fmt.Errorf("basin: kind %s: %w", key, err)
	}
	return r, nil
}

// next reads the next year, io.EOF after the last.
func (r *kindReader) next() (y kindYear, err error) { return y, r.d.Decode(&y) }

// runKinds runs the kinds that the shelf lacks, side by side.
func runKinds(ctx context.Context, shelf Shelf, kinds map[string]met, tell func(done, total int)) error {
	var missing []string
	for key := range kinds {
		if file, ok := shelf.Get(key); ok {
			if err := file.Close(); err != nil {
				return err
			}
			continue
		}
		missing = append(missing, key)
	}
	slices.Sort(missing)
	var done atomic.Int64
	var telling sync.Mutex
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.GOMAXPROCS(0))
	for _, key := range missing {
		g.Go(func() error {
			m := kinds[key]
			if err := shelf.Put(key, func(w io.Writer) error { return simulate(ctx, m, w) }); err != nil {
				return fmt.Errorf("%s: %w", m.field.Name, err)
			}
			n := done.Add(1)
			if tell != nil {
				telling.Lock()
				tell(int(n), len(missing))
				telling.Unlock()
			}
			return nil
		})
	}
	return g.Wait()
}

// errNoYears is the error of records too short to count anything by year.
var errNoYears = errors.New("weather: the records hold no complete calendar year in common")
