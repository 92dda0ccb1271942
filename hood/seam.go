package hood

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/boards"
)

// A SeamPoint is a point of the seam between the front and a flared side. U is
// a developed length on the show face, before kerfs, up from the lower edge of
// the sweep. XBack and UFrontBack are where the back faces meet at the same
// height, if they do: next to its ends a panel cut square has no back.
type SeamPoint struct {
	Y             float64 // height
	XShow, ZShow  float64 // of the seam, out from the middle plane and from the wall
	UFront, USide float64
	Bevel         arc.Angle // of both panels
	XBack         float64   // out from the middle plane, as XShow
	UFrontBack    float64
	HasBack       bool
}

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
