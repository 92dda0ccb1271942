package cut

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Slot is a straight groove cut from the back face, in the part's
// coordinates: a kerf or a dado. It is Width wide from From to To, with its
// ends square; the cutter's axis goes as far as From and To, so that a round
// end of half the width stands beyond each, over waste.
type Slot struct {
	From, To     r2.Vec
	Width, Depth float64 // mm
}

// A Pocket is an area cut down to a depth from the back face: a rabbet or a
// recess. It may run out over waste.
type Pocket struct {
	Area  arc.Region
	Depth float64 // mm
}

// A Bevel is a sloped edge along a run of the outline of the show face.
type Bevel struct {
	Edge  arc.Path  // part of the outline, run as the outline
	Name  string    // of the edge, printed; "" is its number
	Angle arc.Angle // off square: > 0 leans in toward the back face, < 0 undercuts; the largest, where it changes

	// Back is the edge on the back face, run as Edge, of a bevel that changes along
	// it, and Rule the direction of the level lines that join the two: the face is
	// straight between points that differ by a multiple of Rule. Without vertices
	// the bevel is Angle throughout.
	Back arc.Path
	Rule r2.Vec
}

// leastBevel is how far an edge may lean in over the thickness and still be
// taken to be square, mm: less than a fifth of what a sheet of sandpaper takes.
const leastBevel = 0.01

// Square reports whether the bevel leans so little over a thickness in mm that
// it is rounding, and the edge square.
func (b Bevel) Square(thickness float64) bool {
	return math.Abs(thickness*math.Tan(float64(b.Angle))) < leastBevel
}

// A Work is what is cut into a part beside its outline and its openings.
type Work struct {
	Slots   []Slot
	Pockets []Pocket
	Bevels  []Bevel
}

// Bounds of what is taken, so that no input makes a program without end.
const (
	maxSize   = 1e5 // mm
	maxDepth  = 500 // mm
	maxItems  = 20000
	maxPasses = 200
)

// check reports the first fault of the work of a part so thick.
func (w Work) check(fn, name string, thickness float64) error {
	if n := len(w.Slots) + len(w.Pockets) + len(w.Bevels); n > maxItems {
		return &ParamError{Func: fn, Param: name, Value: n, Need: fmt.Sprintf("<= %d slots, pockets and bevels", maxItems), Err: arc.ErrRange}
	}
	for i, s := range w.Slots {
		if err := s.check(fn, fmt.Sprintf("%s.Slots[%d]", name, i), thickness); err != nil {
			return err
		}
	}
	for i, p := range w.Pockets {
		name := fmt.Sprintf("%s.Pockets[%d]", name, i)
		if err := checkDepth(fn, name, p.Depth, thickness); err != nil {
			return err
		}
		if err := checkRegion(fn, name+".Area", p.Area); err != nil {
			return err
		}
	}
	for i, b := range w.Bevels {
		name := fmt.Sprintf("%s.Bevels[%d]", name, i)
		if a := math.Abs(float64(b.Angle)); !(a > 0 && a < 80*math.Pi/180) {
			return &ParamError{Func: fn, Param: name + ".Angle", Value: b.Angle.Degrees(), Unit: "deg", Need: "not 0, and less than 80 either way", Err: arc.ErrRange}
		}
		if err := checkPath(fn, name+".Edge", b.Edge); err != nil {
			return err
		}
		if !b.changes() {
			continue
		}
		if err := checkPath(fn, name+".Back", b.Back); err != nil {
			return err
		}
		if l := r2.Norm(b.Rule); !(l > 1e-6 && l < maxSize) {
			return &ParamError{Func: fn, Param: name + ".Rule", Value: l, Need: "a direction", Err: kind(l)}
		}
		if b.Edge.Closed || b.Back.Closed {
			return &ParamError{Func: fn, Param: name + ".Edge", Value: "closed", Need: "open runs, where the bevel changes", Err: arc.ErrRange}
		}
	}
	return nil
}

func (s Slot) check(fn, name string, thickness float64) error {
	if err := checkDepth(fn, name, s.Depth, thickness); err != nil {
		return err
	}
	if !(s.Width > 0 && s.Width <= maxSize) {
		return &ParamError{Func: fn, Param: name + ".Width", Value: s.Width, Unit: "mm", Need: "> 0", Err: arc.ErrRange}
	}
	if l := r2.Norm(r2.Sub(s.To, s.From)); !(l > 1e-6 && l <= maxSize) {
		return &ParamError{Func: fn, Param: name, Value: l, Unit: "mm", Need: "a length > 0", Err: arc.ErrRange}
	}
	for _, v := range [4]float64{s.From.X, s.From.Y, s.To.X, s.To.Y} {
		if !(math.Abs(v) <= maxSize) {
			return &ParamError{Func: fn, Param: name, Value: v, Unit: "mm", Need: "coordinates of a sheet", Err: arc.ErrRange}
		}
	}
	return nil
}

// rect returns the area a slot is asked to cut, counter-clockwise.
func (s Slot) rect() arc.Path {
	u := r2.Unit(r2.Sub(s.To, s.From))
	n := r2.Scale(s.Width/2, r2.Vec{X: -u.Y, Y: u.X})
	return arc.Polygon(r2.Sub(s.From, n), r2.Sub(s.To, n), r2.Add(s.To, n), r2.Add(s.From, n))
}

func (s Slot) moved(m arc.Motion) Slot {
	s.From, s.To = m.Apply(s.From), m.Apply(s.To)
	return s
}

func (w Work) moved(m arc.Motion) Work {
	var out Work
	for _, s := range w.Slots {
		out.Slots = append(out.Slots, s.moved(m))
	}
	for _, p := range w.Pockets {
		out.Pockets = append(out.Pockets, Pocket{p.Area.Transform(m), p.Depth})
	}
	for _, b := range w.Bevels {
		e, back := b.Edge.Transform(m), b.Back.Transform(m)
		if m.Mirrors() {
			e, back = e.Reverse(), back.Reverse()
		}
		rule := r2.Sub(m.Apply(b.Rule), m.Apply(r2.Vec{}))
		out.Bevels = append(out.Bevels, Bevel{Edge: e, Name: b.Name, Angle: b.Angle, Back: back, Rule: rule})
	}
	return out
}
