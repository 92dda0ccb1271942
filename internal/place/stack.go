package place

import (
	"cmp"
	"math"
	"slices"
)

// How a last bay of boxes is drawn; found by trials on the benchmarks of sheet.
const (
	stackOdds    = 2    // one in so many trials at a length begins with such a bay
	stackLengths = 8    // of the bay that are looked at
	stackDraws   = 30   // fillings drawn at each
	stackFrom    = 0.85 // use of the other bays that is hoped for
	stackTo      = 0.89
	stackLuck    = 0.6 // by how much chance may lower the worth of a copy
)

var stackEffort = effort{200, 3}

// restack tries a shorter last bay that boxes of copies cover well, and puts
// all other copies where they overlap least. A last bay of a few large copies
// that fit beside each other is often the best one, and hard to come to by
// moves of single copies. It reports success; else the row is as it was.
func (r *row) restack() bool {
	old, bays, w := r.layout.clone(), r.bays, r.w
	r.bays = r.room
	if r.stack() && r.separate(stackEffort) && r.used() < r.length {
		return true
	}
	r.bays, r.w = bays, w
	r.resetWeights()
	r.restore(old)
	return false
}

// stack draws the length by how well the other bays are hoped to be used.
func (r *row) stack() bool {
	others, total, last := r.shareOut()
	if others == 0 {
		return false
	}
	need := total - float64(others*(stackFrom+float64((stackTo-stackFrom)*r.rng.Float64())))
	least := math.Max(need/last.h, r.slim)
	most := math.Min((r.length-last.x)*(1-lastShrink), last.w)
	for k := range stackLengths {
		w := math.Floor(least + (most-least)*float64(k)/(stackLengths-1))
		if w > most {
			break
		}
		if tiles, space := r.bestTiles(last, w); space >= need {
			return r.lay(tiles, last.x+w)
		}
	}
	return false
}

// A tile is a copy laid by its box.
type tile struct {
	i    int
	o    int32
	x, y float64
}

// lay begins anew at a length, with the tiles in place.
func (r *row) lay(tiles []tile, w float64) bool {
	r.w = w
	r.resetWeights()
	rest := slices.DeleteFunc(all(len(r.copies)), func(i int) bool {
		return r.absent[i] || slices.ContainsFunc(tiles, func(t tile) bool { return t.i == i })
	})
	slices.SortStableFunc(rest, func(a, b int) int { return cmp.Compare(r.size(b), r.size(a)) })
	for _, i := range rest {
		r.hide(i)
	}
	for _, t := range tiles {
		r.set(t.i, t.o, t.x, t.y)
	}
	ok := r.spread(rest)
	r.measure()
	return ok
}

// A tiler draws fillings of a rectangle with boxes, by cuts from edge to edge.
type tiler struct {
	*row
	kinds []int32 // the items there are copies of
	list  [][]int // these copies
	left  []int   // how many of each are not laid
	tiles []tile
	space float64 // area of the tiles
}

// bestTiles returns the fullest of some fillings of the last bay at width w.
func (r *row) bestTiles(last bay, w float64) (best []tile, space float64) {
	t := &tiler{row: r}
	for i, it := range r.item[:r.movable] {
		if r.absent[i] || !r.p.allowed(it, last.site) {
			continue
		}
		k := slices.Index(t.kinds, it)
		if k < 0 {
			k = len(t.kinds)
			t.kinds, t.list = append(t.kinds, it), append(t.list, nil)
		}
		t.list[k] = append(t.list[k], i)
	}
	t.left = make([]int, len(t.kinds))
	for range stackDraws {
		if r.stop.done() {
			break
		}
		for k := range t.list {
			t.left[k] = len(t.list[k])
		}
		t.tiles, t.space = t.tiles[:0], 0
		t.fill(last.x, 0, w, last.h)
		if t.space > space {
			best, space = slices.Clone(t.tiles), t.space
		}
	}
	return best, space
}

// fill lays a copy into the corner of a rectangle and fills what is left of it
// on two sides.
func (t *tiler) fill(x, y, w, h float64) {
	k, o := t.choose(w, h)
	if k < 0 {
		return
	}
	b := t.p.fbox(o, 0, 0)
	t.left[k]--
	t.tiles = append(t.tiles, tile{t.list[k][t.left[k]], o, x - b.x0, y - b.y0})
	t.space += t.p.shapes[o].space
	dx, dy := b.x1-b.x0, b.y1-b.y0
	if t.rng.Float64()*(w-dx+h-dy) < h-dy {
		t.fill(x, y+dy, w, h-dy)
		t.fill(x+dx, y, w-dx, dy)
	} else {
		t.fill(x+dx, y, w-dx, h)
		t.fill(x, y+dy, dx, h-dy)
	}
}

// choose draws a kind and a turn of it, rather one that is large, fills its
// box and is about as long as a side of the rectangle; -1 where none goes in.
func (t *tiler) choose(w, h float64) (kind int, shape int32) {
	kind = -1
	top := 0.0
	for k, it := range t.kinds {
		if t.left[k] == 0 {
			continue
		}
		luck := 1 - float64(stackLuck*t.rng.Float64())
		for _, o := range t.p.turns[it] {
			b := t.p.fbox(o, 0, 0)
			dx, dy := b.x1-b.x0, b.y1-b.y0
			if dx > w || dy > h {
				continue
			}
			fit, space := math.Max(dx/w, dy/h), t.p.shapes[o].space
			if v := luck * fit * fit * space * space / (dx * dy); v > top {
				kind, shape, top = k, o, v
			}
		}
	}
	return kind, shape
}
