package sheet

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/internal/clear"
)

// A SharedCut is a stretch along which straight edges of two parts lie exactly one
// cutter apart, so that one pass cuts both.
type SharedCut struct {
	Sheet    int    // index in the layout
	A, B     int    // indices in its placements
	From, To r2.Vec // of the cutter's center, with A on its left and B on its right
}

const (
	shareOff   = 1e-3 // mm, by which two edges may be off the diameter
	shareTwist = 1e-6 // rad, by which they may be off parallel: 0.001 mm over a meter
	shareLeast = 1    // cutters, that a stretch is long at least
	shareReach = 4    // cutters, that a part is moved for at most
	shareRound = 3    // times that all parts are looked at
)

// SharedCuts lists the stretches of a layout along which one pass of a cutter of a
// diameter cuts two parts, to within 0.001 mm. It is a [*ParamError] if the diameter
// is not above 0 or the layout names parts that are not there.
func SharedCuts(parts []Part, l Layout, diameter float64) ([]SharedCut, error) {
	const fn = "sheet.SharedCuts"
	if err := needSize(fn, "diameter", diameter); err != nil {
		return nil, err
	}
	c := &checker{parts: parts}
	var out []SharedCut
	for i, s := range l.Sheets {
		var all []straightEdges
		for _, q := range s.Placements {
			if !c.known(q.Part) || !finite(q) {
				return nil, &ParamError{Func: fn, Param: "l", Value: q.Part, Need: "placements of the parts", Err: ErrIllegal}
			}
			all = append(all, straights(parts[q.Part], q))
		}
		for a := range all {
			for b := a + 1; b < len(all); b++ {
				all[a].facing(all[b], diameter+shareOff, diameter, func(f facing) {
					if math.Abs(f.apart-diameter) <= shareOff {
						out = append(out, SharedCut{i, a, b, f.from, f.to})
					}
				})
			}
		}
	}
	return out, nil
}

// straightEdges are the straight edges of a part in place.
type straightEdges struct {
	box   r2.Box
	edges [][2]r2.Vec
}

func straights(p Part, q Placement) (out straightEdges) {
	g := p.Outline.Transform(q.Motion())
	out.box = g.Bounds()
	for _, l := range g.Loops() {
		for i := range l.NumSegments() {
			if s := l.Segment(i); s.K == 0 && s.A != s.B {
				out.edges = append(out.edges, [2]r2.Vec{s.A, s.B})
			}
		}
	}
	return out
}

// A facing is a stretch of two parallel edges of two parts with their materials on
// the far sides.
type facing struct {
	apart    float64
	away     r2.Vec // from the first to the second, of length 1
	from, to r2.Vec // along the middle, with the first part on the left
}

// facing finds the stretches of edges of two parts that are no more than far apart.
func (p straightEdges) facing(q straightEdges, far, diameter float64, found func(facing)) {
	if !clear.Near(p.box, q.box, far) {
		return
	}
	for _, e := range p.edges {
		d := r2.Sub(e[1], e[0])
		n := r2.Norm(d)
		u := r2.Scale(1/n, d)
		right := r2.Vec{X: u.Y, Y: -u.X}
		for _, f := range q.edges {
			v := r2.Sub(f[1], f[0])
			if r2.Dot(u, v) >= 0 || math.Abs(r2.Cross(u, v)) > shareTwist*r2.Norm(v) {
				continue
			}
			a, b := r2.Sub(f[0], e[0]), r2.Sub(f[1], e[0])
			apart := (r2.Dot(a, right) + r2.Dot(b, right)) / 2
			lo, hi := math.Max(0, r2.Dot(b, u)), math.Min(n, r2.Dot(a, u))
			if apart <= 0 || apart > far || hi-lo < shareLeast*diameter {
				continue
			}
			mid := r2.Add(e[0], r2.Scale(apart/2, right))
			found(facing{apart, right, r2.Add(mid, r2.Scale(lo, u)), r2.Add(mid, r2.Scale(hi, u))})
		}
	}
}

