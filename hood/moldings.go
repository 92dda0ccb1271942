package hood

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/miter"
)

// A Trim is a length of molding to cut. Its rear ends at the wall are square.
type Trim struct {
	Name   string
	Length float64 // along the line in which it touches the hood, from corner to corner or wall, mm
	Miters int     // how many of its ends are mitered: 2 in front, 1 at the sides
	End    miter.End
}

// moldings lists those around the bottom edge and around the top.
func moldings(s spec.Sizes, faults *spec.Checker) []Trim {
	var out []Trim
	if s.Molding.Band {
		out = append(out, around("band", s.Width, s.Depth, miter.Corner{
			Plan:  90 * arc.Degree,
			First: miter.Board{Tilt: 90 * arc.Degree}, Second: miter.Board{Tilt: 90 * arc.Degree},
		})...)
	}
	if !s.Molding.Crown {
		return out
	}
	wide, deep := s.NeckWidth(), s.Neck.Depth
	if s.Chimney.Height > 0 {
		wide, deep = s.ChimneySize()
	}
	c, err := miter.Crown(s.Molding.Spring, 90*arc.Degree, false)
	if err != nil {
		faults.Add("molding.spring", s.Molding.Spring.Degrees(), "deg", err.Error(), arc.ErrRange)
		return out
	}
	return append(out, around("crown", wide, deep, c)...)
}

// around returns the three lengths around a box against the wall.
func around(name string, wide, deep float64, c miter.Corner) []Trim {
	cuts, err := c.Cuts()
	if err != nil {
		return nil
	}
	return []Trim{
		{name + "-left", deep, 1, cuts.First},
		{name + "-front", wide, 2, cuts.Second},
		{name + "-right", deep, 1, cuts.Second},
	}
}

// absolute returns the size of an angle.
func absolute(a arc.Angle) arc.Angle { return arc.Angle(math.Abs(float64(a))) }
