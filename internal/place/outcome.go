package place

import (
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// An outcome is what one lane made of all containers.
type outcome struct {
	placed  []filled
	left    []int32 // copies that found no place
	missing float64 // their area
	length  float64 // of the last container used
	iters   int
}

// filled is a container with its copies.
type filled struct {
	p      *problem // that the layout refers to
	site   int
	copies []int32 // index of each copy in the list of all
	item   []int32
	layout layout
	length float64
}

func (o *outcome) better(b *outcome) bool {
	if o.missing != b.missing {
		return o.missing < b.missing
	}
	if len(o.placed) != len(b.placed) {
		return len(o.placed) < len(b.placed)
	}
	return o.length < b.length
}

func (o *outcome) result(r *fitRun) Result {
	items := copiesOf(r.p.items[:r.p.fixed])
	number := copyNumbers(items)
	var res Result
	sum, space := 0.0, 0.0
	for k, f := range o.placed {
		s := r.sites[f.site]
		for i, pl := range f.p.placements(f.item, f.layout) {
			pl.Copy = number[f.copies[i]]
			pl.Container = f.site
			pl.At = r2.Add(pl.At, s.corner)
			res.Placed = append(res.Placed, pl)
			sum += f.p.shapes[f.layout.o[i]].area
		}
		res.Containers = f.site + 1
		res.Length = f.length * r.p.unit
		if space += s.area; k == len(o.placed)-1 {
			space += float64((res.Length - s.length) * s.height)
		}
	}
	if space > 0 {
		res.Density = sum / space
	}
	sort.SliceStable(res.Placed, func(i, j int) bool {
		a, b := res.Placed[i], res.Placed[j]
		return a.Item < b.Item || a.Item == b.Item && a.Copy < b.Copy
	})
	for _, c := range o.left {
		res.Unplaced = append(res.Unplaced, Unplaced{int(items[c]), number[c], r.reason(items[c])})
	}
	sort.SliceStable(res.Unplaced, func(i, j int) bool {
		a, b := res.Unplaced[i], res.Unplaced[j]
		return a.Item < b.Item || a.Item == b.Item && a.Copy < b.Copy
	})
	return res
}

// copyNumbers numbers the copies of each item from 0.
func copyNumbers(items []int32) []int {
	count := map[int32]int{}
	out := make([]int, len(items))
	for i, it := range items {
		out[i] = count[it]
		count[it]++
	}
	return out
}

func (r *fitRun) reason(item int32) Reason {
	for k, s := range r.sites {
		if r.p.allowed(item, k) && r.p.fits(item, s.w, s.h) {
			return NoRoom
		}
	}
	return TooLarge
}
