// Command quote prices a list of hoods, one a row, on all cores, and prints one
// total a row. The rates are invented: they show the arithmetic.
//
//	quote [FILE]
//
// A row of the file, or of the list that stands for it, is name, width, height,
// depth, depth at the neck and sag of the cove, in mm.
package main

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"

	"example.com/sagitta/hood"
	"example.com/sagitta/hood/quote"
	"example.com/sagitta/sheet"
)

const list = `Fenwright,1130,905,520,290,48
Ostrander,980,860,500,280,40
Larkmoor,1370,960,540,310,55
Tolliver,760,820,480,300,-30`

func main() {
	in := io.Reader(strings.NewReader(list))
	if len(os.Args) > 1 {
		f, err := os.Open(os.Args[1])
		exitOn(err)
		defer f.Close()
		in = f
	}
	exitOn(run(in, os.Stdout))
}

func run(in io.Reader, out io.Writer) error {
	rows, err := csv.NewReader(in).ReadAll()
	if err != nil {
		return err
	}
	lines := make([]string, len(rows))
	var wait sync.WaitGroup
	cores := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, row := range rows {
		cores <- struct{}{}
		wait.Go(func() {
			defer func() { <-cores }()
			q, err := price(row)
			if lines[i] = fmt.Sprintf("%s: %.2f %s, %.1f h of labor, %d lines not priced", q.Title, q.Total, q.Currency, q.Hours, q.Unpriced); err != nil {
				lines[i] = fmt.Sprintf("%s: %v", row[0], err)
			}
		})
	}
	wait.Wait()
	_, err = fmt.Fprintln(out, strings.Join(lines, "\n"))
	return err
}

// price builds one hood, lays it on sheets and prices it. The minutes of the
// router come with a cut program, which this does without.
func price(row []string) (quote.Quote, error) {
	var size [5]float64 // of the row, in its order; csv has seen to equal rows
	for i := range size {
		if i+1 >= len(row) {
			return quote.Quote{}, fmt.Errorf("%d values: need a name and 5 sizes", len(row))
		}
		mm, err := strconv.ParseFloat(row[i+1], 64)
		if err != nil {
			return quote.Quote{}, err
		}
		size[i] = mm
	}
	d, err := hood.Build(spec(row[0], size))
	if err != nil {
		return quote.Quote{}, err
	}
	var parts []sheet.Part
	for _, p := range d.Parts {
		parts = append(parts, p.OnSheet())
	}
	stock := []sheet.Stock{
		{Name: "mdf 19", Material: "mdf", Thickness: 19, Length: 2800, Width: 2070, Price: 64},
		{Name: "plywood 12", Material: "plywood", Thickness: 12, Length: 2500, Width: 1250, Price: 51},
	}
	layout, err := sheet.Nest(context.Background(), parts, stock, sheet.Options{Gap: 14, Margin: 15, Iterations: 10})
	if err != nil {
		return quote.Quote{}, err
	}
	if n := len(layout.Unplaced); n > 0 {
		return quote.Quote{}, fmt.Errorf("%d parts fit on no sheet", n)
	}
	t := quote.TakeOff(d)
	book, err := sheet.Book(row[0], stock, layout, 0)
	if err != nil {
		return quote.Quote{}, err
	}
	t.Sheets = book.Takes
	return quote.New(t, quote.ExampleRates())
}

// spec is a plain cove, or with a sag below 0 a bow.
func spec(name string, v [5]float64) hood.Spec {
	shape := "cove"
	if v[4] < 0 {
		shape, v[4] = "bow", -v[4]
	}
	return hood.Spec{
		Version: hood.Version, Title: name, Width: v[0], Height: v[1], Depth: v[2], Skirt: 130,
		Neck: hood.Neck{Depth: v[3]}, Sweep: hood.Sweep{Shape: shape, Sag: v[4]},
		Board: hood.Board{Material: "mdf", Thickness: 19, Sheets: []hood.Sheet{{Length: 2800, Width: 2070}}},
		Back:  hood.Back{Material: "plywood", Thickness: 12, Rabbet: 9},
		Bend:  hood.Bend{KerfWidth: 3.2, Web: 1.6, Facet: 0.1}, Cut: hood.Cut{Gap: 14, Margin: 15, Tool: 9.5},
	}
}

func exitOn(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
