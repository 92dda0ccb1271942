package part_test

import (
	"errors"
	"math"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// poses draws a right-handed pose.
func poses(t *rapid.T) part.Pose {
	n := func(name string) float64 { return rapid.Float64Range(-1, 1).Draw(t, name) }
	right := r3.Unit(r3.Vec{X: n("x"), Y: n("y"), Z: 1.5})
	up := r3.Unit(r3.Cross(right, r3.Vec{X: 0.3, Y: 1, Z: n("z")}))
	at := r3.Vec{X: 900 * n("at x"), Y: 900 * n("at y"), Z: 900 * n("at z")}
	return part.Pose{At: at, Right: right, Up: up, In: r3.Cross(right, up)}
}

// rolled draws a sheet that bends evenly along one stretch.
func rolled(t *rapid.T) (p part.Part, length, turn float64) {
	width := rapid.Float64Range(100, 900).Draw(t, "width")
	thick := rapid.Float64Range(2, 20).Draw(t, "thickness")
	turn = rapid.Float64Range(0.1, 2.5).Draw(t, "turn") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "side")
	length = math.Abs(turn) * (thick + rapid.Float64Range(50, 900).Draw(t, "radius"))
	p = sheetOf("sheet", width, length, thick)
	p.Bent = []part.Stretch{{To: length, Turn: arc.Angle(turn)}}
	return p, length, turn
}

// kerfed draws a board with kerfs across it.
func kerfed(t *rapid.T) (p part.Part, turn float64) {
	n := rapid.IntRange(1, 12).Draw(t, "kerfs")
	thick, pitch := rapid.Float64Range(10, 25).Draw(t, "thickness"), rapid.Float64Range(8, 40).Draw(t, "pitch")
	each := rapid.Float64Range(0.005, 0.06).Draw(t, "turn")
	p = sheetOf("board", 300, pitch*float64(n), thick)
	for i := range n {
		y := pitch * (float64(i) + 0.5)
		p.Kerfs = append(p.Kerfs, bend.Kerf{At: y, Turn: arc.Angle(-each)})
		p.Work.Slots = append(p.Work.Slots, cut.Slot{From: r2.Vec{X: -2, Y: y}, To: r2.Vec{X: 302, Y: y}, Width: 3.2, Depth: thick - 1.6})
	}
	return p, -each * float64(n)
}

// By Pappus a sheet that bends evenly keeps its volume: its middle keeps its
// length, and the centroid of its section lies in it.
func TestRollingKeepsVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, length, _ := rolled(t)
		p.Pose = poses(t)
		f, err := part.Fold(p)
		require.NoError(t, err)
		box := p.Outline.Bounds()
		want := (box.Max.X - box.Min.X) * length * p.Thickness
		// Chords take a circle's sagitta of up to 0.05 mm off either face, but no
		// more from one than the other but for their radii.
		assert.InEpsilon(t, want, f.Solid().Volume(), 2e-3)
	})
}

// A sheet bent evenly ends where a circle of its middle's length over its turn
// does, headed as far round.
func TestRolledEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, length, turn := rolled(t)
		p.Pose = part.Pose{Right: r3.Vec{X: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: 1}}
		f, err := part.Fold(p)
		require.NoError(t, err)
		radius := length / turn // > 0: the center lies behind the show face
		for _, d := range []float64{0, p.Thickness / 2, p.Thickness} {
			sin, cos := math.Sincos(turn)
			c := radius + p.Thickness/2
			got, want := f.Point(r2.Vec{X: 7, Y: length}, d), r3.Vec{X: 7, Y: (c - d) * sin, Z: c - (c-d)*cos}
			assert.InDelta(t, 0, r3.Norm(r3.Sub(got, want)), 1e-8)
		}
	})
}

// What the kerfs turn is what the ends turn against each other.
func TestKerfsTurnTheEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, turn := kerfed(t)
		p.Pose = poses(t)
		f, err := part.Fold(p)
		require.NoError(t, err)
		up, _ := f.Frame(p.Outline.Bounds().Max.Y)
		assert.InDelta(t, math.Cos(turn), r3.Dot(up, p.Pose.Up), 1e-9)
		assert.InDelta(t, math.Sin(turn), r3.Dot(up, p.Pose.In), 1e-9)
	})
}

