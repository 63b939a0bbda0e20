package basin

import (
	"fmt"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/drain"
	"mottle/sim/site"
)

// A part of a basin file that is written as in a field file - a soil, a tile - is
// read by the reader of field files: the part is written out as a field file of its
// own, each word in the line in which it stands in the basin file, so that defaults,
// checks and messages are the same and lie in one place.

// part is such a text.
type part struct {
	text strings.Builder
	line int // that the text has come to
	rd   *reading
}

// pad goes on to a line.
func (p *part) pad(line int) {
	for ; p.line < line; p.line++ {
		p.text.WriteByte('\n')
	}
}

// node writes a value and all that it holds, in YAML's flow style.
func (p *part) node(key string, n ast.Node) {
	switch v := n.(type) {
	case ast.MapNode:
		p.text.WriteByte('{')
		for e := v.MapRange(); e.Next(); {
			name := e.Key().GetToken()
			p.entry(key+"."+legible(name.Value), name.Value, name.Position.Line, e.Value())
		}
		p.text.WriteByte('}')
	case *ast.SequenceNode:
		p.text.WriteByte('[')
		for i, entry := range v.Values {
			p.pad(entry.GetToken().Position.Line)
			p.node(fmt.Sprintf("%s[%d]", key, i), entry)
			p.text.WriteString(", ")
		}
		p.text.WriteByte(']')
	case *ast.StringNode:
		p.text.WriteString(quoted(v.Value))
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		p.text.WriteString(n.GetToken().Value)
	case *ast.NullNode:
		p.text.WriteString("null")
	default:
		p.rd.at(n.GetToken().Position.Line, key, "found a YAML %s; allowed values, lists and keys with values", strings.ToLower(n.Type().String()))
		p.text.WriteString("null")
	}
}

func (p *part) entry(path, key string, line int, value ast.Node) {
	p.pad(line)
	p.text.WriteString(quoted(key) + ": ")
	p.node(path, value)
	p.text.WriteString(", ")
}

// quoted is a text in single quotes, in one line.
func quoted(text string) string {
	return "'" + strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "'", "''") + "'"
}

// Placeholders for what a part does not say.
const (
	deepLoam = "'soil': {'restrictive_layer': '10 m', 'horizons': [{'from': '0 m', 'to': '10 m', 'sand': '40 %', 'clay': '20 %'}]}"
	noTile   = "'tile': 'none'"
)

// field reads some keys of a map of the basin file as those of a field file, with
// standIns for others. The path of the map is for messages ("soils[0]."). Only
// what is assumed of these keys is kept in Assumed. False after a fault.
func (rd *reading) field(path string, node ast.Node, keys []string, standIns ...string) (site.Field, bool) {
	before := len(rd.faults)
	p := &part{line: 1, rd: rd}
	p.text.WriteByte('{')
	if m, ok := node.(ast.MapNode); ok {
		for e := m.MapRange(); e.Next(); {
			if name := e.Key().GetToken(); slices.Contains(keys, name.Value) {
				p.entry(path+name.Value, name.Value, name.Position.Line, e.Value())
			}
		}
	}
	f := rd.fieldOf(p, path, keys, standIns)
	return f, len(rd.faults) == before
}

// fieldOf ends a part and reads it.
func (rd *reading) fieldOf(p *part, path string, keys, standIns []string) site.Field {
	p.text.WriteString(strings.Join(standIns, ", ") + "}\n")
	f, err := site.ReadField(rd.name, strings.NewReader(p.text.String()))
	for _, fault := range site.Faults(err) {
		key := fault.Key
		if !slices.ContainsFunc(keys, func(k string) bool { return within(key, k) }) {
			key = keys[0] // what follows from a placeholder
		}
		rd.at(fault.Line, path+key, "%s", fault.Text)
	}
	f.Assumed = slices.DeleteFunc(f.Assumed, func(a site.Assumption) bool {
		return !slices.ContainsFunc(keys, func(k string) bool { return within(a.Key, k) })
	})
	return f
}

// weir reads the calendar of a control weir; that its crest lies above the tile is
// for each unit to be seen.
func (rd *reading) weir(path string, node ast.Node) drain.WeirSchedule {
	if node == nil {
		return nil
	}
	p := &part{line: 1, rd: rd}
	p.text.WriteString("{'tile': {'depth': '9.9 m', 'weir': ")
	p.pad(node.GetToken().Position.Line)
	p.node(path+"weir", node)
	p.text.WriteString("}, ")
	faults := len(rd.faults)
	f := rd.fieldOf(p, path, []string{"tile.weir"}, []string{deepLoam})
	for _, fault := range rd.faults[faults:] {
		fault.Key = path + strings.TrimPrefix(fault.Key, path+"tile.")
	}
	if f.Tile == nil {
		return nil
	}
	return f.Tile.Weir
}

// within says whether a key is another one or lies in its section.
func within(key, section string) bool {
	rest, ok := strings.CutPrefix(key, section)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// child is the value of a key of a map, nil when absent or empty.
func child(n ast.Node, key string) ast.Node {
	m, ok := n.(ast.MapNode)
	if !ok {
		return nil
	}
	for e := m.MapRange(); e.Next(); {
		if e.Key().GetToken().Value == key {
			if e.Value() == nil || e.Value().Type() == ast.NullType {
				return nil
			}
			return e.Value()
		}
	}
	return nil
}

// lineOf is where a node stands, 0 without one.
func lineOf(n ast.Node) int {
	if n == nil {
		return 0
	}
	return n.GetToken().Position.Line
}

// entryOf is the i-th entry of a list, nil when it is none.
func entryOf(n ast.Node, i int) ast.Node {
	if seq, ok := n.(*ast.SequenceNode); ok && i < len(seq.Values) {
		return seq.Values[i]
	}
	return nil
}

// words reads a list of texts, or one text with entries parted by commas or
// semicolons.
func (rd *reading) words(s *site.Section, path string, node ast.Node, key string) []string {
	if !s.Has(key) {
		return nil
	}
	seq, ok := child(node, key).(*ast.SequenceNode)
	if !ok {
		return split(s.Text(key))
	}
	var list []string
	for i, entry := range seq.Values {
		switch n := entry.(type) {
		case *ast.StringNode:
			list = append(list, strings.TrimSpace(n.Value))
		case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode:
			list = append(list, entry.GetToken().Value)
		default:
			rd.at(entry.GetToken().Position.Line, fmt.Sprintf("%s%s[%d]", path, key, i), "found no text; allowed a list of texts")
		}
	}
	return list
}

// split parts a text at commas and semicolons.
func split(text string) []string {
	list := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' })
	for i := range list {
		list[i] = strings.TrimSpace(list[i])
	}
	return list
}
