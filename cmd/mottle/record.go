package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"

	"github.com/spf13/cobra"

	"mottle/sim/compare"
	"mottle/weather"
)

// recordFlags name the weather of a run.
type recordFlags struct {
	Weather      string `json:"weather"`
	Station      string `json:"station"`
	WeatherUnits string `json:"weather_units"`
	Hourly       string `json:"hourly"`
}

// add puts them on a command.
func (o *recordFlags) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.Weather, "weather", "", "weather `file`, plain or gzip, in a layout of: mottle help weather-files")
	f.StringVar(&o.Hourly, "hourly", "", "`file` of hourly precipitation beside the daily record")
	pickFlags(cmd, &o.Station, &o.WeatherUnits)
}

// weatherSources are the files that a record came from.
type weatherSources struct {
	Daily  source
	Hourly *source // nil for none
}

// read reads the record, or invents the demo's when none is named.
func (o recordFlags) read() (compare.Record, weatherSources, error) {
	p, errPick := pick(o.Station, o.WeatherUnits)
	s, report, from, err := readWeather(o.Weather, p)
	if err := errors.Join(errPick, err); err != nil {
		return compare.Record{}, weatherSources{}, err
	}
	r, sources := compare.Record{Series: s, Report: report}, weatherSources{Daily: from}
	if o.Hourly == "" {
		return r, sources, nil
	}
	data, err := os.ReadFile(o.Hourly)
	if err != nil {
		return r, sources, badInput(ofFile(err))
	}
	hourly := sourceOf(o.Hourly, data)
	sources.Hourly = &hourly
	r.Hourly = func(s *weather.Series) (*weather.Series, []string, error) {
		return s.WithHourly(o.Hourly, bytes.NewReader(data))
	}
	return r, sources, nil
}

// Demo weather: forty years of the invented climate, a fifth wetter than its
// table, from a fixed seed.
const (
	demoYears  = 40
	demoStart  = 1981
	demoWetter = 1.2
	demoSeed   = 1
)

func demoWeather() *weather.Series {
	return weather.Invent(weather.DemoClimate().Wetter(demoWetter), weather.NewDate(demoStart, 1, 1), demoYears, demoSeed)
}

// readWeather reads a weather file, or invents the demo's when no name is given.
func readWeather(name string, pick weather.Pick) (*weather.Series, *weather.Report, source, error) {
	if name == "" {
		s := demoWeather()
		var b bytes.Buffer
		if err := s.WritePlain(&b); err != nil {
			return nil, nil, source{}, err
		}
		return s, nil, sourceOf("invented by the weather generator", b.Bytes()), nil
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, nil, source{}, badInput(ofFile(err))
	}
	defer file.Close()
	sum := sha256.New()
	s, report, err := weather.Read(name, io.TeeReader(file, sum), pick)
	if err != nil {
		return nil, nil, source{}, badInput(ofFile(err))
	}
	if _, err := io.Copy(sum, file); err != nil { // what the reader did not need
		return nil, nil, source{}, badInput(ofFile(err))
	}
	return s, report, source{Name: name, SHA256: hex.EncodeToString(sum.Sum(nil))}, nil
}
