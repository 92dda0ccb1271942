package svg

import (
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// A pathData draws path data with a pen.
type pathData struct {
	*pen
	x    scanner
	ok   bool   // all numbers were there
	cmd  byte   // what the numbers that follow are for
	o    r2.Vec // what they are counted from
	kind byte   // C or Q, after a curve of the third or second degree
	last r2.Vec // its last control point
}

// data draws path data, up to the first fault in it.
func (p *pen) data(s string) {
	d := pathData{pen: p, x: scanner{s: s}}
	for !d.x.done() && !p.full() {
		rest := d.x.s
		if !d.next() || !d.draw() {
			p.fail("path data wrong from character " + strconv.Itoa(len(s)-len(rest)+1) + " on: " + strconv.Quote(clip(rest)))
			return
		}
	}
}

// next reads a command, or takes the one before again. The first must be a
// move, and after Z one is needed.
func (d *pathData) next() bool {
	first := d.cmd == 0
	if c := d.x.s[0]; strings.IndexByte("MmLlHhVvCcSsQqTtAaZz", c) >= 0 {
		d.cmd = c
		d.x.s = d.x.s[1:]
	} else if first || d.cmd == 'z' || d.cmd == 'Z' {
		return false
	}
	d.o, d.ok = r2.Vec{}, true
	if d.cmd >= 'a' {
		d.o = d.pos
	}
	return !first || d.cmd == 'm' || d.cmd == 'M'
}

func (d *pathData) num() float64 {
	v, ok := d.x.number()
	d.ok = d.ok && ok
	return v
}

func (d *pathData) point() r2.Vec {
	x := d.num()
	return r2.Add(d.o, r2.Vec{X: x, Y: d.num()})
}

// draw reads the numbers of a command and draws it, unless one is missing.
func (d *pathData) draw() bool {
	kind := byte(0)
	switch d.cmd {
	case 'M', 'm':
		if to := d.point(); d.ok {
			d.move(to)
			d.cmd-- // further pairs are lines, L or l
		}
	case 'L', 'l':
		if to := d.point(); d.ok {
			d.line(to)
		}
	case 'H', 'h':
		if x := d.o.X + d.num(); d.ok {
			d.line(r2.Vec{X: x, Y: d.pos.Y})
		}
	case 'V', 'v':
		if y := d.o.Y + d.num(); d.ok {
			d.line(r2.Vec{X: d.pos.X, Y: y})
		}
	case 'C', 'c', 'S', 's':
		kind = 'C'
		d.third()
	case 'Q', 'q', 'T', 't':
		kind = 'Q'
		d.second()
	case 'A', 'a':
		d.ellipticArc()
	case 'Z', 'z':
		d.close()
		d.x.comma()
	}
	d.kind = kind
	return d.ok
}

// mirrored returns the control point before, mirrored in where the pen is, or
// that place where the curve before was of another kind.
func (d *pathData) mirrored(kind byte) r2.Vec {
	if d.kind != kind {
		return d.pos
	}
	return r2.Sub(r2.Scale(2, d.pos), d.last)
}

func (d *pathData) third() {
	a := d.mirrored('C')
	if d.cmd == 'C' || d.cmd == 'c' {
		a = d.point()
	}
	b := d.point()
	if to := d.point(); d.ok {
		d.cubic(a, b, to)
		d.last = b
	}
}

// second draws a curve of the second degree as one of the third, whose control
// points stand two thirds of the way to its own.
func (d *pathData) second() {
	a := d.mirrored('Q')
	if d.cmd == 'Q' || d.cmd == 'q' {
		a = d.point()
	}
	if to := d.point(); d.ok {
		d.cubic(lerp(d.pos, a, 2.0/3), lerp(to, a, 2.0/3), to)
		d.last = a
	}
}

func (d *pathData) ellipticArc() {
	rx, ry := d.num(), d.num()
	turned := d.num()
	large, ok1 := d.x.flag()
	sweep, ok2 := d.x.flag()
	d.ok = d.ok && ok1 && ok2
	if to := d.point(); d.ok {
		d.arc(rx, ry, turned, large, sweep, to)
	}
}
