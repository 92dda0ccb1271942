package quote

import (
	_ "embed"
	"html/template"
	"io"
)

//go:embed page.html
var pageText string

var pageTemplate = template.Must(template.New("quote").Funcs(template.FuncMap{"number": number, "rate": rate}).Parse(pageText))

// WriteHTML writes the quote as one page that needs no other file and no script,
// to print on A4 or Letter.
func (q Quote) WriteHTML(w io.Writer) error {
	type section struct {
		Name  Section
		Lines []Line
	}
	var all []section
	for _, l := range q.Lines {
		if len(all) == 0 || all[len(all)-1].Name != l.Section {
			all = append(all, section{Name: l.Section})
		}
		s := &all[len(all)-1]
		s.Lines = append(s.Lines, l)
	}
	type row struct {
		Name   string
		Amount float64
	}
	var totals []row
	for _, t := range q.totals() {
		totals = append(totals, row{t.name, t.amount})
	}
	return pageTemplate.Execute(w, map[string]any{"Q": q, "Sections": all, "Totals": totals})
}
