package place

const holeSamples = 10

// listHoles finds the copies with holes.
func (l *lane) listHoles() {
	for i, o := range l.o {
		if len(l.p.shapes[o].solid().region) > 1 {
			l.holed = append(l.holed, i)
		}
	}
}

// inHole draws a place of copy i, as shape o, with its box inside the box of a
// hole of another copy; it fails where the hole drawn is too small.
func (l *lane) inHole(i int, o int32) (x, y float64, ok bool) {
	j := l.holed[l.rng.IntN(len(l.holed))]
	if j == i || l.absent[j] {
		return 0, 0, false
	}
	s := l.p.shapes[l.o[j]]
	r := s.solid().region
	h := region{r[1+l.rng.IntN(len(r)-1)]}.box().move(s.t)
	b := l.p.shapes[o].box
	w, t := float64(h.x1-h.x0-b.x1+b.x0), float64(h.y1-h.y0-b.y1+b.y0)
	if w < 0 || t < 0 {
		return 0, 0, false
	}
	x = l.x[j] + float64(h.x0-b.x0) + l.rng.Float64()*w
	y = l.y[j] + float64(h.y0-b.y0) + l.rng.Float64()*t
	return x, y, true
}
