package quote_test

import (
	"fmt"

	"example.com/sagitta/hood/quote"
	"example.com/sagitta/sheet"
)

// Two sheets and forty minutes at the router. Nothing is said of what an hour of
// labor costs, so labor stands in the quote without an amount.
func ExampleNew() {
	rates := quote.Rates{Version: 1, Currency: "USD", Machine: 90, Markup: 0.25, Work: quote.Work{Assembly: 10}}
	q, err := quote.New(quote.Takeoff{
		Sheets: []sheet.Taken{{Name: "mdf 19", Count: 2, Cost: 128}}, Minutes: 40, Assembled: 11,
	}, rates)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range q.Lines {
		if l.Priced {
			fmt.Printf("%s, %s: %.2f\n", l.Section, l.Item, l.Amount)
		}
	}
	fmt.Printf("total %.2f %s, %.1f h of labor, %d lines not priced\n", q.Total, q.Currency, q.Hours, q.Unpriced)
	// Output:
	// sheets, mdf 19: 128.00
	// machine, router: 60.00
	// total 235.00 USD, 1.8 h of labor, 3 lines not priced
}
