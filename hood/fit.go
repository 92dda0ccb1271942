package hood

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// slope returns the angle off square of an edge that falls back by run over a
// height.
func slope(run, height float64) arc.Angle { return arc.Angle(math.Atan2(run, height)) }

// checkFit looks at how fields that are good alone fit together.
func (s Spec) checkFit(c *checker) {
	before := c.count()
	front := fitSweep(s.Sweep, c, "sweep", s.frontEnds())
	if c.count() == before {
		s.fitSides(c)
	}
	if s.Width <= 4*s.Board.Thickness || s.neckWidth() <= 4*s.Board.Thickness {
		c.add("neck.width", s.neckWidth(), "mm", "more than four boards", ErrPlace)
	}
	if c.count() == before && !front.Fold(s.frontEnds(), s.Board.Thickness) {
		c.add("sweep."+sizeField(s.Sweep), sizeValue(s.Sweep), sizeUnit(s.Sweep), "a radius larger than the board is thick, as its back folds over", ErrBend)
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
	if right.Flared() {
		fitSweep(s.SideSweep, c, "side_sweep", right)
	}
	if left.Flared() && (own || left != right && c.count() == before) {
		fitSweep(sweep, c, at, left)
	}
	if own && !left.Flared() && sweep.Curved() {
		c.add("left_sweep.shape", sweep.Name(), "", "straight or left out, as the left side is plumb", arc.ErrRange)
	}
	if s.SideSweep.Curved() && !right.Flared() && (own || !left.Flared()) {
		need := "straight or left out, as the neck is as wide as the hood"
		if left.Flared() {
			need = "straight or left out, as the right side is plumb and the left has its own"
		}
		c.add("side_sweep.shape", s.SideSweep.Name(), "", need, arc.ErrRange)
	}
}

// size names the field that sets how strongly a sweep is bent.
func sizeField(w Sweep) string {
	switch {
	case w.TakesSag():
		return "sag"
	case w.Shape == "points":
		return "points"
	}
	return "shape"
}

// sizeValue returns the value of the field that size names, and sizeUnit its
// unit.
func sizeValue(w Sweep) any {
	if w.TakesSag() {
		return w.Sag
	}
	return w.Name()
}

func sizeUnit(w Sweep) string {
	if w.TakesSag() {
		return "mm"
	}
	return ""
}

// fit sketches a sweep between its ends and looks at its sag and slope.
func fitSweep(w Sweep, c *checker, at string, e curve.Ends) curve.Section {
	chord := math.Hypot(e.Bottom-e.Top, e.Height-e.Skirt)
	if w.TakesSag() && w.Sag > w.MaxSag(chord)*(1+1e-12) {
		c.add(at+".sag", w.Sag, "mm", fmt.Sprintf("at most %.6g mm, half the chord of an arc", w.MaxSag(chord)), arc.ErrRange)
		return curve.Section{}
	}
	s, err := e.Sketch(w)
	if err != nil {
		c.add(at+"."+sizeField(w), w.Name(), "", err.Error(), ErrBend)
		return s
	}
	switch {
	case !curve.Rises(s.Show):
		c.add(at+"."+sizeField(w), sizeValue(w), sizeUnit(w), "a curve that goes up throughout", ErrBend)
	case s.Curve.High > curve.MaxLean || s.Curve.High < -curve.MaxLean || e.Skirt == 0 && (s.Curve.Low > curve.MaxLean || s.Curve.Low < -curve.MaxLean):
		c.add(at+"."+sizeField(w), sizeValue(w), sizeUnit(w), "a curve that leans no more than 75 degrees off plumb where it is cut level", ErrBend)
	}
	return s
}

// checkRoom looks for room behind the front, for openings, duct and liner.
func (s Spec) checkRoom(c *checker, front curve.Section) {
	t, tb := s.Board.Thickness, s.backFace()
	least := front.Inner.Bounds().Min.X
	if least <= tb {
		c.add("neck.depth", s.Neck.Depth, "mm", fmt.Sprintf("more than %.6g mm, to leave room between front and back", s.Neck.Depth+tb-least), ErrPlace)
		return
	}
	s.checkOpenings(c)
	half := s.neckWidth()/2 - t
	deep := rise.OutAt(front.Inner, s.Height)
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
