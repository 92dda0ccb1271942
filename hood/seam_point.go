package hood

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
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

// seamRows is how many stretches a printed seam is cut into.
const seamRows = 24

func seamList(s miter.Seam, skirt, height float64) []SeamPoint {
	var out []SeamPoint
	for i := range seamRows + 1 {
		p, err := seamPoint(s, skirt, skirt+(height-skirt)*float64(i)/seamRows)
		if err == nil {
			out = append(out, p)
		}
	}
	return out
}

func seamPoint(s miter.Seam, skirt, y float64) (SeamPoint, error) {
	st, err := s.At(max(s.Lower, min(y, s.Upper)))
	if err != nil {
		return SeamPoint{}, err
	}
	return SeamPoint{
		Y: y, XShow: st.Show.X, ZShow: st.Show.Y,
		UFront: st.First.Show.Y - skirt, USide: st.Second.Show.Y - skirt,
		Bevel: st.First.Bevel, XBack: st.Back.X, UFrontBack: st.First.Back.Y - skirt,
		HasBack: st.HasBack,
	}, nil
}
