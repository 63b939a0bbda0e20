package site

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"mottle/soil"
)

// Draft is a field file that is still to be written: answers by the key of the
// field file ("tile.depth": "3.5 ft"), as they were typed, and the soil. Whatever
// was not answered is written as a comment with the value that stands in, so that
// it stays an assumption.
type Draft struct {
	Answers  map[string]string
	Horizons []soil.Horizon
	SoilNote string // where the soil comes from; a comment above the horizons
	Schema   string // file or address of the schema, for editors; "" for none
}

// Write writes the draft as a commented field file. It writes nothing, and returns
// the faults, each a *Fault with its key, when ReadFile would not take the file.
func (d Draft) Write(w io.Writer) error {
	var b bytes.Buffer
	d.head(&b)
	left := map[string]string{}
	maps.Copy(left, d.Answers)
	d.Answers = left
	var unused faults
	d.relation(&unused)
	d.keys(&b, survey(), "", "")
	for _, key := range slices.Sorted(maps.Keys(d.Answers)) {
		unused.add(key, "found an answer that no line of the file takes; allowed a key that holds one value")
	}
	if unused != nil {
		return unused.err()
	}
	if _, err := ReadFile("", bytes.NewReader(b.Bytes())); err != nil {
		for _, f := range Faults(err) {
			f.Line, f.Source = 0, "" // of a file that there is not
		}
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

func (d Draft) head(b *bytes.Buffer) {
	if d.Schema != "" {
		fmt.Fprintf(b, "# yaml-language-server: $schema=%s\n", d.Schema)
	}
	b.WriteString(`# A field for mottle. Values carry their units: 3.5 ft, 1.1 m, 0.5 in/d, 30 %.
# A line that begins with # is not read; where it holds a key, the value shown, or
# what is said to stand in, is assumed. Take the # away and set your own value.
`)
}

// keys writes the keys under a path, indented alike.
func (d Draft) keys(b *bytes.Buffer, r *reader, path, indent string) {
	after := text
	for _, key := range r.below(path) {
		if path == "farm.crops" && !d.grown(r, key) {
			continue
		}
		f := r.forms[key]
		k, _ := Lookup(key)
		answer, answered := d.Answers[key]
		if path == "" && (f.kind == group || after == group) {
			b.WriteByte('\n')
		}
		after = f.kind
		switch {
		case key == "soil.horizons":
			d.horizons(b, r, indent)
		case answered && f.kind != list:
			line(b, indent+last(key)+": "+f.written(answer), k.Meaning)
			r.texts[key] = answer
			delete(d.Answers, key)
		case f.kind == group:
			if k.LeftOut == "none" {
				k.Meaning += "; none while all below is left out"
			}
			line(b, indent+last(key)+":", k.Meaning)
			d.keys(b, r, key, indent+"  ")
		default:
			leftOut(b, f, k, indent)
		}
	}
}

// grown says whether a crop of the farm section is in the rotation, or answered: no
// other is written.
func (d Draft) grown(r *reader, key string) bool {
	rotation := r.forms["crop"].fallback
	if answer := r.texts["crop"]; answer != "" {
		rotation = answer
	}
	return slices.Contains(entries(rotation), last(key)) ||
		slices.ContainsFunc(slices.Collect(maps.Keys(d.Answers)), func(k string) bool { return strings.HasPrefix(k, key+".") })
}

// relation answers for horizons that were derived by another relation than stands in;
// a file holds one.
func (d Draft) relation(bad *faults) {
	const key = "soil.relation"
	for i, h := range d.Horizons {
		answer, answered := d.Answers[key]
		switch {
		case h.Relation != d.Horizons[0].Relation:
			bad.add(fmt.Sprintf("soil.horizons[%d]", i), "found relation %v below %v; allowed one relation in a file", h.Relation, d.Horizons[0].Relation)
		case h.Relation == soil.SaxtonRawls2006 || answer == h.Relation.String():
		case answered:
			bad.add(key, "found %.80q; the horizons are of %v", answer, h.Relation)
		default:
			d.Answers[key] = h.Relation.String()
		}
	}
}

// lists are what is shown for lists that were not answered, on one line.
var lists = map[string]string{
	"run_on.horizons": "[{name: Ap, from: 0 cm, to: 180 cm, sand: 40 %, clay: 22 %}]",
	"farm.mains":      "[{length: 600 ft, diameter: 6 in, grade: 0.2 %, submain: false}]",
	"tile.weir":       "[{from: 10-15, to: 04-15, crest: 0.4 m}]",
	"old_tile.weir":   "[{from: 10-15, to: 04-15, crest: 0.4 m}]",
}

// leftOut writes a key that was not answered as a comment: with the value that
// stands in, or an example and what stands in.
func leftOut(b *bytes.Buffer, f *form, k Key, indent string) {
	value, meaning := f.fallback, k.Meaning
	switch {
	case f.kind == list:
		value = lists[k.Path]
	case value == "" && f.none:
		value = "none"
	case value == "":
		value = k.Example
		if k.LeftOut != "-" && k.LeftOut != "needed" {
			meaning += "; left out: " + k.LeftOut
		}
	}
	line(b, indent+"# "+last(k.Path)+": "+f.written(value), meaning)
}

// line writes a key and, from a column of its own on, what it means.
func line(b *bytes.Buffer, text, meaning string) {
	if meaning == "" {
		b.WriteString(text + "\n")
		return
	}
	fmt.Fprintf(b, "%-38s  # %s\n", text, meaning)
}

// plain is a text that YAML reads as it stands, in a flow too.
var plain = regexp.MustCompile(`^[.+-]?[\p{L}\p{N}]([\p{L}\p{N} .()/%+-]*[\p{L}\p{N}.()/%+-])?$`)

// quoted writes a value so that it is read back as it is.
func quoted(text string) string {
	text = strings.TrimSpace(text)
	if !plain.MatchString(text) || strings.EqualFold(text, "null") {
		return strconv.Quote(text) // whose escapes are YAML's
	}
	return text
}

// written is a value of the form in YAML.
func (f *form) written(value string) string {
	if f.kind == list {
		return value
	}
	words := entries(value)
	if f.kind != crops && (f.kind != spread || !strings.HasPrefix(value, "[")) || len(words) == 1 {
		return quoted(value)
	}
	for i := range words {
		words[i] = quoted(words[i])
	}
	return "[" + strings.Join(words, ", ") + "]"
}

// horizons writes the soil, each horizon with what is known of it.
func (d Draft) horizons(b *bytes.Buffer, r *reader, indent string) {
	for note := range strings.Lines(d.SoilNote) {
		b.WriteString(indent + "# " + strings.TrimSpace(note) + "\n")
	}
	b.WriteString(indent + "horizons:\n")
	for _, h := range d.Horizons {
		fmt.Fprintf(b, "%s  - {%s}\n", indent, horizonText(h))
	}
	var examples []string
	for _, key := range r.below("soil.horizons") {
		k, _ := Lookup(key)
		examples = append(examples, last(key)+": "+k.Example)
	}
	fmt.Fprintf(b, "%s  # a horizon may hold: %s\n", indent, strings.Join(examples, ", "))
}

// horizonText is a horizon as it stands in the file.
func horizonText(h soil.Horizon) string {
	var parts []string
	if h.Name != "" {
		parts = append(parts, "name: "+quoted(h.Name))
	}
	add := func(key string, x, scale float64, unit string) {
		if !math.IsNaN(x) {
			parts = append(parts, key+": "+strings.TrimSpace(exact(x*scale)+" "+unit))
		}
	}
	add("from", h.Top, 100, "cm")
	add("to", h.Bottom, 100, "cm")
	add("sand", h.Sand, 1, "%")
	add("silt", h.Silt, 1, "%")
	add("clay", h.Clay, 1, "%")
	add("organic_matter", h.Organic, 1, "%")
	add("bulk_density", h.BulkDensity, 1, "g/cm3")
	add("ksat", h.Ksat, 1e6, "um/s")
	add("structure", h.Structure, 1, "")
	add("ece", h.SalinityEC, 1, "dS/m")
	add("theta_r", h.ThetaR, 1, "")
	add("theta_s", h.ThetaS, 1, "")
	add("alpha", h.Alpha, 1, "1/m")
	add("n", h.N, 1, "")
	if h.Water33 > 0 || h.Water1500 > 0 { // 0 is not given
		add("water_33kpa", h.Water33, 100, "%")
		add("water_1500kpa", h.Water1500, 100, "%")
	}
	return strings.Join(parts, ", ")
}

// exact writes a number to twelve digits, without the dust of a product.
func exact(x float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64)
	if err != nil {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	return strconv.FormatFloat(short, 'g', -1, 64)
}
