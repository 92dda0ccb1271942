package quote

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// A Section is what a line is about.
type Section string

// The sections of a quote, in their order.
const (
	Sheets   Section = "sheets"
	Moldings Section = "moldings"
	Used     Section = "used up"
	Machine  Section = "machine"
	Labor    Section = "labor"
	Extras   Section = "extras"
)

// A Line is one row of a quote.
type Line struct {
	Section  Section `json:"section"`
	Item     string  `json:"item"`
	Quantity float64 `json:"quantity"` // rounded to 1e-4
	Unit     string  `json:"unit"`
	Each     float64 `json:"each"`   // price of one, rounded to 1e-4; 0 where it is not known
	Amount   float64 `json:"amount"` // Quantity × Each, rounded to hundredths; below 0 for what is given back
	Priced   bool    `json:"priced"` // Amount is known
}

// A Quote is what a hood costs, line by line. Amounts are in Currency, rounded
// to hundredths, and each total is the sum of the rounded amounts it is made of.
type Quote struct {
	Title    string  `json:"title"`
	Rates    string  `json:"rates"`   // title of the rates
	Example  bool    `json:"example"` // the rates are invented
	Currency string  `json:"currency"`
	Lines    []Line  `json:"lines"`
	Cost     float64 `json:"cost"` // of all lines that are priced
	Markup   float64 `json:"markup"`
	Tax      float64 `json:"tax"`
	Total    float64 `json:"total"`
	Unpriced int     `json:"unpriced"` // lines that no total holds
	Hours    float64 `json:"hours"`    // of labor
}

// Complete reports whether every line is in the total.
func (q Quote) Complete() bool { return q.Unpriced == 0 }

// New prices a takeoff. The error is hood.Faults: those of [Rates.Validate], of
// quantities that are no finite numbers of 0 to a million, and of moldings that no
// bar is long enough for.
func New(t Takeoff, r Rates) (Quote, error) {
	b := builder{t: t, r: r, q: Quote{Title: t.Title, Rates: r.Title, Example: r.Example, Currency: r.Currency}}
	b.rates(r)
	b.takeoff(t)
	if err := b.Err(); err != nil {
		return Quote{}, err
	}
	b.sheets()
	b.moldings()
	b.used()
	b.machine()
	b.labor()
	for _, e := range r.Extras {
		unit := e.Unit
		if unit == "" {
			unit = "pcs"
		}
		b.add(Extras, e.Item, e.Count, unit, e.Price)
	}
	b.totals()
	return b.q, b.Err()
}

func (c *checks) takeoff(t Takeoff) {
	for _, f := range []struct {
		name string
		v    float64
	}{
		{"Offcuts", t.Offcuts}, {"Minutes", t.Minutes}, {"Parts", float64(t.Parts)}, {"Assembled", float64(t.Assembled)},
		{"SawEdges", float64(t.SawEdges)}, {"Kerfed", float64(t.Kerfed)}, {"Plies", float64(t.Plies)},
		{"Banding", t.Banding}, {"Fill", t.Fill}, {"Glue", t.Glue}, {"Finish", t.Finish},
	} {
		c.number("Takeoff."+f.name, f.v)
	}
	for i, s := range t.Sheets {
		c.number(fmt.Sprintf("Takeoff.Sheets[%d].Cost", i), s.Cost)
		c.number(fmt.Sprintf("Takeoff.Sheets[%d].Count", i), float64(s.Count))
	}
}

type builder struct {
	t Takeoff
	r Rates
	q Quote
	checks
}

// cents rounds to hundredths.
func cents(x float64) float64 { return math.Round(x*100)/100 + 0 }

// fine rounds to 1e-4, as fine as a quantity or a price of one is printed.
func fine(x float64) float64 { return math.Round(x*1e4)/1e4 + 0 }

// add adds a line, unless there is nothing of it to print.
func (b *builder) add(s Section, item string, quantity float64, unit string, each float64) {
	l := Line{Section: s, Item: item, Quantity: fine(quantity), Unit: unit, Each: fine(each), Priced: each > 0}
	if l.Quantity <= 0 {
		return
	}
	l.Amount = cents(l.Quantity * l.Each) // of what is printed, so that it adds up on paper
	b.q.Lines = append(b.q.Lines, l)
}

