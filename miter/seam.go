package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// A Panel is a board bent over a profile: its show face is the profile drawn
// out level. The profile may hold lines, arcs of either hand and folds, such as
// a skirt below a sweep; it must rise throughout and may be level only at an
// end.
type Panel struct {
	Profile   arc.Path // x outward, y up, from its lower end; the board on its left
	Thickness float64  // mm, > 0
}

// A Pair is two panels that meet in a mitered seam. Both profiles measure
// height from one level, and outward from the upright line in which the planes
// of x = 0 cross. Plan is the interior plan angle between the panels.
type Pair struct {
	First, Second Panel
	Plan          arc.Angle
}

// A Seam is a solved pair. It runs over the heights the profiles have in
// common, from Lower to Upper.
type Seam struct {
	Lower, Upper float64

	panel    [2]faces
	sin, cos float64 // of the turn on plan
}

// faces is a panel's show face and back.
type faces struct {
	show, back section
	t          float64
}

// A Mark is a point of the seam on one panel's flat blank, before any kerfs:
// x along the board toward the corner from x = 0 of the other's profile, y the
// developed length on the show face up from the profile's lower end.
type Mark struct {
	Show, Back r2.Vec    // where the cut meets the show face and, at the same height, the back
	Bevel      arc.Angle // off square to the face, > 0 where the back is shorter
}

// A Station is the seam at one height.
//
// Show and Back are the corner points in space: x along the first panel toward
// the corner, y outward from it, z up. Dihedral is the angle between the show
// faces through the material. HasBack is false where one back does not come up
// or down to this height; Back is then zero in all.
type Station struct {
	Show, Back    r3.Vec
	Dihedral      arc.Angle
	First, Second Mark
	HasBack       bool
}

// Seam solves the pair. It refuses what is not finite or not positive, a plan
// angle within a degree of 0°, 180° or 360°, profiles that do not rise
// ([ErrNotRising]), backs that fold over ([ErrFold]) and profiles without a
// common height ([ErrNoSeam]).
//
// At height z with f and g outward on the profiles and the turn θ on plan the
// seam is (g − f cos θ)/sin θ along the first panel and (f − g cos θ)/sin θ
// along the second, on the show faces and on the backs alike.
func (p Pair) Seam() (Seam, error) {
	const fn = "miter.Pair.Seam"
	if err := needBetween(fn, "Plan", p.Plan, 0, 2*math.Pi); err != nil {
		return Seam{}, err
	}
	var s Seam
	s.sin, s.cos = sincos(p.Plan) // of π − turn
	s.cos = -s.cos
	if math.Abs(s.sin) < math.Sin(math.Pi/180) {
		return Seam{}, fault(fn, "Plan", p.Plan, "", "a degree or more from 0°, 180° and 360°", ErrNoSeam)
	}
	for i, panel := range [2]Panel{p.First, p.Second} {
		var err error
		if s.panel[i], err = panel.faces(fn, [2]string{"First", "Second"}[i]); err != nil {
			return Seam{}, err
		}
	}
	// Backs that start at one height on the show face differ by less than this.
	for i := range s.panel {
		s.panel[i].back = s.panel[i].back.extended(p.First.Thickness + p.Second.Thickness)
	}
	a, b := s.panel[0].show, s.panel[1].show
	s.Lower, s.Upper = math.Max(a.bottom(), b.bottom()), math.Min(a.top(), b.top())
	if !(s.Upper-s.Lower > slack) {
		return Seam{}, fault(fn, "Second.Profile", b.bottom(), "mm", "a height in common with the first profile", ErrNoSeam)
	}
	return s, nil
}

