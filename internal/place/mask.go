package place

// A mask is a box on a coarse lattice of 8 by 8 fields, one bit each: boxes
// whose masks share no bit do not meet. Coordinates beyond the lattice count
// to its rim, so that any scale is safe.
type maskScale struct{ x, y float64 } // fields per grid unit

const firstColumn = 0x0101010101010101

func (s maskScale) of(b fbox) uint64 {
	if b.x0 > b.x1 {
		return 0 // nowhere
	}
	c0, c1 := field(b.x0*s.x), field(b.x1*s.x)
	r0, r1 := field(b.y0*s.y), field(b.y1*s.y)
	row := (uint64(2)<<c1 - uint64(1)<<c0) & 0xff
	rows := uint64(firstColumn) << (8 * r0) & (uint64(firstColumn) >> (8 * (7 - r1)))
	return row * rows
}

func field(v float64) uint { return uint(min(7, max(0, int(v)))) }

// remask fits the lattice to the extent of the boxes.
func (l *lane) remask() {
	x, y := 1.0, 1.0
	for _, b := range l.boxes {
		if b.x0 <= b.x1 {
			x, y = max(x, b.x1), max(y, b.y1)
		}
	}
	l.scale = maskScale{8 / x, 8 / y}
	for i, b := range l.boxes {
		l.masks[i] = l.scale.of(b)
	}
}