func (b *builder) sheets() {
	for _, s := range b.t.Sheets {
		b.add(Sheets, s.Name, float64(s.Count), "pcs", s.Cost/math.Max(1, float64(s.Count)))
	}
	if v := cents(b.t.Offcuts); v > 0 {
		b.q.Lines = append(b.q.Lines, Line{Section: Sheets, Item: "offcuts kept", Quantity: 1, Unit: "lot", Each: -v, Amount: -v, Priced: true})
	}
}

// moldings buys bars, as few as will do.
func (b *builder) moldings() {
	for _, m := range []struct {
		name string
		bars []Bar
	}{{"band", b.r.Molding.Band}, {"crown", b.r.Molding.Crown}} {
		lengths, _ := b.t.bars(m.name, b.r.Molding.Miter)
		if len(lengths) == 0 {
			continue
		}
		if len(m.bars) == 0 {
			sum := 0.0
			for _, l := range lengths {
				sum += l
			}
			b.add(Moldings, m.name+", net", sum/1e3, "m", 0)
			continue
		}
		b.buy(m.name, lengths, m.bars)
	}
}

func (b *builder) buy(name string, lengths []float64, bars []Bar) {
	stock := make([]miter.Bar, len(bars))
	for i, s := range bars {
		stock[i] = miter.Bar{Length: s.Length, Price: s.Price}
	}
	plan, err := miter.PlanBars(lengths, stock, b.r.Molding.Kerf)
	if err != nil {
		b.Add("molding."+name, fmt.Sprintf("%d bars", len(bars)), "", "bars for the moldings of the hood: "+err.Error(), arc.ErrRange)
		return
	}
	count := make([]int, len(bars))
	for _, c := range plan.Bars {
		count[c.Stock]++
	}
	for i, n := range count {
		b.add(Moldings, fmt.Sprintf("%s, bar of %g m", name, bars[i].Length/1e3), float64(n), "pcs", bars[i].Price)
	}
}

// machine adds the router's hours; minutes that are not known leave a line
// without an amount.
func (b *builder) machine() {
	if b.t.Minutes == 0 {
		b.q.Lines = append(b.q.Lines, Line{Section: Machine, Item: "router, hours not known", Unit: "h", Each: fine(b.r.Machine)})
		return
	}
	b.add(Machine, "router", b.t.Minutes/60, "h", b.r.Machine)
}

func (b *builder) used() {
	t, u := b.t, b.r.Use
	b.add(Used, "glue, by area of joints", t.Glue, "m²", u.Glue)
	b.add(Used, "fill of kerfs", t.Fill, "L", u.Fill)
	b.add(Used, "banding", t.Banding, "m", u.Band)
	b.add(Used, "finish, area × coats", t.Finish*float64(u.Coats), "m²", u.Finish)
}

// labor adds hours of work, priced where both the minutes and the hour are known.
func (b *builder) labor() {
	t, w := b.t, b.r.Work
	_, band := t.bars("band", 0)
	_, crown := t.bars("crown", 0)
	sheets := 0
	for _, s := range t.Sheets {
		sheets += s.Count
	}
	for _, x := range []struct {
		item    string
		count   float64
		minutes float64
		unit    string
	}{
		{"the job as a whole", 1, w.Job, "job"},
		{"sheets", float64(sheets), w.Sheet, "sheets"},
		{"parts from the router", float64(t.Parts), w.Part, "parts"},
		{"edges at the saw", float64(t.SawEdges), w.SawEdge, "edges"},
		{"banding", t.Banding, w.Band, "m"},
		{"kerfed panels", float64(t.Kerfed), w.Kerfed, "panels"},
		{"plies", float64(t.Plies), w.Ply, "plies"},
		{"assembly", float64(t.Assembled), w.Assembly, "parts"},
		{"mitered ends of moldings", float64(band + crown), w.Miter, "ends"},
		{"finish, area × coats", t.Finish * float64(b.r.Use.Coats), w.Finish, "m²"},
	} {
		b.add(Labor, x.item, x.count, x.unit, x.minutes/60*b.r.Labor)
		b.q.Hours += math.Max(0, x.count) * x.minutes / 60
	}
	b.q.Hours = cents(b.q.Hours)
}

func (b *builder) totals() {
	q := &b.q
	for _, l := range q.Lines {
		q.Cost += l.Amount
		if !l.Priced {
			q.Unpriced++
		}
	}
	q.Cost = cents(q.Cost)
	q.Markup = cents(q.Cost * b.r.Markup)
	q.Tax = cents((q.Cost + q.Markup) * b.r.Tax)
	q.Total = cents(q.Cost + q.Markup + q.Tax)
}
