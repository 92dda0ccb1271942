package sheet

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/internal/clear"
	"gonum.org/v1/gonum/spatial/r2"
)

// A framing returns the rectangle of a sheet that is looked at for offcuts.
type framing func(stock int, s Stock) r2.Box

// wholeSheets frames rectangular sheets, and nothing of others.
func wholeSheets(_ int, s Stock) r2.Box {
	if s.irregular() {
		return r2.Box{}
	}
	return box(0, 0, s.Length, s.Width)
}

// offcuts returns the rectangles of a frame that one straight cut across it
// frees, and a second one across the rest: beyond the parts in x and in y, the
// larger first. The cut keeps the gap from the parts.
func offcuts(s Sheet, parts []Part, st Stock, frame r2.Box, opt Options) []Offcut {
	if area(frame) == 0 || len(s.Placements) == 0 {
		return nil
	}
	x, y := frame.Min.X, frame.Min.Y
	for _, p := range s.Placements {
		b := parts[p.Part].boxAt(p)
		x, y = max(x, b.Max.X+opt.Gap), max(y, b.Max.Y+opt.Gap)
	}
	lo, hi := frame.Min, frame.Max
	right := [2]r2.Box{box(x, lo.Y, hi.X, hi.Y), box(lo.X, y, x, hi.Y)}
	top := [2]r2.Box{box(lo.X, y, hi.X, hi.Y), box(x, lo.Y, hi.X, y)}
	if area(top[0]) > area(right[0]) {
		right = top
	}
	var out []Offcut
	for _, b := range right {
		if least := max(opt.LeastSide, 1e-6); b.Max.X-b.Min.X >= least && b.Max.Y-b.Min.Y >= least {
			out = append(out, Offcut{b.Min, st.piece(b, arc.Region{})})
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

// piece returns the rectangle b of a sheet, or what has an outline within it, as
// stock, with the forbidden regions that reach into the rectangle.
func (s Stock) piece(b r2.Box, outline arc.Region) Stock {
	p := s
	p.Name = "offcut"
	if s.Name != "" {
		p.Name += " of " + s.Name
	}
	p.Length, p.Width = b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	p.Outline, p.Count, p.Price, p.Forbidden = outline.Transform(arc.Shift(r2.Scale(-1, b.Min))), 1, 0, nil
	p.ID, p.LeastGain = "", 0
	for _, f := range s.Forbidden {
		if clear.Near(f.Bounds(), b, 0) {
			p.Forbidden = append(p.Forbidden, f.Transform(arc.Shift(r2.Scale(-1, b.Min))))
		}
	}
	return p
}
