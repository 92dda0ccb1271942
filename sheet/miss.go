package sheet

import (
	"context"
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

// A Miss says why a part that was left out is not on a sheet, and by how little.
type Miss struct {
	Part   int
	Stock  int    // index in the list; -1 where there is none of its material and thickness
	Sheet  int    // index in the layout; -1 for an empty sheet of the stock
	Reason Reason // of this sheet
	// Long and Wide are by how much the part, as it comes nearest to fitting, is
	// too long along the sheet or too wide for it as a box, in mm.
	Long, Wide float64
	Text       string // in one line
}

// Misses lists, for each part that a layout of [Nest] leaves out, the causes: one
// for each kind of stock, as to an empty sheet of it if there is one more, and
// one for each sheet in use, the nearest miss first. Boxes are measured, at the
// turns that a part may take; a part of any angle at those that the search begins
// with. Of opt it reads Gap, Margin and Tolerance. A [*ParamError], or
// [ParamErrors], tells of input that cannot be used.
func Misses(ctx context.Context, parts []Part, stock []Stock, l Layout, opt Options) ([]Miss, error) {
	if err := Check(parts, stock, l, opt); err != nil {
		return nil, err
	}
	var out []Miss
	r := newRun(ctx, parts, stock, group{}, opt)
	rooms := make([]*rects.Clearing, len(l.Sheets))
	seen := map[int]bool{}
	for _, u := range l.Unplaced {
		if seen[u.Part] {
			continue
		}
		seen[u.Part] = true
		m := r.misses(u.Part, l, rooms)
		slices.SortStableFunc(m, compareMiss)
		out = append(out, m...)
	}
	return out, nil
}

// compareMiss puts the nearest miss first, and what no play would help last.
func compareMiss(a, b Miss) int {
	far := func(m Miss) float64 {
		if d := math.Hypot(m.Long, m.Wide); d > 0 {
			return d
		}
		return math.Inf(1)
	}
	switch x, y := far(a), far(b); {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return 0
}

func (r *run) misses(part int, l Layout, rooms []*rects.Clearing) (out []Miss) {
	p := r.parts[part]
	used := make([]int, len(r.stock))
	for _, s := range l.Sheets {
		used[s.Stock]++
	}
	for _, i := range stockFor(p, r.stock) {
		st := r.stock[i]
		m := Miss{Part: part, Stock: i, Sheet: -1}
		switch {
		case len(angles(p, st)) == 0:
			m.Reason = WrongTurn
			m.Text = fmt.Sprintf("%q has no turn that suits the grain of %s", p.Name, r.called(i))
		case st.Count > 0 && used[i] >= st.Count:
			continue
		default:
			r.missOn(&m, &rects.Clearing{}, fmt.Sprintf("an empty sheet of %s", r.called(i)))
		}
		out = append(out, m)
	}
	for k, s := range l.Sheets {
		if st := r.stock[s.Stock]; !slices.Contains(stockFor(p, r.stock), s.Stock) || len(angles(p, st)) == 0 {
			continue
		}
		if rooms[k] == nil {
			rooms[k] = r.roomOn(s)
		}
		m := Miss{Part: part, Stock: s.Stock, Sheet: k}
		r.missOn(&m, rooms[k], fmt.Sprintf("the room on sheet %d, %s", k+1, r.called(s.Stock)))
		out = append(out, m)
	}
	if len(out) == 0 && len(stockFor(p, r.stock)) == 0 {
		out = append(out, Miss{Part: part, Stock: -1, Sheet: -1, Reason: NoStock, Text: fmt.Sprintf("%q: there is no stock of %q, %g mm", p.Name, p.Material, p.Thickness)})
	}
	return out
}

// called names a kind of stock, or tells its place in the list.
func (r *run) called(i int) string {
	if r.stock[i].Name != "" {
		return fmt.Sprintf("%q", r.stock[i].Name)
	}
	return fmt.Sprintf("stock %d", i)
}

// missOn measures by how much a part misses a room; none stands for an empty
// sheet's.
func (r *run) missOn(m *Miss, room *rects.Clearing, where string) {
	p, st := r.parts[m.Part], r.stock[m.Stock]
	if m.Sheet < 0 {
		room = r.roomOn(Sheet{Stock: m.Stock})
	}
	m.Reason = NoRoom
	if m.Sheet < 0 {
		m.Reason = TooLarge
	}
	best := math.Inf(1)
	for _, a := range angles(p, st) {
		b := p.Outline.Transform(arc.Rotate(a)).Bounds()
		size := rects.Size{W: b.Max.X - b.Min.X, H: b.Max.Y - b.Min.Y}
		long, wide := r.shortBy(room, size)
		if d := math.Hypot(long, wide); d < best {
			best, m.Long, m.Wide = d, long, wide
		}
	}
	switch {
	case best == 0 && p.Set != "":
		m.Reason = SetSplit
		m.Text = fmt.Sprintf("%q goes on %s, its set %q does not", p.Name, where, p.Set)
	case best == 0:
		m.Reason = NoTime
		m.Text = fmt.Sprintf("%q goes on %s, which the search did not come to", p.Name, where)
	case math.IsInf(best, 1):
		m.Long, m.Wide = 0, 0
		m.Text = fmt.Sprintf("%q: there is no room at all in %s", p.Name, where)
	default:
		m.Text = fmt.Sprintf("%q is %s for %s", p.Name, tooMuch(m.Long, m.Wide), where)
	}
}

func tooMuch(long, wide float64) string {
	switch {
	case wide == 0:
		return fmt.Sprintf("%.3g mm too long", long)
	case long == 0:
		return fmt.Sprintf("%.3g mm too wide", wide)
	}
	return fmt.Sprintf("%.3g mm too long and %.3g mm too wide", long, wide)
}

// shortBy returns the least by which a box has to be shorter or narrower, or
// both in step, to have room; infinite where nothing helps.
func (r *run) shortBy(room *rects.Clearing, size rects.Size) (long, wide float64) {
	stop := func() bool { return r.ctx.Err() != nil }
	fits := func(l, w float64) bool {
		_, ok := room.Place(rects.Size{W: size.W - l, H: size.H - w}, stop)
		return ok
	}
	if fits(0, 0) {
		return 0, 0
	}
	long, wide = math.Inf(1), math.Inf(1)
	for _, d := range [3][2]float64{{size.W, 0}, {0, size.H}, {size.W, size.H}} {
		if !fits(0.999*d[0], 0.999*d[1]) {
			continue
		}
		lo, hi := 0.0, 0.999
		for hi-lo > 1e-7 {
			if m := (lo + hi) / 2; fits(m*d[0], m*d[1]) {
				hi = m
			} else {
				lo = m
			}
		}
		if math.Hypot(hi*d[0], hi*d[1]) < math.Hypot(long, wide) {
			long, wide = hi*d[0], hi*d[1]
		}
	}
	return long, wide
}
