package weather

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
)

// everyFile says of each file of the collection of real records what Read makes of
// it without a choice: the layout, or after "!" what the error says. The reasons are
// those of the collection's own list of traps.
var everyFile = []struct{ pattern, want string }{
	{"ghcnd-access/*.csv.gz", layoutGHCN},
	{"ghcnd-dly/EZM00011518.dly", layoutDly},
	{"ghcnd-long/USW00014922_msp_2014_long.csv", layoutLong},
	{"derived/msp_2014.dly", layoutDly},
	{"derived/msp_2014_access-wide.csv", layoutGHCN},
	{"derived/msp_2014_by-year-long.csv", layoutLong},
	{"derived/msp_2014_cdo-metric.csv", layoutSummary},
	{"derived/msp_2014_cdo-standard.csv", layoutSummary},
	{"cdo/*_2stations.csv", "!choice of one with --station: USC00182336 DAMASCUS 3 SSW, MD US (2300 days); USC00181125 BRIGHTON DAM, MD US (1870 days)"},
	{"uscrn/*.csv", layoutUSCRN},
	{"daymet/*.csv", layoutDaymet},
	{"eccc/*", layoutECCC},
	{"gsom/*.csv", "!this is a monthly summary, take the station's daily file"},
	{"nasa-power/*_headerless.csv", layoutPower},
	{"nasa-power/*_point*.csv", `!column PRECTOTCORR: found "no such column"`},
	{"open-meteo/*_daily.csv", `!column precipitation_sum: found "no such column"`},
	{"open-meteo/*_HOURLY_*.csv", "!hourly"},
	{"registry/vega-*.csv", "!choice of one with --station: New York (1461 days); Seattle (1461 days)"},
	{"registry/modeldata-*.csv", "!a mean rate of precipitation"},
	{"README.md", "!no such column"}, // text with a heading looks like comment lines
}

// TestEveryFile: each file of the collection reads, or is refused with its reason,
// and none is left out of the table.
func TestEveryFile(t *testing.T) {
	root := os.DirFS(filepath.Join("..", "..", "shared", "weather"))
	if _, err := fs.Stat(root, "."); err != nil {
		t.Skip("no collection of real records here")
	}
	used := make([]bool, len(everyFile))
	err := fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		want := ""
		for i, c := range everyFile {
			if fits, _ := path.Match(c.pattern, name); fits {
				want, used[i] = c.want, true
			}
		}
		data, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		s, _, err := Read(name, bytes.NewReader(data), Pick{})
		reason, refused := strings.CutPrefix(want, "!")
		switch {
		case want == "":
			t.Errorf("%s: not in the table", name)
		case refused && (err == nil || !strings.Contains(err.Error(), reason)):
			t.Errorf("%s: error %v lacks %q", name, err, reason)
		case !refused && err != nil:
			t.Errorf("%s: %v", name, err)
		case !refused && s.Layout != want:
			t.Errorf("%s: read as %s, want %s", name, s.Layout, want)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range everyFile {
		if !used[i] {
			t.Errorf("no file %s", c.pattern)
		}
	}
}
