package sheet

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/rects"
)

const (
	straightFirst = 2  // part of the time, inverse, for the first search
	straightRound = 16 // and for each after it
	leastStep     = 1e-4
	variants      = 6 // of stages and directions
)

// searchStraight packs the group for a saw. Then, a few times or until the time
// is over, it packs anew from other seeds and packs what is on each sheet into
// less of its length or width, so that the offcut beyond grows.
func (r *run) searchStraight(saw Saw) (*plan, error) {
	p := r.nothing(r.copies())
	if len(r.group.stock) == 0 {
		return p, nil
	}
	pack := packing{rectPacker: sawPacker(saw)}
	b := budget{r.opt.Iterations, r.opt.Time / straightFirst}
	if err := r.searchWith(&p, r.rectangles(pack), b); err != nil {
		return p, err
	}
	each := budget{max(1, r.opt.Iterations/straightRound), r.opt.Time / straightRound}
	if r.opt.Iterations == 0 {
		each.iterations = 0
	}
	for k := 0; saw.weighs() && k < variants && !r.late(); k++ {
		q, err := r.rectangles(packing{rectPacker: sawPacker(saw.variant(k))})(r.copies(), r.cheapestFirst(), each)
		if err != nil {
			return p, err
		}
		r.keep(&p, q)
	}
	t := tightener{run: r, pack: pack, step: [2]float64{0.2, 0.2}}
	for i := 0; !r.late() && (i < 2*len(p.sheets) || !r.end.IsZero()) && len(p.sheets) > 0; i++ {
		r.opt.Seed++
		t.pack.rectPacker = sawPacker(saw.variant(i / 2))
		t.tighten(&p, i, each.part(4))
		if i%8 != 7 {
			continue
		}
		q, err := r.rectangles(packing{rectPacker: sawPacker(saw.variant(i / 8))})(r.copies(), r.cheapestFirst(), each)
		if err != nil {
			return p, err
		}
		if r.keep(&p, q) {
			t.step = [2]float64{0.2, 0.2}
		}
	}
	return p, nil
}

// A tightener packs the copies of sheets into less room.
type tightener struct {
	*run
	pack packing
	step [2]float64 // share of the length and the width in use that is to be saved next
}

// tighten packs one sheet of a plan anew, in turn, in one direction.
func (t *tightener) tighten(best **plan, turn int, b budget) {
	i := len((*best).sheets) - 1 - turn/2%len((*best).sheets)
	s := (*best).sheets[i]
	bin, low, ok := t.bin(s.Stock)
	if !ok {
		return
	}
	used := t.extents(s, low)
	d := turn % 2
	if d == 0 {
		bin.W = min(bin.W, used.W*(1-t.step[d]))
	} else {
		bin.H = min(bin.H, used.H*(1-t.step[d]))
	}
	copies := t.copiesOn(s)
	packed := t.packBin(copies, s.Stock, bin, low, t.pack, b)
	if len(packed) == 1 && len(packed[0].Placements) == len(s.Placements) {
		q := (*best).clone()
		q.sheets[i] = packed[0]
		if t.keep(best, q) {
			return
		}
	}
	if t.step[d] /= 2; t.step[d] < leastStep {
		t.step[d] = 0.1
	}
}

// extents returns how much of the room from low on is in use, with the gaps.
func (r *run) extents(s Sheet, low r2.Vec) rects.Size {
	var out rects.Size
	for _, q := range s.Placements {
		b := r.parts[q.Part].boxAt(q)
		out.W, out.H = max(out.W, b.Max.X-low.X+r.opt.Gap), max(out.H, b.Max.Y-low.Y+r.opt.Gap)
	}
	return out
}
