package place

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// angles lists the turns that the search begins with. An item that may take
// any turn and has no list gets those that lay one of its longest edges along
// an axis, and steps of 15 degrees.
func (it Item) angles() []float64 {
	switch {
	case it.AnyRotation && len(it.Rotations) == 0:
		return it.anyAngles()
	case len(it.Rotations) == 0:
		return []float64{0}
	}
	return it.Rotations
}

const alignEdges = 3 // edge directions that are laid along the axes

func (it Item) anyAngles() []float64 {
	var out []float64
	for k := range 6 {
		out = append(out, float64(k)*math.Pi/12)
	}
	type dir struct{ angle, length float64 }
	var dirs []dir
	for i, v := range it.Outer {
		d := r2.Sub(at(it.Outer, i+1), v)
		a := math.Mod(math.Atan2(d.Y, d.X)+2*math.Pi, math.Pi/2)
		dirs = append(dirs, dir{a, norm(d)})
	}
	sort.SliceStable(dirs, func(i, j int) bool { return dirs[i].length > dirs[j].length })
	for _, d := range dirs {
		if len(out) == 6+alignEdges {
			break
		}
		if a := math.Pi/2 - d.angle; !hasAngle(out, a) {
			out = append(out, a)
		}
	}
	n := len(out)
	for q := 1; q < 4; q++ {
		for _, a := range out[:n] {
			out = append(out, a+float64(float64(q)*math.Pi/2))
		}
	}
	return out
}

// hasAngle tells whether an angle, up to right angles, is in the list.
func hasAngle(list []float64, a float64) bool {
	for _, b := range list {
		d := math.Mod(math.Abs(a-b), math.Pi/2)
		if min(d, math.Pi/2-d) < 1e-6 {
			return true
		}
	}
	return false
}