// share moves parts toward the origin of their sheets so that straight edges come
// to lie the gap apart, where that makes the shared cuts longer. Nothing moves away
// from it, so that the offcuts beyond the parts get no smaller; what stands, stays.
func (l *Layout) share(ctx context.Context, parts []Part, stock []Stock, opt Options) {
	stop := opt.afterwards(ctx)
	for i := range l.Sheets {
		s := &l.Sheets[i]
		s.Placements = slices.Clone(s.Placements)
		h := &sharing{checker: checker{parts: parts, stock: stock, opt: opt}, sheet: s, stock: stock[s.Stock]}
		h.opt.Eps = opt.eps() / 2
		for _, q := range s.Placements {
			h.add(q)
		}
		var stands []Placement
		if i < len(opt.Fixed) {
			stands = opt.Fixed[i].Placements
		}
		for range shareRound {
			moved := false
			for _, k := range h.nearest() {
				if stop() {
					return
				}
				moved = !slices.Contains(stands, s.Placements[k]) && h.join(k) || moved
			}
			if !moved {
				break
			}
		}
	}
}

// A sharing is a sheet on which parts are moved together.
type sharing struct {
	checker
	sheet  *Sheet
	stock  Stock
	bodies []*laid
	all    []straightEdges
}

func (h *sharing) add(q Placement) {
	h.bodies = append(h.bodies, lay(h.parts[q.Part].Outline.Transform(q.Motion())))
	h.all = append(h.all, straights(h.parts[q.Part], q))
}

// nearest lists the placements from the origin outward.
func (h *sharing) nearest() []int {
	out := make([]int, len(h.all))
	for k := range out {
		out[k] = k
	}
	slices.SortStableFunc(out, func(a, b int) int {
		p, q := h.all[a].box.Min, h.all[b].box.Min
		return cmp.Compare(p.X+p.Y, q.X+q.Y)
	})
	return out
}

// shared returns the length of the cuts that placement k shares.
func (h *sharing) shared(k int, p straightEdges) (sum float64) {
	for j := range h.all {
		if j != k {
			p.facing(h.all[j], h.opt.Gap+shareOff, h.opt.Gap, func(f facing) {
				if math.Abs(f.apart-h.opt.Gap) <= shareOff {
					sum += r2.Norm(r2.Sub(f.to, f.from))
				}
			})
		}
	}
	return sum
}

// join moves placement k up to a neighbor where it then shares more.
func (h *sharing) join(k int) bool {
	best, most := r2.Vec{}, h.shared(k, h.all[k])+1e-6
	var moves []r2.Vec
	for j := range h.all {
		if j != k {
			h.all[k].facing(h.all[j], (1+shareReach)*h.opt.Gap, h.opt.Gap, func(f facing) {
				if v := r2.Scale(f.apart-h.opt.Gap, f.away); v.X <= 1e-12 && v.Y <= 1e-12 && v != (r2.Vec{}) {
					moves = append(moves, v)
				}
			})
		}
	}
	part := h.parts[h.sheet.Placements[k].Part]
	for _, v := range moves {
		q := h.sheet.Placements[k]
		q.At = r2.Add(q.At, v)
		p := straights(part, q)
		if n := h.shared(k, p); n > most && h.legal(k, lay(part.Outline.Transform(q.Motion()))) {
			best, most = v, n
		}
	}
	if best == (r2.Vec{}) {
		return false
	}
	q := &h.sheet.Placements[k]
	q.At = r2.Add(q.At, best)
	h.bodies[k], h.all[k] = lay(part.Outline.Transform(q.Motion())), straights(part, *q)
	return true
}

// legal reports whether placement k may lie so, to half of what Check forgives.
func (h *sharing) legal(k int, b *laid) bool {
	need := h.opt.Margin - h.opt.Eps
	if h.stock.irregular() {
		out := clear.NewBody(h.stock.Outline)
		out.Outside = true
		if _, bad := clear.TooNear(b.body(), out, need); bad {
			return false
		}
	} else if _, bad := frameBreach(b.box, h.stock, need); bad {
		return false
	}
	near := func(o *laid) bool { _, bad := h.near(o, b); return bad }
	return !slices.ContainsFunc(h.stock.Forbidden, func(g arc.Region) bool { return near(lay(g)) }) &&
		!slices.ContainsFunc(h.bodies, func(o *laid) bool { return o != h.bodies[k] && near(o) })
}