// A mesh is closed: every directed edge is there once, with its reverse, and
// its volume is positive.
func TestMeshesAreClosed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := kerfed(t)
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			p, _, _ = rolled(t)
		case 1:
			p = sheetOf("flat", 400, 300, 19)
			p.Cells = false
			hole := arc.Circle(r2.Vec{X: 200, Y: 150}, rapid.Float64Range(5, 140).Draw(t, "radius")).Reverse()
			p.Outline.Holes, p.Back.Holes = []arc.Path{hole}, []arc.Path{hole.Clone()}
		}
		p.Pose = poses(t)
		f, err := part.Fold(p)
		require.NoError(t, err)
		s := f.Solid()
		seen := map[[2]int]int{}
		for _, tri := range s.Triangles {
			for i := range 3 {
				seen[[2]int{tri[i], tri[(i+1)%3]}]++
			}
		}
		for e, n := range seen {
			require.Equal(t, 1, n)
			require.Equal(t, 1, seen[[2]int{e[1], e[0]}])
		}
		assert.Positive(t, s.Volume())
	})
}

// A pose moves a part as it is: distances stay, and Local undoes Point.
func TestPosesMoveRigidly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, length, _ := rolled(t)
		a, err := part.Fold(p)
		require.NoError(t, err)
		assert.Zero(t, r3.Norm(a.Point(r2.Vec{Y: length}, 0)), "a pose of no extent")
		p.Pose = poses(t)
		a, err = part.Fold(p)
		require.NoError(t, err)
		p.Pose = poses(t)
		b, err := part.Fold(p)
		require.NoError(t, err)
		x := r2.Vec{X: rapid.Float64Range(0, 100).Draw(t, "u"), Y: rapid.Float64Range(0, length).Draw(t, "v")}
		y := r2.Vec{X: 3, Y: rapid.Float64Range(0, length).Draw(t, "w")}
		far := func(f part.Folded) float64 { return r3.Norm(r3.Sub(f.Point(x, 0), f.Point(y, p.Thickness))) }
		assert.InDelta(t, far(a), far(b), 1e-9)
		at, depth := p.Pose.Local(p.Pose.Point(x, 4))
		assert.InDelta(t, 0, math.Hypot(r2.Norm(r2.Sub(at, x)), depth-4), 1e-9)
		// Set on another's point and frame it lies as that does.
		up, in := a.Frame(x.Y)
		c := b.SetAt(x, a.Point(x, 0), up, in)
		c.Pose.Right = a.Pose.Right
		c = c.SetAt(x, a.Point(x, 0), up, in)
		assert.InDelta(t, 0, r3.Norm(r3.Sub(c.Point(y, 1), a.Point(y, 1))), 1e-8)
	})
}

// Special values give a fault that names the field, and never a panic.
func TestFoldRefuses(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, 5e-324, 0, math.Copysign(0, -1), -1, 1e9} {
		for name, spoil := range map[string]func(*part.Part){
			"thickness": func(p *part.Part) { p.Thickness = v },
			"outline":   func(p *part.Part) { p.Outline.Outer.V[2].P.Y = v },
			"back":      func(p *part.Part) { p.Back.Outer.V[1].K = v },
			"edge":      func(p *part.Part) { p.Edges[1].Show.V[1].P.X = v },
			"pose":      func(p *part.Part) { p.Pose.Up.Z = v },
			"from":      func(p *part.Part) { p.Bent = []part.Stretch{{From: v, To: 50, Turn: 1}} },
			"turn":      func(p *part.Part) { p.Bent = []part.Stretch{{To: 50, Turn: arc.Angle(v)}} },
			"slot":      func(p *part.Part) { p.Work.Slots = []cut.Slot{{To: r2.Vec{X: 9}, Width: v, Depth: 3}} },
			"depth":     func(p *part.Part) { p.Work.Slots = []cut.Slot{{To: r2.Vec{X: 9}, Width: 3, Depth: v}} },
			"pocket": func(p *part.Part) {
				p.Work.Pockets = []cut.Pocket{{Area: arc.Region{Outer: arc.Rect(0, 0, 9, 200)}, Depth: v}}
			},
		} {
			for _, cells := range []bool{false, true} {
				p := sheetOf("spoiled", 100, 200, 19)
				p.Cells = cells
				p.Pose = part.Pose{Right: r3.Vec{X: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: 1}}
				spoil(&p)
				assert.NotPanics(t, func() {
					f, err := part.Fold(p)
					var fault *arc.ParamError
					if err != nil {
						assert.True(t, errors.As(err, &fault) || errors.Is(err, bend.ErrTooTight), "%v", err)
					} else {
						f.Solid()
					}
				}, "%s %v", name, v)
			}
		}
	}
	for _, p := range []part.Part{{}, {Cells: true}, {Kerfs: []bend.Kerf{{}}}, {Bent: []part.Stretch{{}}}} {
		_, err := part.Fold(p)
		assert.Error(t, err)
		assert.NotPanics(t, func() {
			p.Levels(1)
			p.Across(3, 1, 1)
			p.Across(7, 1, 1)
			p.AreaAt(1)
			p.SlotDepth(cut.Slot{})
			part.Folded{Part: p}.Point(r2.Vec{}, 1)
			part.Folded{Part: p}.Frame(1)
		})
	}
}
