package sheet

import (
	"cmp"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/internal/clear"
	"gonum.org/v1/gonum/spatial/r2"
)

const (
	touchCopies = 60   // more than that are left to the search
	touchPlaces = 500  // places tried for one copy on one sheet
	touchTests  = 2e4  // and for all
	touchRounds = 300  // circles whose pairs are looked at
	touchShare  = 0.25 // of the time, before the search with outlines
	touchRest   = 40   // part of the time, inverse, that is kept for the end
	touchSlack  = 4    // play of concentric arcs that the search may miss, in tolerances
)

// touch tries to place what the search left out where arcs touch exactly: the
// polygons that the search works with stand off the arcs, so that it misses a
// disc in a hole of its own size. It adds to the best plan, then begins anew
// without it, and at the end tries to empty a sheet. Whether a place is legal is
// measured as [Check] does. It ends with a share of the time.
func (r *run) touch(best **plan, share float64) {
	late := func() bool { return r.past(share) }
	if r.count() > touchCopies {
		return
	}
	for _, sheets := range [2][]Sheet{(*best).sheets, nil} {
		if !r.done(*best) && !late() {
			r.keep(best, r.touched(sheets, (*best).large, late))
		}
	}
	for share == 1 && r.mayTouch() && len((*best).sheets) > 1 && !late() && r.keep(best, r.emptied(*best, late)) {
	}
}

// touched returns a plan that keeps the given sheets and places what it can of
// the other copies.
func (r *run) touched(sheets []Sheet, large []bool, late func() bool) *plan {
	t := &toucher{run: r, late: late, draw: r.cheapestFirst()}
	for _, s := range sheets {
		t.open(s)
	}
	p := &plan{left: r.copies(), large: slices.Clone(large)}
	for k, i := range r.group.parts {
		var left []int
		for _, c := range p.left[k] {
			if !t.has(i, c) && (r.parts[i].Set != "" || !t.put(i, c)) {
				left = append(left, c)
			}
		}
		p.left[k] = left
	}
	for _, s := range t.sheets {
		if len(s.Placements) > 0 {
			p.sheets = append(p.sheets, s.Sheet)
		}
	}
	return p
}

// A toucher places copies against the arcs of what lies on its sheets.
type toucher struct {
	*run
	late   func() bool
	tests  int
	draw   draw
	sheets []*touchSheet
}

type touchSheet struct {
	Sheet
	bodies []*clear.Body // of the placements, then of the forbidden regions
	edge   *clear.Body   // of an irregular sheet
	rounds []clear.Round
}

func (t *toucher) open(s Sheet) *touchSheet {
	if t.draw.avail[s.Stock] > 0 {
		t.draw.avail[s.Stock]--
	}
	n := &touchSheet{Sheet: Sheet{Stock: s.Stock}}
	st := t.stock[s.Stock]
	for _, f := range st.Forbidden {
		n.bodies = append(n.bodies, clear.NewBody(f))
		n.rounds = append(n.rounds, clear.RoundsOf(f, t.opt.Gap)...)
	}
	if st.irregular() {
		n.edge = clear.NewBody(st.Outline)
		n.edge.Outside = true
		for _, o := range clear.RoundsOf(st.Outline, -t.opt.Margin) {
			o.Hollow = !o.Hollow
			n.rounds = append(n.rounds, o)
		}
	}
	for _, q := range s.Placements {
		t.add(n, q)
	}
	t.sheets = append(t.sheets, n)
	return n
}

func (t *toucher) add(s *touchSheet, q Placement) {
	g := t.parts[q.Part].Outline.Transform(q.Motion())
	s.Placements = append(slices.Clip(s.Placements), q)
	s.bodies = append(s.bodies, clear.NewBody(g))
	s.rounds = append(s.rounds, clear.RoundsOf(g, t.opt.Gap)...)
}

func (t *toucher) has(part, c int) bool {
	for _, s := range t.sheets {
		if slices.ContainsFunc(s.Placements, func(q Placement) bool { return q.Part == part && q.Copy == c }) {
			return true
		}
	}
	return false
}

// putOpen places a copy on an open sheet.
func (t *toucher) putOpen(part, c int) bool {
	return slices.ContainsFunc(t.sheets, func(s *touchSheet) bool { return t.putOn(s, part, c) })
}

