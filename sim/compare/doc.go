// Package compare runs the pair: the same field, weather and first day, as it
// lies and with tile, and says what differs, how sure that is, and how far it
// hangs on what nobody measured.
package compare
