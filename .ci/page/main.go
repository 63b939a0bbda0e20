// Page opens pages of HTML in a headless Chromium and checks what only a browser
// shows: that nothing runs over the edge at three widths, that nothing is fetched and
// no error is logged, contrast from computed styles in both colour schemes and in
// print (WCAG 2.2, 1.4.3: 4.5 to 1, for all letters here), landmarks, headings and
// tables, the order of the tab key, and two sheets of paper at most.
//
//	go run ./.ci/page -shots DIR page.html...
package main

import (
	_ "embed"
	"encoding/base64"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

//go:embed look.js
var lookScript string

// view is what look.js returns.
type view struct {
	Width, Inner    int
	Worst, Smallest float64 // contrast; size of letters, px
	Faint, Faults   []string
	Wide            []string
	Stops           int
}

var papers = map[string][2]float64{"A4": {210 / 25.4, 297 / 25.4}, "Letter": {8.5, 11}} // in

func main() {
	program := flag.String("browser", "chromium", "`program` to open pages with")
	shots := flag.String("shots", "", "`folder` for pictures and PDF files; none without it")
	flag.Parse()
	folder, err := os.MkdirTemp("", "page")
	if err != nil {
		fail(err)
	}
	b, err := open(*program, folder)
	if err != nil {
		fail(err)
	}
	passed, failed := 0, 0
	say := func(ok bool, format string, a ...any) {
		word := "ok  "
		if ok {
			passed++
		} else {
			failed++
			word = "FAIL"
		}
		fmt.Printf("%s %s\n", word, fmt.Sprintf(format, a...))
	}
	for _, name := range flag.Args() {
		began := time.Now()
		if err := check(b, name, *shots, say); err != nil {
			say(false, "%s: %v", name, err)
		}
		fmt.Printf("     %s in %.1f s\n", name, time.Since(began).Seconds())
	}
	if err := b.close(); err != nil {
		fmt.Println(err)
	}
	os.RemoveAll(folder)
	fmt.Printf("%d passed, %d failed\n", passed, failed)
	if failed > 0 || passed == 0 {
		os.Exit(1)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

func check(b *browser, name, shots string, say func(ok bool, format string, a ...any)) error {
	path, err := filepath.Abs(name)
	if err != nil {
		return err
	}
	stem := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	keep := func(suffix string, data []byte) error {
		if shots == "" {
			return nil
		}
		return os.WriteFile(filepath.Join(shots, stem+suffix), data, 0o644)
	}
	if err := b.look(800, "light", "screen"); err != nil {
		return err
	}
	if err := b.show("file://" + path); err != nil {
		return err
	}
	for _, w := range []struct {
		width         int
		scheme, media string
	}{{400, "light", "screen"}, {800, "light", "screen"}, {1400, "light", "screen"}, {400, "dark", "screen"}, {1400, "dark", "screen"}, {760, "light", "print"}, {760, "dark", "print"}} {
		if err := b.look(w.width, w.scheme, w.media); err != nil {
			return err
		}
		what := fmt.Sprintf("%s %d px %s %s", stem, w.width, w.scheme, w.media)
		var v view
		if err := b.run(lookScript, &v); err != nil {
			return fmt.Errorf("%s: %w", what, err)
		}
		if w.media == "screen" {
			say(v.Width <= v.Inner && len(v.Wide) == 0, "%s: %d px wide in %d %v", what, v.Width, v.Inner, v.Wide)
		}
		say(len(v.Faint) == 0, "%s: least contrast %.2f, smallest letters %.1f px %q", what, v.Worst, v.Smallest, v.Faint)
		say(len(v.Faults) == 0, "%s: landmarks, headings, tables, figures %q", what, v.Faults)
		if w.media == "screen" && shots != "" {
			var shot struct{ Data []byte }
			if err := b.call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true}, &shot); err != nil {
				return err
			}
			if err := keep(fmt.Sprintf("-%d-%s.png", w.width, w.scheme), shot.Data); err != nil {
				return err
			}
		}
	}
	if err := b.look(800, "light", "screen"); err != nil {
		return err
	}
	if err := tabs(b, stem, say); err != nil {
		return err
	}
	if err := b.call("Emulation.setEmulatedMedia", map[string]any{"media": ""}, nil); err != nil {
		return err
	}
	for _, paper := range []string{"A4", "Letter"} {
		size := papers[paper]
		var pdf struct{ Data string }
		if err := b.call("Page.printToPDF", map[string]any{"paperWidth": size[0], "paperHeight": size[1], "printBackground": true, "marginTop": 0.32, "marginBottom": 0.32, "marginLeft": 0.32, "marginRight": 0.32}, &pdf); err != nil {
			return err
		}
		data, err := base64.StdEncoding.DecodeString(pdf.Data)
		if err != nil {
			return err
		}
		pages := len(regexp.MustCompile(`/Type\s*/Page[^s]`).FindAll(data, -1))
		say(pages >= 1 && pages <= 2, "%s on %s: %d sheets", stem, paper, pages)
		if err := keep("-"+paper+".pdf", data); err != nil {
			return err
		}
	}
	faults := b.faults()
	say(len(faults) == 0, "%s: no error, nothing fetched %q", stem, faults)
	return nil
}

// tabs presses the tab key through the page: every stop is met once, in the order of
// the text, and can be seen when it has the focus.
func tabs(b *browser, stem string, say func(ok bool, format string, a ...any)) error {
	var stops int
	if err := b.run(`window.stops = [...document.querySelectorAll('a[href],[tabindex="0"]')].filter(e => getComputedStyle(e).display !== 'none'); document.activeElement.blur(); window.scrollTo(0, 0); stops.length`, &stops); err != nil {
		return err
	}
	var order []int
	seen := true
	for range stops {
		for _, kind := range []string{"rawKeyDown", "keyUp"} {
			if err := b.call("Input.dispatchKeyEvent", map[string]any{"type": kind, "key": "Tab", "code": "Tab", "windowsVirtualKeyCode": 9}, nil); err != nil {
				return err
			}
		}
		var at struct {
			Index int
			Seen  bool
		}
		if err := b.run(`(() => { const e = document.activeElement, r = e.getBoundingClientRect(), s = getComputedStyle(e); return {Index: stops.indexOf(e), Seen: r.width > 0 && r.right > 0 && r.left < innerWidth && s.outlineStyle !== 'none'}; })()`, &at); err != nil {
			return err
		}
		order = append(order, at.Index)
		seen = seen && at.Seen
	}
	inOrder := len(order) > 0
	for i, k := range order {
		inOrder = inOrder && i == k
	}
	say(inOrder, "%s: the tab key follows the text through %d stops %v", stem, stops, order)
	say(seen, "%s: focus can be seen", stem)
	return nil
}
