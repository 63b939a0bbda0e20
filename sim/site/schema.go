package site

import (
	"encoding/json"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"

	"mottle/sim/unit"
)

// schema is a node of a JSON schema (draft 2020-12), of what a field file needs.
type schema struct {
	Dialect     string             `json:"$schema,omitempty"`
	Title       string             `json:"title,omitempty"`
	Description string             `json:"description,omitempty"`
	Type        []string           `json:"type,omitempty"`
	Enum        []any              `json:"enum,omitempty"`
	Pattern     string             `json:"pattern,omitempty"`
	Minimum     *int               `json:"minimum,omitempty"`
	Maximum     *int               `json:"maximum,omitempty"`
	Default     any                `json:"default,omitempty"`
	Examples    []any              `json:"examples,omitempty"`
	Properties  map[string]*schema `json:"properties,omitempty"`
	Required    []string           `json:"required,omitempty"`
	Additional  *bool              `json:"additionalProperties,omitempty"`
	Items       *schema            `json:"items,omitempty"`
	MinItems    *int               `json:"minItems,omitempty"`
	MaxItems    *int               `json:"maxItems,omitempty"`
	AnyOf       []*schema          `json:"anyOf,omitempty"`
}

// WriteSchema writes the JSON schema (draft 2020-12) of field files, for editors
// that know one. It holds every key that the reader asks for, in the form in which
// it is asked; ranges and what must go together are left to the reader.
func WriteSchema(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(fieldSchema())
}

func fieldSchema() *schema {
	s := survey().object("")
	s.Dialect = "https://json-schema.org/draft/2020-12/schema"
	s.Title = "Field file of mottle"
	s.Description = "One field: where it lies, its soil, surroundings, drains and crop. Values carry their unit."
	return s
}

// object is the schema of a map with the keys under a path.
func (r *reader) object(path string) *schema {
	strict := false
	s := &schema{Type: []string{"object"}, Properties: map[string]*schema{}, Additional: &strict}
	for _, key := range r.below(path) {
		s.Properties[last(key)] = r.schema(key)
		if r.forms[key].needed {
			s.Required = append(s.Required, last(key))
		}
	}
	return s
}

// schema is that of a key's value. A key that is left empty counts as left out, so
// that null is allowed but where a value is needed.
func (r *reader) schema(key string) *schema {
	f := r.forms[key]
	s := &schema{}
	switch f.kind {
	case text:
		s.Type = []string{"string", "number", "boolean"}
	case yes:
		s.Type = []string{"boolean"}
	case quantity:
		s = f.single()
	case spread:
		one, three := f.single(), 3
		s.AnyOf = []*schema{one, {Type: []string{"array"}, Items: one, MinItems: &three, MaxItems: &three}, {Type: []string{"null"}}}
	case word:
		s.Type = []string{"string"}
		s.Enum = anything(f.words)
	case whole:
		least, most := 0, math.MaxInt32
		s.Type, s.Minimum, s.Maximum = []string{"integer"}, &least, &most
	case day:
		s.Type, s.Pattern = []string{"string"}, `^(0?[1-9]|1[0-2])-(0?[1-9]|[12][0-9]|3[01])$`
	case crops:
		one, least := &schema{Type: []string{"string"}, Enum: anything(f.words)}, 1
		s.AnyOf = []*schema{one, {Type: []string{"array"}, Items: one, MinItems: &least}, {Type: []string{"null"}}}
	case group:
		s = r.object(key)
	case list:
		s.Type, s.Items = []string{"array"}, r.object(key)
	}
	if f.none {
		s.allowNone()
	}
	if !f.needed && s.AnyOf == nil {
		s.Type = append(s.Type, "null")
		if s.Enum != nil {
			s.Enum = append(s.Enum, nil)
		}
	}
	r.describe(s, key)
	return s
}

// single is the schema of one quantity.
func (f *form) single() *schema {
	s := &schema{Type: []string{"string"}, Pattern: pattern(f.dims...)}
	if bare(f.dims) {
		s.Type = append(s.Type, "number")
	}
	return s
}

// allowNone admits the word none beside what is there.
func (s *schema) allowNone() {
	if s.Pattern != "" {
		s.Pattern = strings.TrimSuffix(strings.Replace(s.Pattern, "^", "^(none|", 1), "$") + ")$"
		return
	}
	s.Type, s.Pattern = append(s.Type, "string"), "^none$"
}

// describe adds what Keys says of a key, and its default.
func (r *reader) describe(s *schema, key string) {
	f := r.forms[key]
	if k, ok := Lookup(key); ok {
		s.Description = strings.ToUpper(k.Meaning[:1]) + k.Meaning[1:] + "."
		switch k.LeftOut {
		case "-", "needed":
		default:
			s.Description += " Left out: " + k.LeftOut + "."
		}
		if f.kind == quantity || f.kind == spread || f.kind == day {
			s.Examples = []any{f.value(k.Example)}
		}
	}
	if f.fallback != "" && f.kind != crops {
		s.Default = f.value(f.fallback)
	}
}

// value is a text as JSON has it: a number where the key takes one, a list where the
// text is one.
func (f *form) value(text string) any {
	if f.kind == whole || bare(f.dims) && number.MatchString(text) {
		return json.Number(text)
	}
	if texts := entries(text); f.kind == spread && len(texts) > 1 {
		list := make([]any, len(texts))
		for i, one := range texts {
			list[i] = f.value(one)
		}
		return list
	}
	return text
}

func anything(words []string) []any {
	list := make([]any, len(words))
	for i, w := range words {
		list[i] = w
	}
	return list
}

// A number as unit.Parse reads it, and as JSON does.
const numeral = `[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?`

var number = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// pattern is the regular expression of a quantity of one of some dimensions, in the
// syntax that JSON schema (ECMA-262) and Go share.
func pattern(dims ...unit.Dimension) string {
	var names []string
	for _, dim := range dims {
		for _, name := range dim.Units() {
			names = append(names, regexp.QuoteMeta(name))
		}
	}
	if len(names) == 0 {
		return "^ *" + numeral + " *$"
	}
	between, optional := " *", ""
	if bare(dims) {
		optional = "?"
	}
	if strings.HasPrefix(names[0], "1") { // 1/m: its digit would be one of the number's
		between = " +"
	}
	return "^ *" + numeral + between + "(" + strings.Join(names, "|") + ")" + optional + " *$"
}

// bare says whether a number without a unit will do for one of the dimensions.
func bare(dims []unit.Dimension) bool { return slices.ContainsFunc(dims, unit.Dimension.Bare) }
