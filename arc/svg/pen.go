package svg

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A pen draws paths in an element's coordinates, which become mm as it goes.
type pen struct {
	d       *decoder
	at      *place
	paths   []arc.Path
	path    arc.Path // in mm
	pos     r2.Vec   // in the element's coordinates
	start   r2.Vec
	drawing bool
	why     string // what was not read
}

func (p *pen) fail(why string) {
	if p.why == "" {
		p.why = why
	}
}

// move starts a path.
func (p *pen) move(to r2.Vec) {
	p.finish()
	p.pos, p.start = to, to
}

// finish ends a path where it is.
func (p *pen) finish() {
	if p.drawing {
		p.paths = append(p.paths, p.path)
	}
	p.drawing, p.path = false, arc.Path{}
}

// begin makes sure that a path is being drawn.
func (p *pen) begin() {
	if !p.drawing {
		p.drawing, p.path = true, arc.Path{V: []arc.Vertex{{P: p.at.m.apply(p.pos)}}}
	}
}

// full reports whether no more is to be drawn.
func (p *pen) full() bool {
	if p.d.vertices <= maxVertices {
		return false
	}
	p.fail("too much in the file")
	return true
}

// add draws a segment of the given k to a point in mm.
func (p *pen) add(k float64, to r2.Vec) {
	n := len(p.path.V) - 1
	if p.path.V[n].P == to {
		return
	}
	if p.d.vertices++; p.full() {
		return
	}
	p.path.V[n].K = k
	p.path.V = append(p.path.V, arc.Vertex{P: to})
}

func (p *pen) line(to r2.Vec) {
	p.begin()
	p.add(0, p.at.m.apply(to))
	p.pos = to
}

// close closes the path; the next starts where it did.
func (p *pen) close() {
	if p.drawing {
		p.add(0, p.at.m.apply(p.start))
		if n := len(p.path.V); n > 2 {
			p.path.V, p.path.Closed = p.path.V[:n-1], true
		}
		p.finish()
	}
	p.pos = p.start
}

// points reads those of a polyline or polygon.
func (p *pen) points(s string, closed bool) {
	x := scanner{s: s}
	for i := 0; !x.done() && !p.full(); i++ {
		a, ok := x.number()
		b, ok2 := x.number()
		if !ok || !ok2 {
			p.fail("points that are not pairs of numbers, from number " + strconv.Itoa(2*i+1) + " on")
			break
		}
		if i == 0 {
			p.move(r2.Vec{X: a, Y: b})
		} else {
			p.line(r2.Vec{X: a, Y: b})
		}
	}
	if closed {
		p.close()
	}
	if !p.drawing && len(p.paths) == 0 {
		p.fail("fewer than two points")
	}
}

// rect draws a rectangle as the standard says, its corners quarters of ellipses.
func (p *pen) rect(x, y, w, h, rx, ry float64) {
	if !(w > 0 && h > 0) || rx < 0 || ry < 0 {
		p.fail("no width and height above 0")
		return
	}
	rx, ry = math.Min(rx, w/2), math.Min(ry, h/2)
	if rx == 0 || ry == 0 {
		rx, ry = 0, 0
	}
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	corner := func(to r2.Vec) {
		if rx > 0 {
			p.arc(rx, ry, 0, false, true, to)
		}
	}
	p.move(v(x+rx, y))
	p.line(v(x+w-rx, y))
	corner(v(x+w, y+ry))
	p.line(v(x+w, y+h-ry))
	corner(v(x+w-rx, y+h))
	p.line(v(x+rx, y+h))
	corner(v(x, y+h-ry))
	p.line(v(x, y+ry))
	corner(v(x+rx, y))
	p.close()
}

func (p *pen) ellipse(cx, cy, rx, ry float64) {
	if !(rx > 0 && ry > 0) {
		p.fail("no radius above 0")
		return
	}
	c := r2.Vec{X: cx, Y: cy}
	p.move(r2.Vec{X: cx + rx, Y: cy})
	p.begin()
	p.bow(conic{c, r2.Vec{X: rx}, r2.Vec{Y: ry}}, 0, 2*math.Pi, p.pos)
	p.close()
}
