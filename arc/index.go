package arc

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// An index finds the boxes that meet a box: a packed tree whose leaves are
// sorted along a Z curve (G. M. Morton, 1966), so that neighbors in the plane
// are mostly neighbors in the tree. Building sorts once; a query takes time
// in the logarithm of the count and the number found.
type index struct {
	box   []r2.Box // all levels, leaves first
	item  []int32  // of each leaf
	level []int    // where each level starts in box, and the end
}

// fan is how many boxes a node holds.
const fan = 8

func newIndex(boxes []r2.Box) *index {
	n := len(boxes)
	x := &index{item: make([]int32, n), level: []int{0}}
	x.box = make([]r2.Box, n, n+n/(fan-1)+fan)
	for i, key := range mortonOrder(boxes) {
		x.item[i] = int32(key & math.MaxUint32)
		x.box[i] = boxes[x.item[i]]
	}
	for lo, hi := 0, n; ; lo, hi = hi, len(x.box) {
		x.level = append(x.level, hi)
		if hi-lo <= fan {
			return x
		}
		for i := lo; i < hi; i += fan {
			b := x.box[i]
			for _, c := range x.box[i+1 : min(i+fan, hi)] {
				b = union(b, c)
			}
			x.box = append(x.box, b)
		}
	}
}

// mortonOrder returns the boxes' numbers, in the low half, sorted by where
// their middles lie along the curve. It has 65,536 places across, which is too
// few where most boxes crowd in a corner of the whole, as in a drawing with a
// stray line far off: there places are counted by rank.
func mortonOrder(boxes []r2.Box) []uint64 {
	keys := make([]uint64, len(boxes))
	if len(boxes) == 0 {
		return keys
	}
	all := boxes[0]
	for _, b := range boxes {
		all = union(all, b)
	}
	w := math.Max(all.Max.X-all.Min.X, all.Max.Y-all.Min.Y)
	f := 0.0
	if w > 0 {
		f = 65535 / w
	}
	for i, b := range boxes {
		x := ((b.Min.X+b.Max.X)/2 - all.Min.X) * f
		y := ((b.Min.Y+b.Max.Y)/2 - all.Min.Y) * f
		keys[i] = mortonKey(uint64(x), uint64(y), i)
	}
	slices.Sort(keys)
	if crowded(keys) {
		x := ranks(boxes, func(b *r2.Box) float64 { return b.Min.X/2 + b.Max.X/2 })
		y := ranks(boxes, func(b *r2.Box) float64 { return b.Min.Y/2 + b.Max.Y/2 })
		for i := range boxes {
			keys[i] = mortonKey(x[i], y[i], i)
		}
		slices.Sort(keys)
	}
	return keys
}

func mortonKey(x, y uint64, i int) uint64 { return (spread(x)|spread(y)<<1)<<32 | uint64(i) }

// crowded reports whether more than a few nodes' worth of sorted keys share a
// place.
func crowded(keys []uint64) bool {
	const most = 8 * fan
	for i := most; i < len(keys); i++ {
		if keys[i]>>32 == keys[i-most]>>32 {
			return true
		}
	}
	return false
}

// ranks returns the place of each box among 65,536 of even numbers, by what at
// tells of it; equals share a place.
func ranks(boxes []r2.Box, at func(b *r2.Box) float64) []uint64 {
	order := make([]int32, len(boxes))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(i, j int32) int { return cmp.Compare(at(&boxes[i]), at(&boxes[j])) })
	out := make([]uint64, len(boxes))
	place, last := uint64(0), 0.0
	for k, i := range order {
		if v := at(&boxes[i]); k == 0 || v != last {
			place, last = uint64(k)*65535/uint64(len(boxes)), v
		}
		out[i] = place
	}
	return out
}

// spread puts a zero before each of the low 16 bits.
func spread(x uint64) uint64 {
	x &= 0xffff
	x = (x | x<<8) & 0x00ff00ff
	x = (x | x<<4) & 0x0f0f0f0f
	x = (x | x<<2) & 0x33333333
	return (x | x<<1) & 0x55555555
}

// search calls f with each item whose box meets b, until f returns false, and
// reports whether it never did.
func (x *index) search(b r2.Box, f func(i int) bool) bool {
	top := len(x.level) - 2
	return x.scan(top, x.level[top], x.level[top+1], b, f)
}

// scan searches the boxes from i to j of a level.
func (x *index) scan(level, i, j int, b r2.Box, f func(i int) bool) bool {
	for ; i < j; i++ {
		if !meets(&x.box[i], &b) {
			continue
		}
		if level == 0 {
			if !f(int(x.item[i])) {
				return false
			}
			continue
		}
		first := x.level[level-1] + (i-x.level[level])*fan
		if !x.scan(level-1, first, min(first+fan, x.level[level]), b, f) {
			return false
		}
	}
	return true
}

// meets reports whether two boxes have a point in common.
func meets(a, b *r2.Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

// grown returns b made larger by d on every side.
func grown(b r2.Box, d float64) r2.Box {
	return r2.Box{Min: r2.Vec{X: b.Min.X - d, Y: b.Min.Y - d}, Max: r2.Vec{X: b.Max.X + d, Y: b.Max.Y + d}}
}
