package sheet

import (
	"cmp"
	"slices"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

const grace = 5 * time.Millisecond // past the limit of time

// insert puts copies that a plan left out, as boxes, where there is room for
// them on its sheets: what stands stays. It returns the plan itself where none
// goes in. Sets are left to the searches. It takes a little time past the limit.
func (r *run) insert(p *plan) *plan {
	out, changed := p.clone(), false
	out.left = slices.Clone(p.left)
	rooms := make([]*rects.Clearing, len(p.sheets))
	end := r.opt.now().Add(grace)
	stop := func() bool { return r.late() && r.opt.now().After(end) }
	for _, k := range r.largestFirst(p.left) {
		for len(out.left[k]) > 0 && !stop() {
			q, i, ok := r.spot(out, rooms, k, stop)
			if !ok {
				break
			}
			q.Copy = out.left[k][0]
			out.left[k] = out.left[k][1:]
			s := &out.sheets[i]
			s.Placements = append(slices.Clip(s.Placements), q)
			rooms[i].Solids = append(rooms[i].Solids, r.solidAt(q))
			changed = true
		}
	}
	if !changed {
		return p
	}
	return out
}

// largestFirst lists the parts that have copies left and are in no set, by
// priority, then size.
func (r *run) largestFirst(left [][]int) []int {
	var out []int
	for k, c := range left {
		if len(c) > 0 && r.parts[r.group.parts[k]].Set == "" {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return -cmp.Or(cmp.Compare(r.rank(a), r.rank(b)), cmp.Compare(r.areas[a], r.areas[b]))
	})
	return out
}

// spot returns a place for a copy of part k, and the sheet.
func (r *run) spot(p *plan, rooms []*rects.Clearing, k int, stop func() bool) (q Placement, sheet int, ok bool) {
	for i, s := range p.sheets {
		if rooms[i] == nil {
			rooms[i] = r.roomOn(s)
		}
		if q, ok = r.spotOn(rooms[i], s.Stock, k, stop); ok {
			return q, i, true
		}
	}
	return q, 0, false
}

func (r *run) spotOn(room *rects.Clearing, stock, k int, stop func() bool) (q Placement, ok bool) {
	part := r.group.parts[k]
	for _, a := range angles(r.parts[part], r.stock[stock]) {
		b := r.parts[part].Outline.Transform(arc.Rotate(a)).Bounds()
		low, ok := room.Place(rects.Size{W: b.Max.X - b.Min.X, H: b.Max.Y - b.Min.Y}, stop)
		if ok {
			return Placement{Part: part, At: r2.Sub(low, b.Min), Rotate: a}, true
		}
	}
	return q, false
}

// roomOn returns what is clear on a sheet for boxes that keep the margin and
// the gap.
func (r *run) roomOn(s Sheet) *rects.Clearing {
	c, ok := r.stock[s.Stock].clearing(r.opt.Margin, r.opt.Gap, r.opt.tolerance())
	if !ok {
		return &rects.Clearing{}
	}
	for _, q := range s.Placements {
		c.Solids = append(c.Solids, r.solidAt(q))
	}
	return &c
}

// solidAt returns the loops of a part in place, grown by the gap.
func (r *run) solidAt(q Placement) [][]r2.Vec {
	return solidLoops(r.parts[q.Part].Outline.Transform(q.Motion()), r.opt.Gap, r.opt.tolerance())
}
