package hood

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// maxLean bounds the lean of a sweep's tangent: nearer to level a panel cannot
// be cut level at its end.
const maxLean = 75 * arc.Degree

// A section is the front, or a flared side, seen along its kerfs: x out of the
// wall, or of the middle plane, y up.
type section struct {
	show  arc.Path // of skirt, if any, and sweep
	sweep arc.Path // its upper part
	inner arc.Path // the back faces, from the bottom to the level of the neck
	skirt float64
	curve Curve
	plan  bend.Plan
	plies int // 1 where bent as it is, 0 where kerfed or straight
	// Bevels of the sweep's blank at its ends.
	lower, upper arc.Angle
}

// ends are where a section begins and ends.
type ends struct {
	bottom float64 // outward
	top    float64
	skirt  float64 // height of the skirt
	height float64
}

// show returns the ends of the show face of the sweep.
func (e ends) show() (from, to r2.Vec) {
	return r2.Vec{X: e.bottom, Y: e.skirt}, r2.Vec{X: e.top, Y: e.height}
}

// sketch returns the section's show face.
func (e ends) sketch(w Sweep) (section, error) {
	from, to := e.show()
	sweep, err := w.path(from, to)
	if err != nil {
		return section{}, err
	}
	s := section{show: sweep, sweep: sweep, skirt: e.skirt, curve: w.curve(sweep)}
	if e.skirt > 0 {
		s.show = arc.Path{V: append([]arc.Vertex{{P: r2.Vec{X: e.bottom}}}, sweep.V...)}
		s.curve.SkirtBevel = s.curve.Low / 2
		s.lower = s.curve.SkirtBevel
	} else {
		s.lower = s.curve.Low // cut level, for it is seen from below
	}
	// Above, a level cut that would undercut is left square: it is not seen.
	s.upper = max(0, -s.curve.High)
	return s, nil
}

// fold works out the back faces of a board of thickness t. It reports false
// where they fold over.
func (s *section) fold(e ends, t float64) bool {
	inner, ok := rise.Parallel(s.sweep, t)
	if !ok {
		return false
	}
	if inner, ok = rise.EndAt(inner, rise.HalfPlane{At: r2.Vec{Y: e.height}, Out: r2.Vec{Y: 1}}); !ok {
		return false
	}
	if e.skirt == 0 {
		s.inner, ok = rise.StartAt(inner, rise.HalfPlane{At: r2.Vec{}, Out: r2.Vec{Y: -1}})
		return ok
	}
	// The sweep's back lies inside that of the skirt where it leans in, so it
	// is cut off at the skirt's plane, or run on to it.
	back := e.bottom - t
	if math.Abs(float64(s.curve.Low)) < 1e-9 {
		inner.V[0].P.X = back
	} else if inner, ok = rise.StartAt(inner, rise.HalfPlane{At: r2.Vec{X: back}, Out: r2.Vec{X: math.Copysign(1, float64(s.curve.Low))}}); !ok {
		return false
	}
	s.inner = arc.Path{V: append([]arc.Vertex{{P: r2.Vec{X: back}}}, inner.V...)}
	return inner.V[0].P.Y > 0
}

// rises reports whether every part of the show face goes up.
func rises(p arc.Path) bool {
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
func (s *section) bend(b Bend, thickness float64) error {
	if s.curve.Turn == 0 {
		s.curve.FlatLength = s.curve.ShowLength
		s.plan = bend.Plan{FlatLength: s.curve.ShowLength, ShowLength: s.curve.ShowLength}
		return nil
	}
	board := bend.Board{Thickness: thickness, KerfWidth: b.KerfWidth, Web: b.Web}
	plan, err := bend.KerfPlan(s.sweep, board, bend.Limits{Facet: b.Facet, Strain: b.Strain})
	if err != nil {
		return err
	}
	s.plan = plan
	s.curve.FlatLength = plan.FlatLength
	s.curve.Kerfs = kerfsOf(plan, plan.Bends...)
	if n := len(plan.Bends); n == len(s.curve.Arcs) {
		for i := range s.curve.Arcs {
			a := &s.curve.Arcs[i]
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
