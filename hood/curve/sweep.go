package curve

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Sweep is the shape of a curved panel between two ends that are given.
type Sweep struct {
	Shape  string       `json:"shape" most:"40" doc:"straight, cove (concave), bow (convex), ogee (cove below, bow above), reverse-ogee, ellipse (a quarter, concave, level at the skirt and plumb at the neck) or points; empty means straight" enum:",straight,cove,bow,ogee,reverse-ogee,ellipse,points"`
	Sag    float64      `json:"sag" unit:"mm" doc:"how far the curve stands off its chord, square to it; of each arc of an ogee off its own half; 0 for straight, ellipse and points"`
	Method string       `json:"method" most:"40" doc:"way to bend this panel: kerf, laminate or as-is; empty means that of bend.method; not used where the panel is straight" enum:",kerf,laminate,as-is"`
	Points [][2]float64 `json:"points" most:"100" unit:"mm" doc:"points a curve of shape points passes through, each [out of the wall (or of the middle), height], upward, without the two ends; left out for other shapes"`
}

// A Curve is what there is to know of a panel's section. An angle of lean is
// off plumb, positive toward the wall or the middle as one goes up.
type Curve struct {
	Chord      float64   // between its ends, mm
	Sag        float64   // off the chord, mm; of an ogee, of each arc off its own chord
	Radius     float64   // mm; 0 where straight or not constant
	Turn       arc.Angle // of its tangent from end to end, counting every bend positive
	Lean       arc.Angle // of the chord
	Low, High  arc.Angle // lean of the tangent at the lower and the upper end
	ShowLength float64   // on the show face, mm
	FlatLength float64   // of the flat blank, of plies that of the first, mm
	SkirtBevel arc.Angle // of skirt and sweep where they meet, off square
	Kerfs      Kerfs
	Plies      Plies   // where laminated, or bent as it is
	Arcs       []Curve // of a curve of more than one arc, upward
}

// Kerfs is the kerf plan of a curve; the zero Kerfs is none.
type Kerfs struct {
	Count  int
	Pitch  float64   // middle to middle, mm; 0 where it varies
	First  float64   // middle of the first from the lower end of the blank, mm
	Turn   arc.Angle // of each
	Facet  float64   // how far the bent panel leaves the curve, mm
	Strain float64   // of a web
	Mouth  float64   // of a kerf after bending, mm
	Opens  bool      // the show face is concave
}

// Name returns the shape as a word: that of the spec, or straight.

// Plies tells how a panel is laminated, or bent as it is in one sheet; the zero
// Plies is neither.
type Plies struct {
	Count      int
	Thickness  float64   // of one, mm
	Strain     float64   // at the faces of the one bent most: on the form, or as it is
	Use        float64   // of what the material stands, at the tightest place; 1 is all of it
	FormRadius float64   // of the form's face inside the bend, at the tightest place, before springback, mm; 0 without a form
	Lengths    []float64 // net, along the middle of each, from the show face in, mm
}

// Name returns the shape as a word: that of the spec, or straight.
func (w Sweep) Name() string {
	if w.Shape == "" {
		return "straight"
	}
	return w.Shape
}

// TakesSag reports whether the shape has a sag.
func (w Sweep) TakesSag() bool {
	switch w.Name() {
	case "cove", "bow", "ogee", "reverse-ogee":
		return true
	}
	return false
}

// Curved reports whether the shape is any but straight.
func (w Sweep) Curved() bool {
	switch w.Name() {
	case "straight":
		return false
	case "ellipse", "points":
		return true
	}
	return w.Sag > 0
}

// Signs returns the sense of each arc of the shape, upward: -1 concave.
func (w Sweep) Signs() []float64 {
	switch w.Name() {
	case "cove":
		return []float64{-1}
	case "bow":
		return []float64{1}
	case "ogee":
		return []float64{-1, 1}
	case "reverse-ogee":
		return []float64{1, -1}
	}
	return nil
}

// MaxSag returns the largest sag the shape may have over a chord: half of the
// chord of each of its arcs.
func (w Sweep) MaxSag(chord float64) float64 {
	if n := len(w.Signs()); n > 0 {
		return chord / 2 / float64(n)
	}
	return 0
}

// path returns the show face of the sweep between its ends, with the board on
// its left.
func (w Sweep) path(from, to r2.Vec) (arc.Path, error) {
	switch w.Name() {
	case "ellipse":
		return quarterEllipse(from, to)
	case "points":
		return throughPoints(from, w.Points, to)
	}
	signs := w.Signs()
	if len(signs) == 0 || w.Sag == 0 {
		return arc.Polyline(from, to), nil
	}
	n := float64(len(signs))
	k := 2 * w.Sag / (r2.Norm(r2.Sub(to, from)) / n)
	p := arc.Path{V: make([]arc.Vertex, 0, len(signs)+1)}
	for i, sign := range signs {
		at := r2.Add(from, r2.Scale(float64(i)/n, r2.Sub(to, from)))
		p.V = append(p.V, arc.Vertex{P: at, K: sign * k})
	}
	p.V = append(p.V, arc.Vertex{P: to})
	return p, nil
}

// lean returns how far a tangent that goes up leans off plumb.
func lean(tangent r2.Vec) arc.Angle { return arc.Angle(math.Atan2(-tangent.X, tangent.Y)) }

// endLeans returns the lean of a path's tangent at both ends.
func endLeans(p arc.Path) (low, high arc.Angle) {
	n := p.NumSegments()
	first, last := p.Segment(0), p.Segment(n-1)
	low = lean(r2.Sub(first.B, first.A)) - first.Angle()/2
	high = lean(r2.Sub(last.B, last.A)) + last.Angle()/2
	return low, high
}

// curve returns the facts of the sweep over its path, without those of its
// blank.
func (w Sweep) curve(p arc.Path) Curve {
	v := p.V
	chord := r2.Sub(v[len(v)-1].P, v[0].P)
	c := Curve{Chord: r2.Norm(chord), Sag: w.Sag, Lean: lean(chord), ShowLength: p.Length()}
	c.Low, c.High = endLeans(p)
	for i := range p.NumSegments() {
		s := p.Segment(i)
		c.Turn += arc.Angle(math.Abs(float64(s.Angle())))
		if p.NumSegments() > 1 && w.TakesSag() {
			c.Arcs = append(c.Arcs, arcCurve(s))
		}
	}
	if w.TakesSag() && w.Sag > 0 {
		c.Radius = p.Segment(0).Radius()
	}
	return c
}

// arcCurve returns the facts of one arc.
func arcCurve(s arc.Segment) Curve {
	mid := lean(r2.Sub(s.B, s.A))
	return Curve{
		Chord: s.Chord(), Sag: math.Abs(s.K) * s.Chord() / 2, Radius: s.Radius(),
		Turn: arc.Angle(math.Abs(float64(s.Angle()))), Lean: mid,
		Low: mid - s.Angle()/2, High: mid + s.Angle()/2, ShowLength: s.Length(),
	}
}
