package miter

import (
	"math"

	"example.com/sagitta/arc"
)

// A Side names one panel of a pair.
type Side int

// The sides, in the order of travel.
const (
	First Side = iota
	Second
)

// A Trim is where a blank is cut at one developed length: how far along the
// board on the show face and on the back, as in [Mark], and the angles of the
// cut there. Miter is the lean of the show edge off the board's level lines'
// square, > 0 where the blank grows narrower upward. Bevel is the tilt of a
// blade that follows the show edge and meets the back edge; it differs from the
// bevel of [Mark], half the turn between the faces, by what the faces curve
// within the thickness.
type Trim struct {
	Show, Back   float64
	Miter, Bevel arc.Angle
}

// Trim returns the cut of one panel at the developed length u on its show face,
// from the profile's lower end, for a blank whose back is cut square at the
// ends. It refuses a u outside the seam, and one where a fold takes the back
// away.
func (s Seam) Trim(side Side, u float64) (Trim, error) {
	const fn = "miter.Seam.Trim"
	if side != First && side != Second || s.panel[0].show == nil {
		return Trim{}, fault(fn, "side", int(side), "", "First or Second of a solved seam", arc.ErrRange)
	}
	p := s.panel[side]
	sp, ok := p.show.covers(u)
	if !ok {
		return Trim{}, fault(fn, "u", u, "mm", "a length of the profile", arc.ErrRange)
	}
	_, z, _ := sp.at(u - sp.u)
	if z < s.Lower-slack || z > s.Upper+slack {
		return Trim{}, fault(fn, "u", u, "mm", "a length within the seam", arc.ErrRange)
	}
	show := s.meet(z, faces.showFace)
	bp, ok := p.back.covers(u)
	_, zb, _ := bp.at(u - bp.u)
	if !ok || !s.backReaches(zb) {
		return Trim{}, fault(fn, "u", u, "mm", "a length at which both panels have a back", ErrFold)
	}
	back := s.meet(zb, faces.backFace)
	c := cell{span: [2]span{s.panel[0].show.find(z), s.panel[1].show.find(z)}}
	v := s.tangent(int(side), c, show)
	m := math.Atan2(-v.X, v.Y)
	t := Trim{Show: show.mark[side].X, Back: back.mark[side].X, Miter: arc.Angle(m)}
	t.Bevel = arc.Angle(math.Atan2((t.Show-t.Back)*math.Cos(m), p.t))
	return t, nil
}

// covers returns the span that covers the developed length u.
func (s section) covers(u float64) (span, bool) {
	for _, sp := range s {
		if u >= sp.u-slack && u <= sp.u+sp.n+slack {
			return sp, true
		}
	}
	return span{}, false
}
