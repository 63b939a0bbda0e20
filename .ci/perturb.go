//go:build ignore

// Perturb changes each physical constant and coefficient of the source by 10 and
// then 30 per cent, one at a time, in a copy that only the compiler sees, runs
// every check of the proof with it, and reports which turn red. A number that
// turns none at 30 per cent is listed: it needs a check, or a reason.
//
//	go run .ci/perturb.go            # named constants
//	go run .ci/perturb.go -all       # every floating-point literal too (an hour)
//	go run .ci/perturb.go -by 30     # the larger change only
//	go run .ci/perturb.go ./sim/heat # some folders only
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"sync"
)

// checked are the processes that can turn red; the rules of thumb never fail.
const checked = "atmosphere,snow,heat,soil,column,drain,runoff,salt,crop,money,routing,floods,second opinion"

// site is a number in the source.
type site struct {
	file  string
	line  int
	from  int // byte offsets of the literal
	to    int
	value float64
	name  string
}

func main() {
	all := flag.Bool("all", false, "every floating-point literal, not named constants alone")
	by := flag.String("by", "10,30", "per cent to change by")
	flag.Parse()
	folders := flag.Args()
	if len(folders) == 0 {
		folders = []string{"soil", "weather", "sim", "sim/column", "sim/heat", "sim/salt", "sim/snow", "sim/storm", "sim/drain", "sim/crop", "sim/money", "sim/flow", "sim/flood", "sim/washoff"}
	}
	var sites []site
	for _, f := range folders {
		sites = append(sites, numbers(f, *all)...)
	}
	fmt.Printf("%d numbers\n", len(sites))
	results := make([]string, len(sites))
	var wg sync.WaitGroup
	slots := make(chan int, 2)
	for i := range cap(slots) {
		slots <- i
	}
	for i, s := range sites {
		wg.Add(1)
		slot := <-slots
		go func() {
			defer wg.Done()
			results[i] = try(s, slot, strings.Split(*by, ","))
			fmt.Println(results[i])
			slots <- slot
		}()
	}
	wg.Wait()
	var silent []string
	for _, r := range results {
		if strings.Contains(r, "30 %: none") {
			silent = append(silent, r)
		}
	}
	sort.Strings(silent)
	fmt.Printf("\n%d of %d numbers turn no check red at 30 %%:\n%s\n", len(silent), len(sites), strings.Join(silent, "\n"))
}

// numbers finds the constants, or all floating-point literals, of a folder.
func numbers(folder string, all bool) []site {
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		panic(err)
	}
	var found []site
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") || strings.HasSuffix(name, "weather/climate.go") { // invented parameters
			continue
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			panic(err)
		}
		add := func(lit *ast.BasicLit, label string) {
			v, err := strconv.ParseFloat(lit.Value, 64)
			if err != nil || v == 0 || lit.Kind == token.INT && label == "" {
				return
			}
			p := set.Position(lit.Pos())
			found = append(found, site{name, p.Line, p.Offset, p.Offset + len(lit.Value), v, label})
		}
		seen := map[token.Pos]bool{}
		ast.Inspect(file, func(n ast.Node) bool {
			if spec, ok := n.(*ast.GenDecl); ok && spec.Tok == token.CONST {
				for _, s := range spec.Specs {
					v := s.(*ast.ValueSpec)
					for i, e := range v.Values {
						ast.Inspect(e, func(m ast.Node) bool {
							if lit, ok := m.(*ast.BasicLit); ok && (lit.Kind == token.FLOAT || lit.Kind == token.INT) {
								seen[lit.Pos()] = true
								add(lit, v.Names[i].Name)
							}
							return true
						})
					}
				}
			}
			if lit, ok := n.(*ast.BasicLit); ok && all && lit.Kind == token.FLOAT && !seen[lit.Pos()] {
				add(lit, "")
			}
			return true
		})
	}
	return found
}

// try runs the proof with one number changed.
func try(s site, slot int, percents []string) string {
	out := fmt.Sprintf("%s:%d %s %g", s.file, s.line, s.name, s.value)
	source, err := os.ReadFile(s.file)
	if err != nil {
		panic(err)
	}
	dir := filepath.Join(os.TempDir(), fmt.Sprintf("perturb-%d-%d", os.Getpid(), slot))
	if err := os.MkdirAll(dir, 0o755); err != nil {
		panic(err)
	}
	for _, p := range percents {
		percent, err := strconv.ParseFloat(p, 64)
		if err != nil {
			panic(err)
		}
		by := 1 + percent/100
		changed := string(source[:s.from]) + strconv.FormatFloat(s.value*by, 'g', -1, 64) + string(source[s.to:])
		copied := filepath.Join(dir, "changed.go")
		if err := os.WriteFile(copied, []byte(changed), 0o644); err != nil {
			panic(err)
		}
		original, err := filepath.Abs(s.file)
		if err != nil {
			panic(err)
		}
		overlay, _ := json.Marshal(map[string]any{"Replace": map[string]string{original: copied}})
		overlayFile := filepath.Join(dir, "overlay.json")
		if err := os.WriteFile(overlayFile, overlay, 0o644); err != nil {
			panic(err)
		}
		binary := filepath.Join(dir, "mottle")
		if text, err := exec.Command("go", "build", "-overlay", overlayFile, "-o", binary, "./cmd/mottle").CombinedOutput(); err != nil {
			out += fmt.Sprintf("; %.0f %%: does not compile (%s)", 100*(by-1), strings.SplitN(string(text), "\n", 3)[1])
			continue
		}
		text, err := exec.Command(binary, "proof", "--format", "json", "--only", checked).Output()
		var v struct {
			Failed int
			Checks []struct {
				ID     string
				Pass   bool
				Report bool
			}
		}
		if json.Unmarshal(text, &v) != nil {
			out += fmt.Sprintf("; %.0f %%: stops (%v)", 100*(by-1), err)
			continue
		}
		var red []string
		for _, c := range v.Checks {
			if !c.Pass && !c.Report {
				red = append(red, c.ID)
			}
		}
		switch {
		case len(red) == 0:
			out += fmt.Sprintf("; %.0f %%: none", 100*(by-1))
		case len(red) > 4:
			out += fmt.Sprintf("; %.0f %%: %d red (%s, ...)", 100*(by-1), len(red), strings.Join(red[:4], ", "))
		default:
			out += fmt.Sprintf("; %.0f %%: %s", 100*(by-1), strings.Join(red, ", "))
		}
	}
	return out
}
