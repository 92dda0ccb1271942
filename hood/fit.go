package hood

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// slope returns the angle off square of an edge that falls back by run over a
// height.
func slope(run, height float64) arc.Angle { return arc.Angle(math.Atan2(run, height)) }

// angleBetween returns the signed angle from u to v, 0 where v has no length.
func angleBetween(u, v r2.Vec) float64 { return math.Atan2(r2.Cross(u, v), r2.Dot(u, v)) }

// checkFit looks at how fields that are good alone fit together.
func (s Spec) checkFit(c *checker) {
	before := c.count()
	front := s.Sweep.fit(c, "sweep", s.frontEnds())
	if c.count() == before {
		s.fitSides(c)
	}
	if s.Width <= 4*s.Board.Thickness || s.neckWidth() <= 4*s.Board.Thickness {
		c.add("neck.width", s.neckWidth(), "mm", "more than four boards", ErrPlace)
	}
	if c.count() == before && !front.fold(s.frontEnds(), s.Board.Thickness) {
		c.add("sweep."+s.Sweep.size(), s.Sweep.sizeValue(), s.Sweep.sizeUnit(), "a radius larger than the board is thick, as its back folds over", ErrBend)
	}
	if c.count() == before {
		s.checkRoom(c, front)
	}
}

// fitSides looks at the sweeps of flared sides, and refuses one that no side
// takes.
func (s Spec) fitSides(c *checker) {
	before := c.count()
	right, left := s.rightEnds(), s.leftEnds()
	sweep, at := s.leftSweep()
	own := at == "left_sweep"
	if right.flared() {
		s.SideSweep.fit(c, "side_sweep", right)
	}
	if left.flared() && (own || left != right && c.count() == before) {
		sweep.fit(c, at, left)
	}
	if own && !left.flared() && sweep.curved() {
		c.add("left_sweep.shape", sweep.name(), "", "straight or left out, as the left side is plumb", arc.ErrRange)
	}
	if s.SideSweep.curved() && !right.flared() && (own || !left.flared()) {
		need := "straight or left out, as the neck is as wide as the hood"
		if left.flared() {
			need = "straight or left out, as the right side is plumb and the left has its own"
		}
		c.add("side_sweep.shape", s.SideSweep.name(), "", need, arc.ErrRange)
	}
}

// size names the field that sets how strongly a sweep is bent.
func (w Sweep) size() string {
	switch {
	case w.takesSag():
		return "sag"
	case w.Shape == "points":
		return "points"
	}
	return "shape"
}

// sizeValue returns the value of the field that size names, and sizeUnit its
// unit.
func (w Sweep) sizeValue() any {
	if w.takesSag() {
		return w.Sag
	}
	return w.name()
}

func (w Sweep) sizeUnit() string {
	if w.takesSag() {
		return "mm"
	}
	return ""
}

// fit sketches a sweep between its ends and looks at its sag and slope.
func (w Sweep) fit(c *checker, at string, e ends) section {
	chord := math.Hypot(e.bottom-e.top, e.height-e.skirt)
	if w.takesSag() && w.Sag > w.maxSag(chord)*(1+1e-12) {
		c.add(at+".sag", w.Sag, "mm", fmt.Sprintf("at most %.6g mm, half the chord of an arc", w.maxSag(chord)), arc.ErrRange)
		return section{}
	}
	s, err := e.sketch(w)
	if err != nil {
		c.add(at+"."+w.size(), w.name(), "", err.Error(), ErrBend)
		return s
	}
	switch {
	case !rises(s.show):
		c.add(at+"."+w.size(), w.sizeValue(), w.sizeUnit(), "a curve that goes up throughout", ErrBend)
	case s.curve.High > maxLean || s.curve.High < -maxLean || e.skirt == 0 && (s.curve.Low > maxLean || s.curve.Low < -maxLean):
		c.add(at+"."+w.size(), w.sizeValue(), w.sizeUnit(), "a curve that leans no more than 75 degrees off plumb where it is cut level", ErrBend)
	}
	return s
}

// checkRoom looks for room behind the front, for openings, duct and liner.
func (s Spec) checkRoom(c *checker, front section) {
	t, tb := s.Board.Thickness, s.backFace()
	least := front.inner.Bounds().Min.X
	if least <= tb {
		c.add("neck.depth", s.Neck.Depth, "mm", fmt.Sprintf("more than %.6g mm, to leave room between front and back", s.Neck.Depth+tb-least), ErrPlace)
		return
	}
	s.checkOpenings(c)
	half := s.neckWidth()/2 - t
	deep := rise.OutAt(front.inner, s.Height)
	if d := s.Duct; d.Diameter > 0 {
		z := d.Z
		if z == 0 {
			z = (tb + deep) / 2
		}
		if math.Abs(d.X)+d.Diameter/2 >= half || z-d.Diameter/2 <= tb || z+d.Diameter/2 >= deep {
			c.add("duct.diameter", d.Diameter, "mm", fmt.Sprintf("an opening inside the deck, %.6g by %.6g mm", 2*half, deep-tb), ErrPlace)
		}
	}
	if l := s.Liner; l.Length > 0 {
		c.below("liner.length", l.Length+2*math.Abs(l.X), s.Width-2*t, "the width inside")
		c.below("liner.width", l.Width, s.Depth-t-tb, "the depth inside")
	}
}

// checkOpenings asks every opening of the back to lie inside it, clear of the
// others.
func (s Spec) checkOpenings(c *checker) {
	half := s.Width/2 - s.Board.Thickness
	for i, o := range s.Back.Openings {
		at := fmt.Sprintf("back.openings[%d]", i)
		b := o.loop(0).Bounds()
		if b.Min.X <= -half || b.Max.X >= half {
			c.add(at+".x", o.X, "mm", fmt.Sprintf("an opening between the sides, from %.6g to %.6g mm", -half, half), ErrPlace)
		}
		if b.Min.Y <= 0 || b.Max.Y >= s.Height {
			c.add(at+".y", o.Y, "mm", fmt.Sprintf("an opening between the bottom edge and %.6g mm", s.Height), ErrPlace)
		}
		for j := range i {
			if s.Back.Openings[j].touches(o) {
				c.add(at, fmt.Sprintf("%g, %g", o.X, o.Y), "mm", fmt.Sprintf("an opening clear of back.openings[%d]", j), ErrPlace)
				break // the first it meets is enough
			}
		}
	}
}

// touches reports whether two openings overlap.
func (o Opening) touches(p Opening) bool {
	d := r2.Vec{X: math.Abs(o.X - p.X), Y: math.Abs(o.Y - p.Y)}
	switch {
	case o.Shape == "circle" && p.Shape == "circle":
		return math.Hypot(d.X, d.Y) <= (o.Diameter+p.Diameter)/2
	case o.Shape == "circle":
		return p.touches(o)
	case p.Shape == "circle":
		dx, dy := math.Max(0, d.X-o.Width/2), math.Max(0, d.Y-o.Height/2)
		return math.Hypot(dx, dy) <= p.Diameter/2
	}
	return d.X <= (o.Width+p.Width)/2 && d.Y <= (o.Height+p.Height)/2
}
