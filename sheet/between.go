package sheet

import (
	"cmp"
	"context"
	"slices"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

const (
	mostOffcuts = 8    // of a sheet
	leastOffcut = 0.01 // of its area, for those that no cut across it frees
	offcutTime  = 20   // part of the limit of time, inverse, that they may take beyond it
	offcutLeast = 4 * time.Millisecond
	offcutMost  = 500 * time.Millisecond
)

// moreOffcuts finds offcuts between the parts and on sheets of any outline: the
// largest clear rectangle, then the largest in what is left, and so on; or all
// that is left by its true outline. Sheets that there is no time for keep those
// they have.
func (l *Layout) moreOffcuts(ctx context.Context, parts []Part, stock []Stock, opt Options) {
	stop := opt.afterwards(ctx)
	placed, total := 0.0, 0.0
	sizes := sizesOf(parts)
	for i := range l.Sheets {
		s := &l.Sheets[i]
		st := stock[s.Stock]
		placed, total = placed+s.area(sizes), total+st.Area()
		if stop() || len(s.Placements) == 0 {
			continue
		}
		if !opt.TrueOffcuts {
			s.Offcuts = append(s.Offcuts, between(*s, parts, st, opt, stop)...)
		} else if o, ok := outlined(*s, parts, st, opt); ok {
			s.Offcuts = o
		}
	}
	l.waste(placed, total)
}

// afterwards returns what tells that the little time is over that may be taken when
// the search is over.
func (o Options) afterwards(ctx context.Context) (stop func() bool) {
	from := o.now()
	most := max(offcutLeast, min(o.Time/offcutTime, offcutMost))
	return func() bool {
		if ctx.Err() != nil {
			return o.since(from) > offcutLeast
		}
		return o.Time > 0 && o.since(from) > most
	}
}

// between returns clear rectangles beside the offcuts that a sheet has, which
// keep the gap from these too.
func between(s Sheet, parts []Part, st Stock, opt Options, stop func() bool) []Offcut {
	c, ok := st.clearing(0, opt.Gap, opt.tolerance())
	if !ok {
		return nil
	}
	for _, p := range s.Placements {
		c.Solids = append(c.Solids, solidLoops(parts[p.Part].Outline.Transform(p.Motion()), opt.Gap, opt.tolerance()))
	}
	for _, o := range s.Offcuts {
		b := arc.Rect(o.At.X, o.At.Y, o.At.X+o.Stock.Length, o.At.Y+o.Stock.Width)
		c.Solids = append(c.Solids, solidLoops(arc.Region{Outer: b}, opt.Gap, opt.tolerance()))
	}
	var out []Offcut
	for len(s.Offcuts)+len(out) < mostOffcuts {
		b := c.Largest(stop)
		size := r2.Sub(b.Max, b.Min)
		if area(b) < leastOffcut*st.Area() || min(size.X, size.Y) < opt.LeastSide {
			break
		}
		out = append(out, Offcut{b.Min, st.piece(b, arc.Region{})})
		c.Solids = append(c.Solids, solidLoops(arc.Region{Outer: arc.Rect(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)}, opt.Gap, opt.tolerance()))
	}
	return out
}

// outlined returns what is left of a sheet beyond the gap from its parts, piece
// by piece, the largest first.
func outlined(s Sheet, parts []Part, st Stock, opt Options) (out []Offcut, ok bool) {
	var taken []arc.Region
	for _, p := range s.Placements {
		g := parts[p.Part].Outline.Transform(p.Motion())
		grown := []arc.Region{g}
		if opt.Gap > 0 {
			var err error
			if grown, err = g.Offset(opt.Gap, arc.OffsetOptions{}); err != nil {
				return nil, false
			}
		}
		taken = append(taken, grown...)
	}
	left, err := arc.Difference([]arc.Region{st.Shape()}, taken, 0)
	if err != nil {
		return nil, false
	}
	for _, g := range left {
		b := g.Bounds()
		size := r2.Sub(b.Max, b.Min)
		if checkRegion("", "", g) == nil && g.Area() >= leastOffcut*st.Area() && min(size.X, size.Y) >= opt.LeastSide {
			out = append(out, Offcut{b.Min, st.piece(b, g)})
		}
	}
	slices.SortStableFunc(out, func(a, b Offcut) int { return -cmp.Compare(a.Stock.Area(), b.Stock.Area()) })
	return out[:min(len(out), mostOffcuts)], true
}
