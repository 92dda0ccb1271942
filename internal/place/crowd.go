package place

import "math"

const fields = 64 // of a crowd along each axis

// A crowd tells which copies may meet a box. It lays fields over the extent of
// the layout and keeps, for each column of them, the set of copies that begin
// in it or before and the set of those that end in it or after; likewise for
// rows. A set has one bit for each copy, so that four loads and three ands do
// for 64 copies. Coordinates beyond the fields count to their rim, so that any
// scale is safe.
type crowd struct {
	sx, sy float64 // fields per grid unit
	words  int     // of a set
	beginX []uint64
	endX   []uint64
	beginY []uint64
	endY   []uint64
	spans  []span // of each copy
}

// A span is the first and the last field of a box along both axes.
type span struct{ x0, y0, x1, y1 int32 }

// gone is the span of a copy that is in no set.
var gone = span{fields, fields, -1, -1}

func newCrowd(n int) crowd {
	c := crowd{words: (n + 63) / 64, spans: make([]span, n)}
	all := make([]uint64, 4*fields*c.words)
	k := fields * c.words
	c.beginX, c.endX, c.beginY, c.endY = all[:k:k], all[k:2*k:2*k], all[2*k:3*k:3*k], all[3*k:]
	for i := range c.spans {
		c.spans[i] = gone
	}
	return c
}

func field(v float64) int32 { return int32(min(fields-1, max(0, v))) }

func (c *crowd) span(b fbox) span {
	return span{field(b.x0 * c.sx), field(b.y0 * c.sy), field(b.x1 * c.sx), field(b.y1 * c.sy)}
}

// put says that copy i has box b, which may be nowhere.
func (c *crowd) put(i int, b fbox) {
	now := gone
	if b.x0 <= b.x1 {
		now = c.span(b)
	}
	old := c.spans[i]
	c.spans[i] = now
	c.flip(c.beginX, i, old.x0, now.x0)
	c.flip(c.beginY, i, old.y0, now.y0)
	c.flip(c.endX, i, old.x1+1, now.x1+1)
	c.flip(c.endY, i, old.y1+1, now.y1+1)
}

// flip changes the bit of copy i in the sets of the fields from a up to b.
func (c *crowd) flip(sets []uint64, i int, a, b int32) {
	if a > b {
		a, b = b, a
	}
	bit := uint64(1) << (i & 63)
	for f := int(a); f < int(b); f++ {
		sets[f*c.words+i>>6] ^= bit
	}
}

// refit lays the fields over the extent of the boxes.
func (c *crowd) refit(boxes []fbox) {
	x, y := 1.0, 1.0
	for _, b := range boxes {
		if b.x0 <= b.x1 {
			x, y = math.Max(x, b.x1), math.Max(y, b.y1)
		}
	}
	c.scale(x, y, boxes)
}

// scale lays the fields over a rectangle.
func (c *crowd) scale(w, h float64, boxes []fbox) {
	c.sx, c.sy = fields/w, fields/h
	for i, b := range boxes {
		c.put(i, b)
	}
}
