package hood

import (
	"example.com/sagitta/hood/internal/boards"
)

// flareOf tells of a side.
func flareOf(side boards.Side, skirt float64) Flare {
	f := Flare{Curve: side.Curve.Clone()}
	for _, at := range side.Stations {
		f.Seam = append(f.Seam, seamPoint(at, skirt))
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
