package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// FromNormals returns the corner of two boards of equal thickness from the
// outward normals of their show faces, of any length, z up. Neither face may
// be level, for a level face does not show which way its board runs, and the
// boards must turn on plan. Where the second normal turns left of the first
// the corner is an outside one.
func FromNormals(first, second r3.Vec) (Corner, error) {
	const fn = "miter.FromNormals"
	var tilt, plan [2]float64
	for i, n := range [2]r3.Vec{first, second} {
		name := [2]string{"first", "second"}[i]
		if !finite(n.X) || !finite(n.Y) || !finite(n.Z) {
			return Corner{}, fault(fn, name, n, "", "finite components", arc.ErrNotFinite)
		}
		level := math.Hypot(n.X, n.Y)
		if level == 0 {
			return Corner{}, fault(fn, name, n, "", "a face that is not level", ErrNoSeam)
		}
		tilt[i], plan[i] = math.Atan2(level, n.Z), math.Atan2(n.Y, n.X)
	}
	turn := math.Remainder(plan[1]-plan[0], 2*math.Pi)
	if turn == 0 || math.Abs(turn) == math.Pi {
		return Corner{}, fault(fn, "second", second, "", "a normal that turns on plan", ErrNoSeam)
	}
	return Corner{
		Plan:   arc.Angle(math.Pi - turn),
		First:  Board{Tilt: arc.Angle(tilt[0])},
		Second: Board{Tilt: arc.Angle(tilt[1])},
	}, nil
}

// RegularBox returns the corner of a box of n >= 3 equal sides of the given
// tilt: tan(miter) = cos(tilt)·tan(180°/n), sin(bevel) = sin(tilt)·sin(180°/n).
func RegularBox(n int, tilt arc.Angle) (Corner, error) {
	if n < 3 {
		return Corner{}, fault("miter.RegularBox", "n", n, "", "at least 3 sides", arc.ErrRange)
	}
	c := Corner{
		Plan:  arc.Angle(math.Pi * (1 - 2/float64(n))),
		First: Board{Tilt: tilt}, Second: Board{Tilt: tilt},
	}
	return c, c.check("miter.RegularBox")
}

// Crown returns the corner of two lengths of crown molding. Spring is the angle
// between the molding's back and the wall, over 0° and under 90°; wall is the
// angle between the walls, 0° to 180°, as measured in the room at an inside
// corner and around the pier or hood at an outside one. The board of a crown
// leans out as it rises: its tilt is 90° + spring.
func Crown(spring, wall arc.Angle, inside bool) (Corner, error) {
	const fn = "miter.Crown"
	if err := needBetween(fn, "spring", spring, 0, 90*arc.Degree); err != nil {
		return Corner{}, err
	}
	if err := needBetween(fn, "wall", wall, 0, 180*arc.Degree); err != nil {
		return Corner{}, err
	}
	if inside {
		wall = 2*math.Pi - wall
	}
	b := Board{Tilt: math.Pi/2 + spring}
	return Corner{Plan: wall, First: b, Second: b}, nil
}
