package hood

import (
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/boards"
	"math"
)

// flareOf tells of a side.
func flareOf(front curve.Section, side boards.Side, skirt, t float64) Flare {
	f := Flare{Curve: side.Curve.Clone()}
	for _, at := range side.Stations {
		p := seamPoint(at, skirt)
		p.HasBack = p.HasBack && hasBack(front, p.UFrontBack, t) && hasBack(side.Section, at.Second.Back.Y-skirt, t)
		f.Seam = append(f.Seam, p)
	}
	return f
}

func seamPoint(at boards.Station, skirt float64) SeamPoint {
	return SeamPoint{
		Y: at.Y, XShow: at.Show.X, ZShow: at.Show.Y,
		UFront: at.First.Show.Y - skirt, USide: at.Second.Show.Y - skirt,
		Bevel: at.First.Bevel, XBack: at.Back.X, UFrontBack: at.First.Back.Y - skirt,
		HasBack: at.HasBack,
	}
}

// hasBack reports whether a panel has a back at a developed length: next to an end
// that is cut square, or beveled, it has none.
func hasBack(s curve.Section, u, t float64) bool {
	low, high := t*math.Tan(float64(s.Lower)), s.Curve.ShowLength-t*math.Tan(float64(s.Upper))
	return u >= low-curve.Flat && u <= high+curve.Flat
}