// faces returns both faces of the panel.
func (p Panel) faces(fn, name string) (faces, error) {
	if !length(p.Thickness) || p.Thickness <= 0 {
		return faces{}, fault(fn, name+".Thickness", p.Thickness, "mm", "> 0 up to 1e9", arc.ErrRange)
	}
	show, err := showSection(fn, name+".Profile", p.Profile)
	if err != nil {
		return faces{}, err
	}
	back, err := backSection(fn, name+".Thickness", show, p.Thickness)
	return faces{show, back, p.Thickness}, err
}

// along returns how far along either panel the seam lies where the first is
// out by f and the second by g.
func (s Seam) along(f, g float64) [2]float64 {
	return [2]float64{(g - f*s.cos) / s.sin, (f - g*s.cos) / s.sin}
}

// turn returns the angle between two normals whose faces have the given
// slopes; the normal of a slope α is (sin α outward, −cos α up).
func (s Seam) turn(a, b float64) arc.Angle {
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	n1 := r3.Vec{X: sa, Z: -ca}
	n2 := r3.Vec{X: sb * s.cos, Y: sb * s.sin, Z: -cb}
	t := math.Atan2(r3.Norm(r3.Cross(n1, n2)), r3.Dot(n1, n2))
	return arc.Angle(math.Copysign(t, s.sin))
}

// bevels returns the bevels of both boards for a turn between their normals.
func (s Seam) bevels(turn arc.Angle) (first, second arc.Angle) {
	c := Corner{First: Board{Thickness: s.panel[0].t}, Second: Board{Thickness: s.panel[1].t}}
	var cuts Cuts
	c.joint(turn, &cuts)
	return cuts.First.Bevel, cuts.Second.Bevel
}

// At returns the seam at height z, Lower <= z <= Upper.
func (s Seam) At(z float64) (Station, error) {
	const fn = "miter.Seam.At"
	if !finite(z) || s.panel[0].show == nil || z < s.Lower-slack || z > s.Upper+slack {
		return Station{}, fault(fn, "z", z, "mm", "a height from Lower to Upper of a solved seam", arc.ErrRange)
	}
	st := Station{}
	show := s.meet(z, faces.showFace)
	turn := s.turn(show.slope[0], show.slope[1])
	st.Dihedral = math.Pi - turn
	st.Show = r3.Vec{X: show.mark[0].X, Y: show.out[0], Z: z}
	st.First.Show, st.Second.Show = show.mark[0], show.mark[1]
	st.First.Bevel, st.Second.Bevel = s.bevels(turn)
	if st.HasBack = s.backReaches(z); st.HasBack {
		back := s.meet(z, faces.backFace)
		st.Back = r3.Vec{X: back.mark[0].X, Y: back.out[0], Z: z}
		st.First.Back, st.Second.Back = back.mark[0], back.mark[1]
	}
	return st, nil
}

// slack is how far in mm a height may lie beyond the end of a face, where the
// end was computed and the height came from elsewhere.
const slack = 1e-6

func (f faces) showFace() section { return f.show }
func (f faces) backFace() section { return f.back }

// backReaches reports whether both backs come to height z.
func (s Seam) backReaches(z float64) bool {
	for _, p := range s.panel {
		if z < p.back.bottom()-slack || z > p.back.top()+slack {
			return false
		}
	}
	return true
}

// A meeting is where two faces meet at one height.
type meeting struct {
	mark       [2]r2.Vec
	out, slope [2]float64
}

// meet returns where two faces meet at height z.
func (s Seam) meet(z float64, face func(faces) section) meeting {
	return s.cross(z, face(s.panel[0]).find(z), face(s.panel[1]).find(z))
}

// cross returns where two spans meet at height z.
func (s Seam) cross(z float64, a, b span) meeting {
	var m meeting
	for i, sp := range [2]span{a, b} {
		l := sp.rise(z - sp.z)
		m.out[i], _, m.slope[i] = sp.at(l)
		m.mark[i].Y = sp.u + l
	}
	along := s.along(m.out[0], m.out[1])
	m.mark[0].X, m.mark[1].X = along[0], along[1]
	return m
}
