package main

import (
	"math"
	"reflect"
	"strings"
	"unicode"
)

// tidy turns a value into what JSON can hold: structs become maps with names in
// snake case, a number that is none is null and one without end "infinite" or
// "-infinite". Methods and unexported fields are left out.
func tidy(x any) any { return tidyValue(reflect.ValueOf(x)) }

func tidyValue(v reflect.Value) any {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			return nil
		}
		return tidyValue(v.Elem())
	case reflect.Struct:
		out := map[string]any{}
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				out[snake(f.Name)] = tidyValue(v.Field(i))
			}
		}
		return out
	case reflect.Slice, reflect.Array:
		out := make([]any, v.Len())
		for i := range out {
			out[i] = tidyValue(v.Index(i))
		}
		return out
	case reflect.Map:
		out := map[string]any{}
		for _, k := range v.MapKeys() {
			out[k.String()] = tidyValue(v.MapIndex(k))
		}
		return out
	case reflect.Float64:
		switch f := v.Float(); {
		case math.IsNaN(f):
			return nil
		case math.IsInf(f, 1):
			return "infinite"
		case math.IsInf(f, -1):
			return "-infinite"
		default:
			return f
		}
	case reflect.Int:
		return v.Int()
	case reflect.Uint64:
		return v.Uint()
	case reflect.Bool:
		return v.Bool()
	}
	return v.String()
}

// snake writes a Go name as JSON's: "BreakEvenPrice" is "break_even_price", "NPV" "npv".
func snake(name string) string {
	if name == "ECe" {
		return "ece"
	}
	var b strings.Builder
	runes := []rune(name)
	for i, r := range runes {
		if unicode.IsUpper(r) && i > 0 && (unicode.IsLower(runes[i-1]) || i+1 < len(runes) && unicode.IsLower(runes[i+1])) {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
