package main

import (
	"fmt"
	"os"
	"time"

	"golang.org/x/term"
)

// progress tells a terminal how far a long run is, and nobody else; wipe takes
// the line away again.
func progress() (tell func(done, total float64), wipe func()) {
	if !term.IsTerminal(int(os.Stderr.Fd())) {
		return nil, func() {}
	}
	const quiet, every = time.Second, 200 * time.Millisecond
	began, shown := time.Now(), time.Time{}
	tell = func(done, total float64) {
		now := time.Now()
		if now.Sub(began) < quiet || now.Sub(shown) < every {
			return
		}
		shown = now
		left := time.Duration(float64(now.Sub(began)) * (total - done) / done)
		fmt.Fprintf(os.Stderr, "\r\033[K%3.0f %% of %.0f field-years, %s left", 100*done/total, total, left.Round(time.Second))
	}
	wipe = func() {
		if !shown.IsZero() {
			fmt.Fprint(os.Stderr, "\r\033[K")
		}
	}
	return tell, wipe
}
