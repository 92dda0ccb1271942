package arc_test

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// FuzzOffset takes any bytes as a path and offsets it. What it gives must be at
// the distance, and what it refuses be refused for a reason.
func FuzzOffset(f *testing.F) {
	f.Add([]byte("0123456789abcdefghijklmnopqrstuvwxyz"), 3.0, true)
	f.Add([]byte{0, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0}, -10.0, true)
	f.Add([]byte{0, 0, 40, 100, 0, 200, 100, 100, 128, 0, 100, 0, 50, 50, 7}, 20.0, false)
	f.Fuzz(func(t *testing.T, b []byte, d float64, closed bool) {
		if len(b) > 180 {
			b = b[:180]
		}
		p := arc.Path{Closed: closed}
		for len(b) >= 3 {
			p.V = append(p.V, arc.V(float64(b[0]), float64(b[1]), float64(int8(b[2]))/100))
			b = b[3:]
		}
		if len(b) == 2 && len(p.V) > 0 { // one odd number
			p.V[0].P.X += float64(binary.LittleEndian.Uint16(b)) * 1e-7
		}
		out, err := p.Offset(d, arc.OffsetOptions{})
		var pe *arc.ParamError
		if err != nil && !errors.As(err, &pe) {
			t.Fatal(err)
		}
		if errors.Is(err, arc.ErrUnproven) {
			t.Log("unproven", p, d)
			return
		}
		if math.Abs(d) > 1000 {
			return
		}
		for _, q := range out {
			for i := range q.NumSegments() {
				m := q.Segment(i).Mid()
				if e := math.Abs(distTo(m, p) - math.Abs(d)); e > 1e-5 {
					t.Fatalf("%v of %v at %g, not %g", r2.Vec(m), p, distTo(m, p), d)
				}
			}
		}
	})
}
