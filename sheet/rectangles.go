package sheet

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

// A rectPacker lays bounding boxes out in as few sheets of one size as it can.
type rectPacker func(items []rects.Item, bin rects.Size, seed uint64, stop rects.Stop) [][]rects.Placed

// ordersPerSweep is how many orders of rectangles count as one iteration: they
// are that much quicker to try than a sweep over outlines.
const ordersPerSweep = 100

// freeRects packs without regard to how the sheet is cut.
func freeRects(items []rects.Item, bin rects.Size, seed uint64, stop rects.Stop) [][]rects.Placed {
	return rects.Bins(items, bin, seed, stop)
}

// plain reports whether all parts of the group are rectangles, so that their
// bounding boxes lose nothing.
func (r *run) plain() bool {
	for _, i := range r.group.parts {
		l, w := r.parts[i].Size()
		outer := r.parts[i].Outline.Outer
		if len(outer.V) > 8 || math.Abs(outer.Area()-l*w) > 1e-9*l*w {
			return false
		}
	}
	return true
}

// A boxed is a copy, or some that reach into each other's boxes, that is packed
// as a rectangle.
type boxed struct {
	k   int            // part within the group, of a single one
	lie [2][]Placement // unturned and turned
	low [2]r2.Vec      // the lower left corner of either
}

// A packing is a way to fill sheets with rectangles.
type packing struct {
	rectPacker
	join bool // first the copies with each other
}

// rectangles fills the windows of sheets with bounding boxes.
func (r *run) rectangles(pack packing) filling {
	return func(left [][]int, d draw, b budget) (*plan, error) {
		p := r.nothing(left)
		r.noteFits(p, d.order)
		if len(r.setsIn(left)) > 0 {
			q := r.packInSets(left, d, b, pack)
			q.large = p.large
			return q, nil
		}
		for _, i := range d.order {
			if d.avail[i] == 0 || r.done(p) {
				continue
			}
			sheets := r.packKind(p.left, i, pack, b.part(len(d.order)))
			if d.avail[i] > 0 {
				sheets = sheets[:min(d.avail[i], len(sheets))]
			}
			for _, sh := range sheets {
				p.sheets = append(p.sheets, sh)
				for _, q := range sh.Placements {
					k := slices.Index(r.group.parts, q.Part)
					p.left[k] = slices.DeleteFunc(slices.Clone(p.left[k]), func(c int) bool { return c == q.Copy })
				}
			}
		}
		return p, nil
	}
}

// bin returns the room for boxes on a kind of sheet, which are larger by the
// gap, and where it begins; nothing for a sheet that takes none.
func (r *run) bin(i int) (size rects.Size, low r2.Vec, ok bool) {
	b, ok := r.window(i)
	return rects.Size{W: b.Max.X - b.Min.X + r.opt.Gap, H: b.Max.Y - b.Min.Y + r.opt.Gap}, b.Min, ok
}

// noteFits notes which parts fit an empty sheet of some kind.
func (r *run) noteFits(p *plan, kinds []int) {
	for _, i := range kinds {
		bin, _, ok := r.bin(i)
		if !ok {
			continue
		}
		items, of := r.boxes(p.left, r.stock[i])
		for j, it := range items {
			if fitsBin(it, bin) {
				p.large[of[j].k], r.fits[of[j].k] = false, true
			}
		}
	}
}

// packKind packs copies on sheets of one kind and returns these, the fullest
// first.
func (r *run) packKind(left [][]int, i int, pack packing, b budget) []Sheet {
	bin, low, ok := r.bin(i)
	if !ok {
		return nil
	}
	return r.packBin(left, i, bin, low, pack, b)
}

// packBin is packKind for a part of the room.
func (r *run) packBin(left [][]int, i int, bin rects.Size, low r2.Vec, pack packing, b budget) []Sheet {
	s := r.stock[i]
	items, of := r.boxes(left, s)
	if pack.join {
		items, of = r.joinBoxes(items, of, s, bin)
	}
	bins := r.packed(items, bin, pack.rectPacker, b)
	sheets := make([]Sheet, len(bins))
	for j, placed := range bins {
		sheets[j] = Sheet{Stock: i}
		for _, q := range placed {
			sheets[j].Placements = append(sheets[j].Placements, of[q.Item].placed(q, low)...)
		}
	}
	slices.SortStableFunc(sheets, func(a, b Sheet) int { return -cmp.Compare(a.area(r.sizes), b.area(r.sizes)) })
	return sheets
}

