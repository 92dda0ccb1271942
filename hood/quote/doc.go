// Package quote prices a hood: what goes into it, counted from the design and
// its sheets, times what a shop pays and takes for it.
//
// A [Takeoff] holds the quantities, none of them money: sheets as the layout
// draws them from the stock, offcuts it gives back, machine minutes, panels to
// bend, plies, moldings, edges to band, areas to finish and to glue, and the
// volume of the kerfs. [Rates] hold what the shop states: prices, minutes for
// a piece of work, markup and tax. [New] multiplies the two line by line.
//
// # What a quote does not hide
//
// A rate of 0 is one that is not known. Its line stands in the quote without an
// amount, marked as not priced, and [Quote.Complete] is false: no sum stands
// for a line it does not hold. Amounts are rounded to hundredths line by line,
// and totals are sums of the rounded lines, so that they add up on paper.
//
// [ExampleRates] are invented, to try the package with, and say so in every
// quote made from them.
//
// A quote is arithmetic on the rates it is given. Insert, blower, duct work,
// electrical work and fixing to the wall are for licensed practice and stand in
// a quote only where the rates list them.
package quote
