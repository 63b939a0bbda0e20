package basin

import (
	"encoding/binary"
	"fmt"
	"hash"
	"math"
	"reflect"
	"slices"
)

// fingerprint writes every value that x holds into h, with the names of its fields:
// two values have one fingerprint only when all of it is equal. Numbers count by
// their bits. Unexported fields are left out.
func fingerprint(h hash.Hash, x any) { fingerprintOf(h, reflect.ValueOf(x)) }

func fingerprintOf(h hash.Hash, v reflect.Value) {
	fmt.Fprintf(h, "%d", v.Kind())
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			fingerprintOf(h, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				fmt.Fprintf(h, "%s:", f.Name)
				fingerprintOf(h, v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		fmt.Fprintf(h, "[%d]", v.Len())
		if numbers, ok := v.Interface().([]float64); ok {
			word := make([]byte, 8)
			for _, x := range numbers {
				binary.LittleEndian.PutUint64(word, math.Float64bits(x))
				h.Write(word)
			}
			return
		}
		for i := range v.Len() {
			fingerprintOf(h, v.Index(i))
		}
	case reflect.Map:
		var keys []string
		for _, k := range v.MapKeys() {
			keys = append(keys, k.String())
		}
		slices.Sort(keys)
		for _, k := range keys {
			fmt.Fprintf(h, "%q:", k)
			fingerprintOf(h, v.MapIndex(reflect.ValueOf(k)))
		}
	case reflect.Float64:
		fmt.Fprintf(h, "%x", math.Float64bits(v.Float()))
	default:
		fmt.Fprintf(h, "%#v", v.Interface())
	}
}
