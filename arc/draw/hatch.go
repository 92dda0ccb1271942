package draw

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// maxHatch bounds the number of lines of one hatch.
const maxHatch = 100_000

// Hatch returns parallel lines across a region at the given angle, pitch mm
// apart. They end on the region's outline to within 1/50 of the pitch. Hatches
// of one angle and pitch line up wherever they are.
func Hatch(r arc.Region, angle arc.Angle, pitch float64) ([]arc.Path, error) {
	const fn = "draw.Hatch"
	if math.IsNaN(float64(angle)) || math.IsInf(float64(angle), 0) {
		return nil, &ParamError{Func: fn, Param: "angle", Value: float64(angle), Unit: "rad", Need: "a finite number", Err: arc.ErrNotFinite}
	}
	if !(pitch > 0) || math.IsInf(pitch, 0) {
		return nil, &ParamError{Func: fn, Param: "pitch", Value: pitch, Unit: "mm", Need: "> 0", Err: arc.ErrRange}
	}
	level := r.Transform(arc.Rotate(-angle))
	b := level.Bounds()
	n := (b.Max.Y - b.Min.Y) / pitch
	if !(n <= maxHatch) {
		return nil, &ParamError{Func: fn, Param: "pitch", Value: pitch, Unit: "mm", Need: "at most 100000 lines", Err: arc.ErrRange}
	}
	var loops []arc.Path
	for _, p := range level.Loops() {
		q, err := p.Flatten(pitch / 50)
		if err != nil {
			return nil, err
		}
		loops = append(loops, q)
	}
	back := arc.Rotate(angle)
	var out []arc.Path
	first := math.Ceil(b.Min.Y/pitch - 0.5)
	for j := range int(n) + 1 {
		y := (first + float64(j) + 0.5) * pitch
		x := crossings(loops, y)
		for i := 0; i+1 < len(x); i += 2 {
			out = append(out, arc.Polyline(back.Apply(r2.Vec{X: x[i], Y: y}), back.Apply(r2.Vec{X: x[i+1], Y: y})))
		}
	}
	return out, nil
}

// crossings returns where the loops, made of lines, cross the height y, from
// left to right. A vertex at y counts as above it, so the number is even.
func crossings(loops []arc.Path, y float64) []float64 {
	var x []float64
	for _, p := range loops {
		for i := range p.NumSegments() {
			s := p.Segment(i)
			if (s.A.Y >= y) != (s.B.Y >= y) {
				f := (y - s.A.Y) / (s.B.Y - s.A.Y)
				x = append(x, s.A.X+f*(s.B.X-s.A.X))
			}
		}
	}
	slices.Sort(x)
	return x
}
