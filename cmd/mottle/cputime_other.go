//go:build !unix

package main

import "time"

var started = time.Now()

// cpuSeconds is the time since the program began, s: this system tells no
// processor time by the standard library.
func cpuSeconds() float64 { return time.Since(started).Seconds() }
