package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// drawBlank draws kerfs anywhere, turning either way, for no profile at all.
func drawBlank(t *rapid.T) Blank {
	b := Blank{Board: thin}
	if rapid.Bool().Draw(t, "round") {
		b.Board.Bottom = Round
	}
	for range rapid.IntRange(0, 6).Draw(t, "kerfs") {
		at := b.Length + thin.KerfWidth/2 + rapid.Float64Range(0.5, 60).Draw(t, "land")
		b.Kerfs = append(b.Kerfs, Kerf{At: at, Turn: arc.Angle(rapid.IntRange(-300, 200).Draw(t, "turn")) / 1000})
		b.Length = at + thin.KerfWidth/2
	}
	b.Length += rapid.Float64Range(0.5, 60).Draw(t, "tail")
	return b
}

// The neutral line by plain integration of its curvature, which is turn over
// width in a web and nothing elsewhere.
func TestRefoldIntegrates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		heading := rapid.Float64Range(-4, 4).Draw(t, "heading")
		s, err := Refold(b, r2.Vec{X: 3, Y: -7}, arc.Angle(heading))
		require.NoError(t, err)
		const n = 20000
		ds := b.Length / n
		width := b.Board.BendWidth()
		at := func(u float64) float64 { // heading at u
			h := heading
			for _, k := range b.Kerfs {
				h += float64(k.Turn) * math.Min(1, math.Max(0, (u-k.At)/width+0.5))
			}
			return h
		}
		x, y := 0.0, 0.0
		for i := range n {
			sin, cos := math.Sincos(at((float64(i) + 0.5) * ds))
			x, y = x+ds*cos, y+ds*sin
		}
		first, last := s.Neutral.V[0].P, s.Neutral.V[len(s.Neutral.V)-1].P
		assert.InDelta(t, x, last.X-first.X, 1e-3)
		assert.InDelta(t, y, last.Y-first.Y, 1e-3)
		assert.InDelta(t, b.Length, s.Neutral.Length(), 1e-9)

		// The faces stand half a web and the rest of the thickness off it.
		sin, cos := math.Sincos(at(b.Length))
		show, back := s.Show.V[len(s.Show.V)-1].P, s.Back.V[len(s.Back.V)-1].P
		assert.InDelta(t, 12, (back.X-show.X)*-sin+(back.Y-show.Y)*cos, 1e-9)
		assert.InDelta(t, 0, (back.X-show.X)*cos+(back.Y-show.Y)*sin, 1e-9)
		assert.InDelta(t, 3, s.Show.V[0].P.X, 1e-12)
		assert.InDelta(t, 0.4, distance(last, s.Show), 1e-9)
	})
}

// A blank run from its other end is the mirrored section.
func TestRefoldFromEitherEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		other := Blank{Board: b.Board, Length: b.Length}
		for i := len(b.Kerfs) - 1; i >= 0; i-- {
			other.Kerfs = append(other.Kerfs, Kerf{At: b.Length - b.Kerfs[i].At, Turn: b.Kerfs[i].Turn})
		}
		s, err := Refold(b, r2.Vec{}, 0)
		require.NoError(t, err)
		q, err := Refold(other, r2.Vec{}, 0)
		require.NoError(t, err)
		assert.InDelta(t, s.Outline.Area(), q.Outline.Area(), 1e-6*math.Abs(s.Outline.Area())+1e-9)
		assert.InDelta(t, s.Back.Length(), q.Back.Length(), 1e-9*b.Length)
		for i, m := range s.Mouths {
			assert.InDelta(t, m, q.Mouths[len(s.Mouths)-1-i], 1e-9)
		}
		ends := func(p arc.Path) float64 { return r2.Norm(r2.Sub(p.V[0].P, p.V[len(p.V)-1].P)) }
		assert.InDelta(t, ends(s.Show), ends(q.Show), 1e-9*b.Length)
	})
}
