package quote

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"strconv"
	"strings"
)

// WriteJSON writes the quote as JSON, with the names of its fields in small
// letters as keys.
func (q Quote) WriteJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(q)
}

// WriteCSV writes a row a line and then the totals, whose section is "total".
// The amounts of all rows but cost and total add up to the total. An amount
// that is not known is empty. A text that a spreadsheet would take for a
// formula gets an apostrophe in front.
func (q Quote) WriteCSV(w io.Writer) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"section", "item", "quantity", "unit", "each", "amount", "currency"}}
	for _, l := range q.Lines {
		row := []string{string(l.Section), plain(l.Item), rate(l.Quantity), plain(l.Unit), "", "", plain(q.Currency)}
		if l.Priced {
			row[4], row[5] = rate(l.Each), number(l.Amount)
		}
		rows = append(rows, row)
	}
	for _, t := range q.totals() {
		rows = append(rows, []string{"total", t.name, "", "", "", number(t.amount), plain(q.Currency)})
	}
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	return c.Error()
}

type total struct {
	name   string
	amount float64
}

// totals returns the totals in their order, without those that are nothing.
func (q Quote) totals() []total {
	out := []total{{"cost", q.Cost}}
	if q.Markup != 0 {
		out = append(out, total{"markup", q.Markup})
	}
	if q.Tax != 0 {
		out = append(out, total{"tax", q.Tax})
	}
	name := "total"
	if !q.Complete() {
		name = "total without what is not priced"
	}
	return append(out, total{name, q.Total})
}

// number prints hundredths.
func number(x float64) string { return strconv.FormatFloat(cents(x), 'f', 2, 64) }

// rate prints a quantity or a price of one: hundredths, or up to four digits
// where it has them.
func rate(x float64) string {
	s := strings.TrimRight(strconv.FormatFloat(fine(x), 'f', 4, 64), "0")
	for len(s)-strings.IndexByte(s, '.') < 3 {
		s += "0"
	}
	return s
}

// plain keeps a text from being run as a formula.
func plain(s string) string {
	if s != "" && (s[0] == '=' || s[0] == '+' || s[0] == '-' || s[0] == '@' || s[0] == '\t' || s[0] == '\r') {
		return "'" + s
	}
	return s
}
