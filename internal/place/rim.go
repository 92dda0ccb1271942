package place

// maxRims is the number of forms up to which the tables of all pairs may be
// built: they then take less than 100 MB or so, and no draw depends on which
// of them there was memory for.
const maxRims = 48

// setRims says whether places may be drawn from the rims of no-fit regions.
// A problem that copies are loosened in has none: its shapes come and go, and
// building the tables would take longer than it saves.
func (p *problem) setRims() { p.rims = p.numForms() <= maxRims }

// onRim draws a place of copy i, as shape o, about the rim of the no-fit
// region of another copy: there the two touch, or nearly so. It fails where
// that region has no rim.
func (l *lane) onRim(i int, o int32) (x, y float64, ok bool) {
	j := l.rng.IntN(len(l.x))
	if j == i || l.absent[j] {
		return 0, 0, false
	}
	v := l.p.pair(l.o[j], o)
	if v.cells == nil {
		l.p.buildTable(v)
		v = l.p.pair(l.o[j], o)
	}
	if len(v.t.rim) == 0 {
		return 0, 0, false
	}
	k := int(v.t.rim[l.rng.IntN(len(v.t.rim))])
	x, y = v.from(float64(k%v.nx)+l.rng.Float64(), float64(k/v.nx)+l.rng.Float64())
	return l.x[j] + x, l.y[j] + y, true
}

// from returns the displacement at raster coordinates. Its matrix is that of
// a turn by right angles, maybe negated, times the cells per unit.
func (v *view) from(fx, fy float64) (x, y float64) {
	s := v.t.size * v.t.size
	fx, fy = fx-v.dx, fy-v.dy
	return s * (float64(v.xx*fx) + float64(v.yx*fy)), s * (float64(v.xy*fx) + float64(v.yy*fy))
}

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
	x = l.x[j] + float64(h.x0-b.x0) + float64(l.rng.Float64()*w)
	y = l.y[j] + float64(h.y0-b.y0) + float64(l.rng.Float64()*t)
	return x, y, true
}
