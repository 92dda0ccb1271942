package quote

// ExampleRates returns invented rates, to try the package with. No figure in it
// is a price of anything.
func ExampleRates() Rates {
	return Rates{
		Version: ratesVersion, Title: "invented rates", Example: true, Currency: "USD", Machine: 84, Labor: 52,
		Work: Work{Job: 90, Sheet: 12, Part: 4, SawEdge: 6, Band: 5, Kerfed: 45, Ply: 10, Assembly: 9, Miter: 8, Finish: 14},
		Use:  Use{Glue: 2.5, Fill: 11, Band: 0.9, Finish: 3.2, Coats: 3},
		Molding: Molding{
			Band: []Bar{{2440, 14}, {4880, 26}}, Crown: []Bar{{2440, 22}, {4880, 41}}, Miter: 120, Kerf: 3,
		},
		Extras: []Extra{{"screws for the cleat, to be chosen by who fixes it", 8, "", 0.75}},
		Markup: 0.3,
	}
}