// put places a copy on an open sheet or else on a fresh one.
func (t *toucher) put(part, c int) bool {
	if t.putOpen(part, c) {
		return true
	}
	for _, i := range t.draw.order {
		if t.draw.avail[i] == 0 {
			continue
		}
		n := len(t.sheets)
		if t.putOn(t.open(Sheet{Stock: i}), part, c) {
			return true
		}
		t.sheets = t.sheets[:n]
		if t.draw.avail[i] >= 0 {
			t.draw.avail[i]++
		}
	}
	return false
}

// putOn places a copy at the leftmost, then lowest place that is legal.
func (t *toucher) putOn(s *touchSheet, part, c int) bool {
	var places []Placement
	for _, a := range angles(t.parts[part], t.stock[s.Stock]) {
		g := t.parts[part].Outline.Transform(arc.Rotate(a))
		for _, v := range t.places(s, g) {
			places = append(places, Placement{Part: part, Copy: c, At: v, Rotate: a})
		}
		if _, ok := clear.Disc(g); ok {
			break
		}
	}
	slices.SortStableFunc(places, func(p, q Placement) int {
		return cmp.Or(cmp.Compare(math.Round(p.At.X*1e6), math.Round(q.At.X*1e6)), cmp.Compare(p.At.Y, q.At.Y))
	})
	for _, q := range places[:min(len(places), touchPlaces)] {
		if t.tests++; t.tests > touchTests || t.late() {
			return false
		}
		if t.legal(s, clear.NewBody(t.parts[part].Outline.Transform(q.Motion()))) {
			t.add(s, q)
			return true
		}
	}
	return false
}

// legal reports whether a part keeps its distances, to half of what Check
// forgives.
func (t *toucher) legal(s *touchSheet, b *clear.Body) bool {
	st, eps := t.stock[s.Stock], t.opt.eps()/2
	bad := false
	if s.edge != nil {
		_, bad = clear.TooNear(b, s.edge, t.opt.Margin-eps)
	} else {
		_, bad = frameBreach(b.Box, st, t.opt.Margin-eps)
	}
	for _, o := range s.bodies {
		if bad {
			return false
		}
		if clear.Near(b.Box, o.Box, math.Max(0, t.opt.Gap)) {
			_, bad = clear.TooNear(b, o, t.opt.Gap-eps)
		}
	}
	return !bad
}

// places lists where a region may be moved: with an arc of its own concentric
// to one of the sheet that it fits, and, if it is a disc, touching two things.
func (t *toucher) places(s *touchSheet, g arc.Region) []r2.Vec {
	var out []r2.Vec
	for _, a := range clear.RoundsOf(g, 0) {
		for _, b := range s.rounds {
			play := b.R - a.R
			if a.Hollow {
				play = -play
			}
			if a.Hollow != b.Hollow && play > -1e-9*b.R && play < touchSlack*t.opt.tolerance() {
				out = append(out, r2.Sub(b.C, a.C))
			}
		}
	}
	if d, ok := clear.Disc(g); ok {
		for _, v := range t.tangent(s, d.R) {
			out = append(out, r2.Sub(v, d.C))
		}
	}
	return out
}

// tangent lists centers of a disc of radius r that touches two arcs, or an arc
// and an edge, or two edges of the sheet, or one arc at its left end.
func (t *toucher) tangent(s *touchSheet, r float64) []r2.Vec {
	var circles []clear.Round
	for _, b := range s.rounds[:min(len(s.rounds), touchRounds)] {
		switch {
		case !b.Hollow:
			circles = append(circles, clear.Round{C: b.C, R: b.R + r})
		case b.R > r:
			circles = append(circles, clear.Round{C: b.C, R: b.R - r})
		}
	}
	var out []r2.Vec
	for i, a := range circles {
		out = append(out, r2.Sub(a.C, r2.Vec{X: a.R}))
		for _, b := range circles[:i] {
			out = append(out, a.Meets(b)...)
		}
	}
	if s.edge != nil {
		return out
	}
	m := t.opt.Margin + r
	xs := [2]float64{m, t.stock[s.Stock].Length - m}
	ys := [2]float64{m, t.stock[s.Stock].Width - m}
	for k := range 2 {
		for _, a := range circles {
			for _, h := range a.HalfChord(xs[k] - a.C.X) {
				out = append(out, r2.Vec{X: xs[k], Y: a.C.Y + h})
			}
			for _, h := range a.HalfChord(ys[k] - a.C.Y) {
				out = append(out, r2.Vec{X: a.C.X + h, Y: ys[k]})
			}
		}
		out = append(out, r2.Vec{X: xs[k], Y: ys[0]}, r2.Vec{X: xs[k], Y: ys[1]})
	}
	return out
}
