package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"mottle/plots"
	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/sim/worth"
)

// worthFlags are the command's options beside those of a comparison.
type worthFlags struct {
	compareFlags
	Quick bool `json:"quick"`
}

func newWorth() *cobra.Command {
	var o worthFlags
	cmd := &cobra.Command{
		Use:   "worth [field.yaml]",
		Short: "Say whether tile pays on this ground, with its chance, range and cautions",
		Long: `Worth goes from the pair of runs to a decision: crop seasons with and without tile,
what each loses and to what, what that is worth, what the tile costs, a map of
depth and spacing, what other outlets, a weir or a surface drain would do, and the
chance that it pays, over weather years drawn in blocks together with prices, costs
and what nobody measured of the soil. Prices, yields and costs stand in the farm
section of the field file, each with its range; what is left out is assumed and
printed. Without a field file the invented demo is judged.

--out writes one page that prints on two sheets, its figures and tables, and run.json,
which holds the whole decision in SI units. It is a calculation: no design, permit,
survey or advice on tax.`,
		Example: `  mottle worth
  mottle worth field.yaml --weather station.csv --out page/
  mottle worth field.yaml --weather station.csv --spacing "60 ft" --units us --quick`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return runWorth(cmd, fileName(args), o) },
	}
	f := cmd.Flags()
	o.pairFlags(cmd)
	f.BoolVar(&o.Quick, "quick", false, "the central answer and the map alone, without ranges, chances and alternatives")
	return cmd
}

func runWorth(cmd *cobra.Command, name string, o worthFlags) error {
	in, err := readInput(cmd, name, o.compareFlags)
	if err != nil {
		return err
	}
	tell, wipe := stages()
	before := cpuSeconds()
	view := func(r *worth.Result) *view {
		return newView(r.Compare, in.units, in.fieldSource, in.weatherSources, cpuSeconds()-before)
	}
	r, err := worth.Run(cmd.Context(), in.field, in.series, worth.Options{Units: in.units, Quick: o.Quick, Progress: tell, First: func(r *worth.Result) error {
		if o.Out == "" {
			return nil
		}
		wipe()
		if err := writeWorth(o.Out, r, view(r), in, o); err != nil {
			return err
		}
		_, err := fmt.Fprintf(cmd.ErrOrStderr(), "%s holds the central answer; ranges and chances follow\n", filepath.Join(o.Out, "page.html"))
		return err
	}})
	wipe()
	if err != nil {
		return badInput(err)
	}
	v := view(r)
	if o.Out != "" {
		if err := writeWorth(o.Out, r, v, in, o); err != nil {
			return err
		}
	}
	if o.Format == "json" {
		return writeWorthJSON(cmd.OutOrStdout(), r, v, in.units)
	}
	_, err = cmd.OutOrStdout().Write(worthText(r, in.units))
	return err
}

// stages tells a terminal which part of a long run is how far.
func stages() (tell func(what string, done, total float64), wipe func()) {
	if !term.IsTerminal(int(os.Stderr.Fd())) {
		return nil, func() {}
	}
	var part string
	var began, shown time.Time
	tell = func(what string, done, total float64) {
		now := time.Now()
		if what != part {
			part, began = what, now
		}
		if now.Sub(shown) < 200*time.Millisecond || done == 0 {
			return
		}
		shown = now
		left := time.Duration(float64(now.Sub(began)) * (total - done) / done)
		fmt.Fprintf(os.Stderr, "\r\033[K%s: %3.0f %%, %s left", what, 100*done/total, left.Round(time.Second))
	}
	return tell, func() {
		if !shown.IsZero() {
			fmt.Fprint(os.Stderr, "\r\033[K")
		}
	}
}

// worthManifest is run.json of a decision.
type worthManifest struct {
	Command    string         `json:"command"`
	Version    string         `json:"version"`
	Go         string         `json:"go"`
	Platform   string         `json:"platform"`
	Flags      worthFlags     `json:"flags"`
	FieldText  string         `json:"field_text"`
	StormSeed  uint64         `json:"storm_seed"`
	StormDraw  int            `json:"storm_draw"`
	Comparison *view          `json:"comparison"`
	Decision   map[string]any `json:"decision"`
}

// writeWorth writes the page with its figures, tables and manifest, each whole or not
// at all.
func writeWorth(dir string, r *worth.Result, v *view, in *input, o worthFlags) error {
	page, err := plots.WorthPage(r, in.units == unit.US)
	if err != nil {
		return err
	}
	figures, err := plots.WorthFigures(r, in.units == unit.US)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return ofFile(err)
	}
	write := func(name string, content func(io.Writer) error) error {
		return writeWhole(filepath.Join(dir, name), content)
	}
	faults := []error{write("page.html", plain(page)), write("yearly.csv", v.writeYearly), writeFigures(write, figures)}
	for name, rows := range plots.WorthTables(r) {
		faults = append(faults, write(name, func(w io.Writer) error {
			c := csv.NewWriter(w)
			return errors.Join(c.WriteAll(rows), c.Error())
		}))
	}
	m := worthManifest{"worth", v.Version, runtime.Version(), runtime.GOOS + "/" + runtime.GOARCH, o, in.fieldText,
		r.Field.Storms.Seed, r.Field.Storms.Draw, v, decision(r, in.units)}
	return errors.Join(append(faults, write("run.json", indented(m)))...)
}

