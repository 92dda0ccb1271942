package curve

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// MaxLean bounds the lean of a sweep's tangent: nearer to level a panel cannot
// be cut level at its end.
const MaxLean = 75 * arc.Degree

// A Section is the front, or a flared side, seen along its kerfs: x out of the
// wall, or of the middle plane, y up.
type Section struct {
	Show  arc.Path // of skirt, if any, and sweep
	Sweep arc.Path // its upper part
	Inner arc.Path // the back faces, from the bottom to the level of the neck
	Skirt float64
	Curve Curve
	Plan  bend.Plan
	Plies int // 1 where bent as it is, 0 where kerfed or straight
	// Bevels of the sweep's blank at its ends.
	Lower, Upper arc.Angle
}

// Ends are where a section begins and ends.
type Ends struct {
	Bottom float64 // outward
	Top    float64
	Skirt  float64 // height of the skirt
	Height float64
}

// show returns the ends of the show face of the sweep.
func (e Ends) show() (from, to r2.Vec) {
	return r2.Vec{X: e.Bottom, Y: e.Skirt}, r2.Vec{X: e.Top, Y: e.Height}
}

// Sketch returns the section's show face.
func (e Ends) Sketch(w Sweep) (Section, error) {
	from, to := e.show()
	sweep, err := w.path(from, to)
	if err != nil {
		return Section{}, err
	}
	s := Section{Show: sweep, Sweep: sweep, Skirt: e.Skirt, Curve: w.curve(sweep)}
	if e.Skirt > 0 {
		s.Show = arc.Path{V: append([]arc.Vertex{{P: r2.Vec{X: e.Bottom}}}, sweep.V...)}
		s.Curve.SkirtBevel = s.Curve.Low / 2
		s.Lower = s.Curve.SkirtBevel
	} else {
		s.Lower = s.Curve.Low // cut level, for it is seen from below
	}
	// Above, a level cut that would undercut is left square: it is not seen.
	s.Upper = max(0, -s.Curve.High)
	return s, nil
}

// Fold works out the back faces of a board of thickness t. It reports false
// where they fold over.
func (s *Section) Fold(e Ends, t float64) bool {
	if s.Sweep.NumSegments() == 0 {
		return false
	}
	inner, ok := rise.Parallel(s.Sweep, t)
	if !ok {
		return false
	}
	if inner, ok = rise.EndAt(inner, rise.HalfPlane{At: r2.Vec{Y: e.Height}, Out: r2.Vec{Y: 1}}); !ok {
		return false
	}
	if e.Skirt == 0 {
		s.Inner, ok = rise.StartAt(inner, rise.HalfPlane{At: r2.Vec{}, Out: r2.Vec{Y: -1}})
		return ok
	}
	// The sweep's back lies inside that of the skirt where it leans in, so it
	// is cut off at the skirt's plane, or run on to it.
	back := e.Bottom - t
	if math.Abs(float64(s.Curve.Low)) < 1e-9 {
		inner.V[0].P.X = back
	} else if inner, ok = rise.StartAt(inner, rise.HalfPlane{At: r2.Vec{X: back}, Out: r2.Vec{X: math.Copysign(1, float64(s.Curve.Low))}}); !ok {
		return false
	}
	s.Inner = arc.Path{V: append([]arc.Vertex{{P: r2.Vec{X: back}}}, inner.V...)}
	return inner.V[0].P.Y > 0
}

// Rises reports whether every part of the show face goes up.
func Rises(p arc.Path) bool {
	for i := range p.NumSegments() {
		s := p.Segment(i)
		mid := lean(r2.Sub(s.B, s.A))
		half := arc.Angle(math.Abs(float64(s.Angle()))) / 2
		if mid+half > 90*arc.Degree+1e-9 || mid-half < -90*arc.Degree-1e-9 {
			return false
		}
	}
	return true
}

// bend plans the blank of the sweep.
func (s *Section) PlanKerfs(board bend.Board, limits bend.Limits) error {
	if s.Curve.Turn == 0 {
		s.Curve.FlatLength = s.Curve.ShowLength
		s.Plan = bend.Plan{FlatLength: s.Curve.ShowLength, ShowLength: s.Curve.ShowLength}
		return nil
	}
	plan, err := bend.KerfPlan(s.Sweep, board, limits)
	if err != nil {
		return err
	}
	s.Plan = plan
	s.Curve.FlatLength = plan.FlatLength
	s.Curve.Kerfs = kerfsOf(plan, plan.Bends...)
	if n := len(plan.Bends); n == len(s.Curve.Arcs) {
		for i := range s.Curve.Arcs {
			a := &s.Curve.Arcs[i]
			a.FlatLength = plan.Bends[i].FlatLength
			a.Kerfs = kerfsOf(plan, plan.Bends[i])
		}
	}
	return nil
}

// kerfsOf sums up the kerfs of some bends of a plan.
func kerfsOf(p bend.Plan, bends ...bend.Bend) Kerfs {
	k := Kerfs{Opens: true}
	for i, b := range bends {
		if i == 0 {
			k.First, k.Mouth = p.Kerfs[b.First].At, b.Mouth
			k.Turn = arc.Angle(math.Abs(float64(b.Turn)))
		}
		k.Count += b.Count
		k.Facet = max(k.Facet, b.Facet)
		k.Strain = max(k.Strain, b.Strain)
		k.Mouth = min(k.Mouth, b.Mouth)
		k.Turn = max(k.Turn, arc.Angle(math.Abs(float64(b.Turn))))
		k.Opens = k.Opens && b.Turn < 0
	}
	if len(bends) == 1 {
		k.Pitch = bends[0].FlatLength / float64(k.Count)
	}
	return k
}
