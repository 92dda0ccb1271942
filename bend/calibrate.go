package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/stat"
)

// A StripTest is a test strip as cut and what was measured on it with all its
// kerfs pressed closed. Exactly one of Radius and Lift is given.
type StripTest struct {
	Board  Board   // as set on the machine
	Pitch  float64 // of the kerfs, mm; needed with Radius
	Radius float64 // of the show face, along its flats, mm
	Lift   float64 // of a mark when one kerf closes, mm; see LiftSpacing
	Mark   float64 // distance of that mark from the kerf, mm; needed with Lift
}

// ClosingAngle returns the angle at which a kerf of the strip closed.
func (s StripTest) ClosingAngle() (arc.Angle, error) { return s.closing("bend.StripTest.ClosingAngle") }

func (s StripTest) closing(fn string) (arc.Angle, error) {
	err := first(s.Board.check(fn),
		needNotNegative(fn, "StripTest.Radius", s.Radius, "mm"), needNotNegative(fn, "StripTest.Lift", s.Lift, "mm"))
	switch {
	case err != nil:
		return 0, err
	case (s.Radius > 0) == (s.Lift > 0):
		return 0, fault(fn, "StripTest.Radius", s.Radius, "mm", "either a radius or a lift", ErrRange)
	case s.Lift > 0:
		if err := needPositive(fn, "StripTest.Mark", s.Mark, "mm"); err != nil {
			return 0, err
		}
		return ClosingAngleFromLift(s.Lift, s.Mark)
	}
	if err := needPositive(fn, "StripTest.Pitch", s.Pitch, "mm"); err != nil {
		return 0, err
	}
	a, err := s.Board.turnAt(fn, "StripTest", s.Pitch, s.Radius, false)
	return arc.Angle(a), err
}

// A Calibration is what test strips tell about a machine, a cutter and a
// board: how kerfs really come out.
type Calibration struct {
	KerfWidth float64 // effective, mm
	WebError  float64 // effective web less the web set, mm
	Residual  float64 // largest closing width left unexplained by any strip, mm
}

// Calibrate returns the effective kerf width and web from test strips cut with
// the same kerf width set.
//
// A kerf closes at a = w/(t − b/2), so one strip gives one relation between
// width and web: the web is then taken as set and the width corrected. Two
// strips or more whose closing angles differ by a tenth or more of the larger
// (cut in boards of different thickness) give both, by least squares. ErrRange
// is returned where what comes out is no kerf at all.
func Calibrate(tests ...StripTest) (Calibration, error) {
	const fn = "bend.Calibrate"
	if len(tests) == 0 {
		return Calibration{}, fault(fn, "tests", 0, "", "at least 1", ErrRange)
	}
	x, y := make([]float64, len(tests)), make([]float64, len(tests))
	low, high := math.Inf(1), 0.0
	for i, s := range tests {
		a, err := s.closing(fn)
		if err != nil {
			return Calibration{}, err
		}
		if w := tests[0].Board.KerfWidth; s.Board.KerfWidth != w {
			return Calibration{}, fault(fn, fmt.Sprintf("tests[%d].Board.KerfWidth", i), s.Board.KerfWidth, "mm",
				fmt.Sprintf("%.6g mm as in the first", w), ErrRange)
		}
		// a(t − (b+e)/2) = w, so a(t − b/2) = w + e·a/2.
		x[i], y[i] = float64(a)/2, s.Board.KerfWidth-s.Board.mouth(s.Board.BendWidth(), float64(a))
		low, high = math.Min(low, x[i]), math.Max(high, x[i])
	}
	c := Calibration{KerfWidth: stat.Mean(y, nil)}
	if low < 0.9*high {
		c.KerfWidth, c.WebError = stat.LinearRegression(x, y, nil, false)
	}
	for i := range x {
		c.Residual = math.Max(c.Residual, math.Abs(c.KerfWidth+c.WebError*x[i]-y[i]))
	}
	for i, s := range tests {
		if err := c.Apply(s.Board).Check(); err != nil {
			return Calibration{}, fault(fn, fmt.Sprintf("tests[%d]", i), fmt.Sprintf("kerf %.4g mm, web %.4g mm", c.KerfWidth, s.Board.Web+c.WebError), "",
				"measurements of a kerf with a web; measure again", err)
		}
	}
	return c, nil
}

// Apply returns the board with the effective kerf width and web, to plan with.
// What is set on the machine stays as it was when the strip was cut. Limits of
// the cutter concern what is set and are dropped.
func (c Calibration) Apply(b Board) Board {
	b.KerfWidth = c.KerfWidth
	b.Web += c.WebError
	b.Cutter = Cutter{}
	return b
}
