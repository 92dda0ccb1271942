package sheet

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// offcuts returns the rectangles of a rectangular sheet that one straight cut
// across it frees, and a second one across the rest: beyond the parts in x and
// in y, the larger first. The cut keeps the gap from the parts.
func offcuts(s Sheet, parts []Part, st Stock, opt Options) []Offcut {
	if st.irregular() || len(s.Placements) == 0 {
		return nil
	}
	x, y := 0.0, 0.0
	for _, p := range s.Placements {
		b := parts[p.Part].Outline.Transform(p.Motion()).Bounds()
		x, y = max(x, b.Max.X+opt.Gap), max(y, b.Max.Y+opt.Gap)
	}
	right := [2]r2.Box{box(x, 0, st.Length, st.Width), box(0, y, x, st.Width)}
	top := [2]r2.Box{box(0, y, st.Length, st.Width), box(x, 0, st.Length, y)}
	if area(top[0]) > area(right[0]) {
		right = top
	}
	var out []Offcut
	for _, b := range right {
		if least := max(opt.LeastSide, 1e-6); b.Max.X-b.Min.X >= least && b.Max.Y-b.Min.Y >= least {
			out = append(out, Offcut{b.Min, st.piece(b)})
		}
	}
	return out
}

func box(x0, y0, x1, y1 float64) r2.Box {
	return r2.Box{Min: r2.Vec{X: x0, Y: y0}, Max: r2.Vec{X: x1, Y: y1}}
}

func area(b r2.Box) float64 {
	return max(0, b.Max.X-b.Min.X) * max(0, b.Max.Y-b.Min.Y)
}

// piece returns the rectangle b of a sheet as stock, with the forbidden
// regions that reach into it.
func (s Stock) piece(b r2.Box) Stock {
	p := s
	p.Name = "offcut"
	if s.Name != "" {
		p.Name += " of " + s.Name
	}
	p.Length, p.Width = b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	p.Outline, p.Count, p.Price, p.Forbidden = arc.Region{}, 1, 0, nil
	for _, f := range s.Forbidden {
		if meet(f.Bounds(), b, 0) {
			p.Forbidden = append(p.Forbidden, f.Transform(arc.Shift(r2.Scale(-1, b.Min))))
		}
	}
	return p
}