// packed packs from two seeds, side by side where there are workers for it, and
// returns the layout of fewer sheets; of two as few, the one whose emptiest
// sheet is emptier.
func (r *run) packed(items []rects.Item, bin rects.Size, pack rectPacker, b budget) [][]rects.Placed {
	const lanes = 2
	b = r.limited(b)
	each := b.time
	if r.opt.Workers < lanes {
		each /= lanes
	}
	var out [lanes][][]rects.Placed
	var orders [lanes]int
	lane := func(i int) {
		stop := r.stopIn(each, b.iterations, &orders[i])
		out[i] = pack(items, bin, r.opt.Seed*lanes+uint64(i), stop)
	}
	var wait sync.WaitGroup
	for i := range lanes {
		if r.opt.Workers < lanes {
			lane(i)
		} else {
			wait.Go(func() { lane(i) })
		}
	}
	wait.Wait()
	r.iterations += (orders[0] + orders[1] + ordersPerSweep - 1) / ordersPerSweep
	best := out[0]
	for _, o := range out[1:] {
		if count(o) > count(best) || count(o) == count(best) && (len(o) < len(best) || len(o) == len(best) && emptiest(o) < emptiest(best)) {
			best = o
		}
	}
	return best
}

// count returns how many rectangles are in the bins.
func count(bins [][]rects.Placed) int {
	n := 0
	for _, b := range bins {
		n += len(b)
	}
	return n
}

// emptiest returns the least area covered in a bin.
func emptiest(bins [][]rects.Placed) float64 {
	least := math.Inf(1)
	for _, b := range bins {
		sum := 0.0
		for _, p := range b {
			sum += p.W * p.H
		}
		least = math.Min(least, sum)
	}
	return least
}

func fitsBin(it rects.Item, bin rects.Size) bool {
	e := 1e-9 * math.Max(bin.W, bin.H)
	return it.W <= bin.W+e && it.H <= bin.H+e || it.Turn && it.H <= bin.W+e && it.W <= bin.H+e
}

// boxes returns the copies that may lie on a sheet as rectangles, each larger
// by the gap.
func (r *run) boxes(left [][]int, s Stock) (items []rects.Item, of []boxed) {
	for k, copies := range left {
		p := r.parts[r.group.parts[k]]
		l, w := p.Size()
		l, w = l+r.opt.Gap, w+r.opt.Gap
		it := rects.Item{Size: rects.Size{W: l, H: w}}
		if p.Turns == AnyAngle {
			p.Turns = RightAngles
		}
		flat, upright := -1, -1
		turns := angles(p, s)
		for j, a := range turns {
			if math.Abs(math.Sin(float64(a))) < 0.5 && flat < 0 {
				flat = j
			} else if math.Abs(math.Sin(float64(a))) > 0.5 && upright < 0 {
				upright = j
			}
		}
		switch {
		case flat >= 0 && upright >= 0:
			it.Turn = true
		case flat >= 0:
			upright = flat
		case upright >= 0:
			it.W, it.H = it.H, it.W
			flat = upright
		default:
			continue
		}
		var low [2]r2.Vec
		for j, turn := range [2]int{flat, upright} {
			low[j] = p.Outline.Transform(arc.Rotate(turns[turn])).Bounds().Min
		}
		for _, c := range copies {
			b := boxed{k: k, low: low}
			for j, turn := range [2]int{flat, upright} {
				b.lie[j] = []Placement{{Part: r.group.parts[k], Copy: c, Rotate: turns[turn]}}
			}
			items, of = append(items, it), append(of, b)
		}
	}
	return items, of
}

// placed returns where the copies of a placed rectangle lie in a bin that
// begins at low.
func (b boxed) placed(q rects.Placed, low r2.Vec) []Placement {
	k := b2i(q.Turned)
	out := slices.Clone(b.lie[k])
	for i := range out {
		out[i].At = r2.Add(out[i].At, r2.Sub(r2.Vec{X: q.X + low.X, Y: q.Y + low.Y}, b.low[k]))
	}
	return out
}
