package spec

import (
	"example.com/sagitta/arc/say"
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
)

// checkTogether looks at how fields that are good alone fit together.
func (s Sizes) checkTogether(c *Checker) {
	before := c.Count()
	front := checkCurve(s.Sweep, c, "sweep", s.FrontEnds())
	if c.Count() == before {
		s.checkCurves(c)
	}
	if s.Width <= 4*s.Board.Thickness || s.NeckWidth() <= 4*s.Board.Thickness {
		c.Add("neck.width", s.NeckWidth(), "mm", "more than four boards", ErrPlace)
	}
	if c.Count() == before && !front.Fold(s.FrontEnds(), s.Board.Thickness) {
		c.AddSize("sweep", s.Sweep, "a flatter curve, with no radius as small as the board is thick, as its back folds over", ErrBend)
	}
	if c.Count() == before {
		s.checkRoom(c, front)
		s.checkMoldings(c)
	}
}

// plumbFace is the lean that a molding mitered for a plumb face still takes.
const plumbFace = 1 * arc.Degree

// checkMoldings asks for plumb faces where moldings lie.
func (s Sizes) checkMoldings(c *Checker) {
	var low, high arc.Angle
	left, _ := s.SweepOfLeft()
	for _, w := range []struct {
		curve.Ends
		curve.Sweep
	}{{s.FrontEnds(), s.Sweep}, {s.RightEnds(), s.SideSweep}, {s.LeftEnds(), left}} {
		if k, err := w.Sketch(w.Sweep); err == nil && (w.Flared() || w.Ends == s.FrontEnds()) {
			low, high = max(low, k.Curve.Low, -k.Curve.Low), max(high, k.Curve.High, -k.Curve.High)
		}
	}
	if s.Molding.Crown && s.Chimney.Height == 0 && high > plumbFace {
		c.Add("chimney.height", 0.0, "mm", "> 0, or no molding.crown, as the faces at the neck lean by up to "+say.Program(high)+" and the crown is mitered for plumb ones: a chimney or a frieze has to carry it", ErrPlace)
	}
	if s.Molding.Band && s.Skirt == 0 && low > plumbFace {
		c.Add("skirt", 0.0, "mm", "> 0, or no molding.band, as the faces at the bottom edge lean by up to "+say.Program(low)+" and the band is mitered for plumb ones", ErrPlace)
	}
}

// checkCurves looks at the sweeps of flared sides, and refuses one that no side
// takes.
func (s Sizes) checkCurves(c *Checker) {
	before := c.Count()
	right, left := s.RightEnds(), s.LeftEnds()
	sweep, at := s.SweepOfLeft()
	own := at == "left_sweep"
	if right.Flared() {
		checkCurve(s.SideSweep, c, "side_sweep", right)
	}
	if left.Flared() && (own || left != right && c.Count() == before) {
		checkCurve(sweep, c, at, left)
	}
	if own && !left.Flared() && sweep.Curved() {
		c.Add("left_sweep.shape", sweep.Name(), "", "straight or left out, as the left side is plumb", arc.ErrRange)
	}
	if s.SideSweep.Curved() && !right.Flared() && (own || !left.Flared()) {
		need := "straight or left out, as the neck is as wide as the hood"
		if left.Flared() {
			need = "straight or left out, as the right side is plumb and the left has its own"
		}
		c.Add("side_sweep.shape", s.SideSweep.Name(), "", need, arc.ErrRange)
	}
}

// checkCurve sketches a sweep between its ends and looks at its sag and slope.
func checkCurve(w curve.Sweep, c *Checker, at string, e curve.Ends) curve.Section {
	chord := math.Hypot(e.Bottom-e.Top, e.Height-e.Skirt)
	if w.TakesSag() && w.Sag > w.MaxSag(chord)*(1+1e-12) {
		c.Add(at+".sag", w.Sag, "mm", "at most "+c.In.Down(w.MaxSag(chord))+", half the chord of an arc", arc.ErrRange)
		return curve.Section{}
	}
	s, err := e.Sketch(w)
	if err != nil {
		c.AddSize(at, w, c.Words(err.Error()), ErrBend)
		return s
	}
	switch {
	case !curve.Rises(s.Show):
		c.AddSize(at, w, "a curve that goes up throughout", ErrBend)
	case s.Curve.High > curve.MaxLean || s.Curve.High < -curve.MaxLean || e.Skirt == 0 && (s.Curve.Low > curve.MaxLean || s.Curve.Low < -curve.MaxLean):
		c.AddSize(at, w, "a curve that leans no more than 75 degrees off plumb where it is cut level", ErrBend)
	}
	return s
}

// checkRoom looks for room behind the front, for openings, duct and liner.
func (s Sizes) checkRoom(c *Checker, front curve.Section) {
	t, tb := s.Board.Thickness, s.BackFace()
	least := front.Inner.Bounds().Min.X
	if least <= tb {
		c.Add("neck.depth", s.Neck.Depth, "mm", "more than "+c.In.Up(s.Neck.Depth+tb-least)+", to leave room between front and back", ErrPlace)
		return
	}
	s.checkOpenings(c)
	half := s.NeckWidth()/2 - t
	deep := rise.OutAt(front.Inner, s.Height)
	if d := s.Duct; d.Diameter > 0 {
		z := d.Z
		if z == 0 {
			z = (tb + deep) / 2
		}
		if math.Abs(d.X)+d.Diameter/2 >= half || z-d.Diameter/2 <= tb || z+d.Diameter/2 >= deep {
			c.Add("duct.diameter", d.Diameter, "mm", "an opening inside the deck, "+c.In.Size(2*half, deep-tb), ErrPlace)
		}
	}
	if l := s.Liner; l.Length > 0 {
		c.below("liner.length", l.Length+2*math.Abs(l.X), s.Width-2*t, "the width inside")
		c.below("liner.width", l.Width, s.Depth-t-tb, "the depth inside")
	}
}

// checkOpenings asks every opening of the back to lie inside it, clear of the
// others.
func (s Sizes) checkOpenings(c *Checker) {
	half := s.Width/2 - s.Board.Thickness
	for i, o := range s.Back.Openings {
		at := fmt.Sprintf("back.openings[%d]", i)
		b := o.Loop().Bounds()
		if b.Min.X <= -half || b.Max.X >= half {
			c.Add(at+".x", o.X, "mm", "an opening between the sides, which stand "+c.In.Down(half)+" to either side", ErrPlace)
		}
		if b.Min.Y <= 0 || b.Max.Y >= s.Height {
			c.Add(at+".y", o.Y, "mm", "an opening between the bottom edge and "+c.In.Down(s.Height), ErrPlace)
		}
		for j := range i {
			if s.Back.Openings[j].Touches(o) {
				c.Add(at, fmt.Sprintf("%v, %v", c.In.Value(o.X), c.In.Value(o.Y)), c.In.Unit.String(), fmt.Sprintf("an opening clear of back.openings[%d]", j), ErrPlace)
				break // the first it meets is enough
			}
		}
	}
}
