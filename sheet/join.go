package sheet

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/rects"
)

const (
	joinFrom  = 60   // more copies than that are joined
	joinNear  = 4    // of about the same size, among which partners are sought
	joinGain  = 0.97 // of the area of two boxes, that the box of both may take
	joinSteps = 16   // heights of either that are tried
	joinWork  = 1e8  // steps of profiles, for all kinds of sheets
	joinShare = 0.25 // of the time
)

// A joiner joins boxes in pairs where the box of both is smaller than the two
// together, looking for partners among those of about the same size.
type joiner struct {
	*run
	bin    r2.Vec
	across bool              // as the stock's grain
	known  map[string]*joint // by the kinds of the two; nil where they do not go together
	work   float64
}

func (j *joiner) joined(list []joint) (out []joint) {
	slices.SortStableFunc(list, func(a, b joint) int { return -cmp.Compare(area(a.box), area(b.box)) })
	for len(list) > 0 {
		near := j.near(list)
		take := []int{0}
		p := list[0]
		if q := j.four(list, near); q != nil {
			p, take = *q, near[:4]
		} else if q, k := j.partner(list, near); q != nil {
			p, take = *q, []int{0, k}
		}
		out = append(out, p)
		for i := len(take) - 1; i >= 0; i-- {
			list = slices.Delete(list, take[i], take[i]+1)
		}
	}
	return out
}

// near lists the first of a list and those after it that may go with it.
func (j *joiner) near(list []joint) []int {
	var out []int
	for i := 0; i < len(list) && len(out) < joinNear; i++ {
		if list[i].rank == list[0].rank {
			out = append(out, i)
		}
	}
	return out
}

// partner returns the best joint of the first with one of those near.
func (j *joiner) partner(list []joint, near []int) (best *joint, with int) {
	most := joinGain
	for _, k := range near[1:] {
		p := j.pair(list[0], list[k])
		if p == nil {
			continue
		}
		if share := area(p.box) / (area(list[0].box) + area(list[k].box)); share < most {
			best, with, most = p, k, share
		}
	}
	if best != nil {
		best = best.of(list[0], list[with])
	}
	return best, with
}

// four returns the joint of two twins that turn towards each other, where it is
// better than two pairs: thin angles nest one in the other, and two such nests
// interlock.
func (j *joiner) four(list []joint, near []int) *joint {
	if len(near) < 4 {
		return nil
	}
	var twins [2]*joint
	pairs := 0.0
	for i := range twins {
		a, b := list[near[2*i]], list[near[2*i+1]]
		if twins[i] = j.twin(a, b); twins[i] == nil {
			return nil
		}
		least := area(a.box) + area(b.box)
		if p := j.pair(a, b); p != nil {
			least = area(p.box)
		}
		pairs += least
	}
	q := j.pair(*twins[0], *twins[1])
	if q == nil || area(q.box) > joinGain*pairs {
		return nil
	}
	return q.of(*twins[0], *twins[1])
}

// pair returns the best joint of two, or nil.
func (j *joiner) pair(a, b joint) *joint {
	if a.space()+b.space() > joinGain*(area(a.box)+area(b.box)) {
		return nil
	}
	return j.bring("("+a.kind+" "+b.kind+")", a, b, false)
}

// twin returns the best joint of two that lie the same way, or nil.
func (j *joiner) twin(a, b joint) *joint {
	if p := j.bring("["+a.kind+" "+b.kind+"]", a, b, true); p != nil {
		return p.of(a, b)
	}
	return nil
}

// bring brings two together, where that has not been tried before.
func (j *joiner) bring(kind string, a, b joint, alike bool) *joint {
	if p, ok := j.known[kind]; ok {
		return p
	}
	if j.spent() {
		return nil
	}
	var best *joint
	least := joinGain * (area(a.box) + area(b.box))
	us, vs := a.ways(a.flips && !b.flips && !alike), b.ways(b.flips && !alike)
	for i := range us {
		for k := range vs {
			if alike && i != k {
				continue
			}
			if at, size := j.beside(&us[i], &vs[k], least); size < least {
				if p := us[i].with(vs[k].joint, at); p.fits(j.bin) {
					best, least = &p, size
				}
			}
		}
	}
	if best != nil {
		best.kind, best.turns, best.flips = kind, min(a.turns, b.turns), a.flips && b.flips
	}
	j.known[kind] = best
	return best
}

// spent reports whether there is no work or time left to join.
func (j *joiner) spent() bool {
	return j.work > joinWork/float64(len(j.group.stock)) || j.past(joinShare)
}

// beside slides b up to a from the right, box flush with box or vertex with
// vertex, and returns where the box of both is smallest, if smaller than most.
func (j *joiner) beside(a, b *way, most float64) (at r2.Vec, size float64) {
	size = most
	wide := math.Max(a.box.Max.X-a.box.Min.X, b.box.Max.X-b.box.Min.X)
	try := func(y float64) {
		tall := math.Max(a.box.Max.Y, b.box.Max.Y+y) - math.Min(a.box.Min.Y, b.box.Min.Y+y)
		if tall*wide >= size || j.spent() {
			return
		}
		j.work += float64(len(a.right.y) + len(b.left.y))
		x := slide(&a.right, &b.left, y, a.box.Min.X+size/tall-b.box.Max.X)
		if s := area(union(a.box, b.box, r2.Vec{X: x, Y: y})); !math.IsInf(x, -1) && s < size {
			at, size = r2.Vec{X: x, Y: y}, s
		}
	}
	try(a.box.Min.Y - b.box.Min.Y)
	try(a.box.Max.Y - b.box.Max.Y)
	for i := 0; i < len(a.right.y); i += 1 + len(a.right.y)/joinSteps {
		for k := 0; k < len(b.left.y); k += 1 + len(b.left.y)/joinSteps {
			try(a.right.y[i] - b.left.y[k])
		}
	}
	return at, size
}

// joinerFor returns the joiner for a kind of sheet.
func (r *run) joinerFor(s Stock, bin r2.Vec) *joiner {
	for _, j := range r.joiners {
		if j.bin == bin && j.across == s.GrainAcross {
			return j
		}
	}
	j := &joiner{run: r, bin: bin, across: s.GrainAcross, known: map[string]*joint{}}
	r.joiners = append(r.joiners, j)
	return j
}

// joinBoxes joins boxed copies for a kind of sheet with a bin.
func (r *run) joinBoxes(items []rects.Item, of []boxed, s Stock, bin rects.Size) (joined []rects.Item, by []boxed) {
	r.grow()
	j := r.joinerFor(s, r2.Vec{X: bin.W, Y: bin.H})
	play := r.play()
	var list []joint
	for i, b := range of {
		if i > 0 && of[i-1].k == b.k {
			list = append(list, list[i-1])
			list[i].lie = b.lie[0]
		} else {
			list = append(list, r.single(items[i], b, play))
		}
		list[i].from = i
	}
	for _, p := range j.joined(list) {
		if len(p.lie) == 1 {
			joined, by = append(joined, items[p.from]), append(by, of[p.from])
			continue
		}
		joined = append(joined, rects.Item{Size: rects.Size{W: p.box.Max.X - p.box.Min.X, H: p.box.Max.Y - p.box.Min.Y}, Turn: p.turns == 4})
		by = append(by, p.boxed(r2.Vec{X: r.opt.Gap / 2, Y: r.opt.Gap / 2}))
	}
	return joined, by
}