// decision is everything of a result but the daily runs, fit for JSON: SI units, null
// for what is not known, "infinite" for what has no end.
func decision(r *worth.Result, u unit.System) map[string]any {
	copied := *r
	copied.Compare, copied.Field = nil, nil
	d := tidy(copied).(map[string]any)
	delete(d, "compare") // stands beside it
	delete(d, "field")
	d["answer"] = plots.WorthSentence(r, u == unit.US)
	d["gain"] = tidy(r.Gain())
	return d
}

func writeWorthJSON(w io.Writer, r *worth.Result, v *view, u unit.System) error {
	return indented(map[string]any{"comparison": v, "decision": decision(r, u)})(w)
}

// worthText is the decision for a terminal.
func worthText(r *worth.Result, u unit.System) []byte {
	var b bytes.Buffer
	f := r.Field
	fmt.Fprintln(&b, title(f.Name, "", f.Invented || r.Compare.Series.Invented))
	b.WriteString(wrap(plots.WorthSentence(r, u == unit.US), textWidth, "") + "\n\n")

	money := func(x float64, siUnit string) string {
		if math.IsInf(x, 0) {
			return "no price or gain would"
		}
		return u.Format(x, siUnit)
	}
	m := r.Money
	rows := [][]string{
		{"outlay", money(m.PerArea, "USD/ha"), fmt.Sprintf("%.0f USD on ", m.Outlay) + u.Format(f.Farm.Drained/1e4, "ha")},
		{"extra income, mean year", money(m.Income, "USD/ha"), ""},
		{"lost to wetness as it lies, a year", money(m.DoingNothing, "USD/ha"), "late planting included"},
		{"net present value", money(m.NPV, "USD/ha"), ""},
		{"internal rate of return", share(m.Rate), ""},
		{"payback", m.Simple.String(), "discounted: " + m.Discounted.String()},
		{"break-even", bushels(u, m.BreakEvenGain, "t/ha", f), "of " + f.Rotation[0].Name + " gained every year, or a price of " + bushels(u, m.BreakEvenPrice, "USD/t", f)},
	}
	writeTable(&b, rows, 1)
	if r.Futures != nil {
		fmt.Fprintf(&b, "\npaid back within")
		for _, c := range r.Futures.Pays {
			fmt.Fprintf(&b, "  %d years %.0f %%", c.Within, 100*c.Share)
		}
		fmt.Fprintf(&b, "  (%d futures, seed %d)\n", r.Futures.Draws, r.Futures.Seed)
	}
	b.WriteString("\nGains weighed elsewhere, at this field's prices and costs (the answer is not fitted to them):\n")
	rows = nil
	for _, t := range r.Trials {
		npv := "a crop of the rotation was not grown there"
		if !math.IsNaN(t.Low) {
			npv = money(t.Low, "USD/ha") + " to " + money(t.High, "USD/ha")
		}
		rows = append(rows, []string{t.Place, t.Soil, npv})
	}
	writeTable(&b, rows, 2)
	if best := r.Map.Best; !math.IsInf(best.NPV, 0) {
		fmt.Fprintf(&b, "\nbest of the map: %s deep, %s apart, %s; %d of %d designs come within a tenth of the outlay\n",
			u.Format(best.Depth, "m"), u.Format(best.Spacing, "m"), money(best.NPV, "USD/ha"), len(r.Map.Flat), len(r.Map.Depths)*len(r.Map.Spacings))
	}
	b.WriteString("\n")
	for _, q := range r.Questions {
		fmt.Fprintf(&b, "%s %s.\n%s\n", q.Ask, strings.ToUpper(string(q.Verdict)), "  "+wrap(q.Answer+" ("+q.Why+")", textWidth-2, "  "))
	}
	b.WriteString("\nBefore digging:\n")
	for _, c := range r.Cautions {
		mark := " "
		if c.Strong {
			mark = "!"
		}
		fmt.Fprintf(&b, "%s %s\n", mark, wrap(c.Topic+": "+c.Text, textWidth-2, "  "))
	}
	return b.Bytes()
}

// bushels writes a yield or price of the rotation's first crop as it is quoted.
func bushels(u unit.System, x float64, siUnit string, f *site.Field) string {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return "none that would pay"
	}
	w, _ := f.Farm.Worth(f.Rotation[0].Name)
	return u.FormatBushels(x, siUnit, w.Bushel)
}

// share is a rate in percent, "none" where there is none.
func share(x float64) string {
	if math.IsNaN(x) {
		return "none"
	}
	return fmt.Sprintf("%.1f %%", 100*x)
}
