package sheet

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Nest places the parts on sheets of the stock and returns the best layout
// that it finds within the budget of opt, which has passed [Check]. Of two
// layouts the better one leaves less area unplaced, then costs less, then
// opens less area of sheets, then leaves the larger rectangle whole.
//
// Copies that find no place are listed with a reason, which is no error. A
// [*ParamError], or [ParamErrors] where there are several, tells of parts, stock
// or options that cannot be used. When ctx
// ends Nest returns what it has, with Stopped set.
func Nest(ctx context.Context, parts []Part, stock []Stock, opt Options) (Layout, error) {
	const fn = "sheet.Nest"
	opt.began = opt.now()
	if err := checkInput(fn, parts, stock, opt); err != nil {
		return Layout{}, err
	}
	search := nest
	if len(opt.Fixed) > 0 {
		if err := checkFixed(fn, parts, stock, opt); err != nil {
			return Layout{}, err
		}
		search = nestAround
	}
	parts = measured(parts)
	defer opt.startReports()()
	l, err := search(ctx, parts, stock, opt)
	if err != nil {
		return Layout{}, err
	}
	l.Stopped = ctx.Err() != nil
	if opt.Share && opt.Gap > 0 {
		l.share(ctx, parts, stock, opt)
	}
	finish(&l, parts, stock, opt, wholeSheets)
	l.moreOffcuts(ctx, parts, stock, opt)
	return l, nil
}

// nest lays out group after group.
func nest(ctx context.Context, parts []Part, stock []Stock, opt Options) (l Layout, err error) {
	all := groups(parts, stock)
	for i, g := range all {
		r := newRun(ctx, parts, stock, g, opt.share(i, all, parts))
		r.before = l
		done := r.watch(i == len(all)-1)
		best, err := r.search()
		done()
		if err != nil {
			return Layout{}, err
		}
		l.add(r.gather(r.sound(best)), r)
	}
	return l, nil
}

// add joins the result of a group to the layout.
func (l *Layout) add(p *plan, r *run) {
	for _, s := range p.sheets {
		slices.SortFunc(s.Placements, func(a, b Placement) int {
			return cmp.Or(cmp.Compare(a.Part, b.Part), cmp.Compare(a.Copy, b.Copy))
		})
		l.Sheets = append(l.Sheets, s)
	}
	l.leaveOut(r.unplaced(p))
	l.Iterations += r.iterations
}

func (l *Layout) leaveOut(more []Unplaced) {
	l.Unplaced = append(l.Unplaced, more...)
	slices.SortFunc(l.Unplaced, func(a, b Unplaced) int {
		return cmp.Or(cmp.Compare(a.Part, b.Part), cmp.Compare(a.Copy, b.Copy))
	})
}

// finish fills in what follows from the placements.
func finish(l *Layout, parts []Part, stock []Stock, opt Options, frame framing) {
	placed, total := 0.0, 0.0
	sizes := sizesOf(parts)
	l.Cost = 0
	for i := range l.Sheets {
		s := &l.Sheets[i]
		st := stock[s.Stock]
		sum := s.area(sizes)
		s.Use = sum / st.Area()
		s.Offcuts = offcuts(*s, parts, st, frame(s.Stock, st), opt)
		placed += sum
		total += st.Area()
		l.Cost += st.Price
	}
	if total > 0 {
		l.Use = placed / total
	}
	l.waste(placed, total)
}

// waste works out the waste, given the area of the parts and of the sheets.
func (l *Layout) waste(placed, total float64) {
	kept := 0.0
	for _, s := range l.Sheets {
		for _, o := range s.Offcuts {
			kept += o.Stock.Area()
		}
	}
	l.Waste = math.Max(0, total-placed-kept)
}
