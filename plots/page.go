package plots

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"sort"
	"strings"

	"mottle/sim/site"
	"mottle/sim/worth"
)

//go:embed page.html
var pageText string

//go:embed page.css
var pageStyle string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// page is what the template shows.
type page struct {
	Style                   template.CSS
	Title, Stamp, Source    string
	Answer                  []claim
	Facts                   []fact
	Settle                  []caution
	Figures                 []pageFigure
	Changes, Bill, Money    grid
	Swings, Outlets, Others *grid
	Controlled, Trials      *grid
	Prices                  grid
	Lateral                 string
	Questions               []question
	Assumptions             []assumption
	Cautions                []caution
	Draws                   int
}

// fact is a figure that the answer rests on, large.
type fact struct{ Name, Value, Unit, More, From string }

type pageFigure struct {
	Name, Title, Says, Notes, From string
	SVG                            template.HTML
}

type caution struct {
	worth.Caution
	ID string
}

// WorthPage is the decision as one page of HTML that stands alone: it fetches
// nothing, runs no script, follows the reader's colour scheme and prints on two
// sheets of paper. With us its units are US customary. The same result gives the same
// bytes. It is an error when the result lacks what the page shows.
func WorthPage(r *worth.Result, us bool) ([]byte, error) {
	d, err := decide(r, us)
	if err != nil {
		return nil, err
	}
	p := page{Style: template.CSS(pageStyle), Title: r.Field.Name, Stamp: d.stamp(), Source: d.source(), Answer: answer(r, d.units), Facts: d.facts(),
		Changes: d.changes(), Bill: d.bill(), Money: d.worthOf(), Prices: d.prices(), Questions: d.questions(), Assumptions: assumptions(r.Assumptions)}
	p.caution(r.Cautions)
	drawings, err := d.drawings()
	if err != nil {
		return nil, err
	}
	for _, one := range drawings {
		svg, err := d.onPage(one)
		if err != nil {
			return nil, err
		}
		p.Figures = append(p.Figures, pageFigure{one.name, one.title, one.says, one.notes, one.from, svg})
	}
	some := func(g grid) *grid {
		if len(g.Rows) == 0 {
			return nil
		}
		return &g
	}
	if r.Futures != nil {
		p.Swings, p.Draws = some(d.swings()), r.Futures.Draws
	}
	p.Outlets, p.Others, p.Trials = some(d.outlets()), some(d.others()), some(d.trials())
	if r.Controlled.Calendar != "" {
		p.Controlled = some(d.controlled())
	}
	if r.LateralWay > 0 {
		p.Lateral = d.units.Format(r.LateralWay, "m")
	}
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, p); err != nil {
		return nil, fmt.Errorf("page: %w", err)
	}
	return b.Bytes(), nil
}

// caution lists the cautions, those that this field calls for first.
func (p *page) caution(list []worth.Caution) {
	ordered := append([]worth.Caution(nil), list...)
	sort.SliceStable(ordered, func(i, j int) bool { return ordered[i].Strong && !ordered[j].Strong })
	for i, c := range ordered {
		one := caution{c, fmt.Sprintf("caution-%d", i+1)}
		p.Cautions = append(p.Cautions, one)
		if c.Strong {
			p.Settle = append(p.Settle, one)
		}
	}
}

// facts are the figures that a reader looks for first.
func (d decision) facts() []fact {
	var list []fact
	if l, err := d.line("days_saturated"); err == nil {
		list = append(list, fact{"days saturated a year", round3(l.AsItLies) + " → " + round3(l.WithTile), "", "as it lies → with tile", "days-saturated yearly.csv:days_saturated"})
	}
	income := fact{"extra income a year", plus(d.value(d.w.Money.Income, "USD/ha")), d.unit("USD/ha"), "", "extra-income income.csv:extra_income_USD_per_ha"}
	if y := sorted(d.w.Income); len(y) > 1 {
		income.More = dollarRange(quantile(y, 0.05), quantile(y, 0.95), d.units) + " in nine years of ten"
	}
	list = append(list, income, fact{"outlay", round3(d.value(d.w.Money.PerArea, "USD/ha")), d.unit("USD/ha"), round3(d.w.Money.Outlay) + " USD in all", "bill money.csv:outlay"})
	f := d.w.Futures
	if f == nil || len(f.NPV) == 0 {
		return append(list, fact{"net present value" + over(d.w), plus(d.value(d.w.Money.NPV, "USD/ha")), d.unit("USD/ha"), "at middle prices; no futures drawn", "money money.csv:npv"})
	}
	list = append(list, fact{"net present value" + over(d.w), plus(d.value(quantile(f.NPV, 0.5), "USD/ha")), d.unit("USD/ha"),
		dollarRange(quantile(f.NPV, 0.05), quantile(f.NPV, 0.95), d.units) + " in nine futures of ten", "payback futures.csv:npv"})
	if c, ok := middleChance(d.w); ok {
		list = append(list, fact{fmt.Sprintf("paid back within %s", count(c.Within, "year")), ofHundred(c.Share), "of 100 futures",
			fmt.Sprintf("above zero at the end: %s", ofHundred(shareAboveZero(f.NPV))), "payback futures.csv:paid_back"})
	}
	return list
}

// assumption is one with whether the table of prices shows it too: print leaves such
// out, for two sheets hold no word twice.
type assumption struct {
	site.Assumption
	Priced bool
}

func assumptions(list []site.Assumption) []assumption {
	out := make([]assumption, len(list))
	for i, a := range list {
		out[i] = assumption{a, strings.HasPrefix(a.Key, "farm.")}
	}
	return out
}
