package arc_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

func TestPathTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := arc.Path{Closed: rapid.Bool().Draw(t, "closed")}
		for range rapid.IntRange(0, 8).Draw(t, "n") {
			x := rapid.Float64().Draw(t, "x")
			p.V = append(p.V, arc.V(x, rapid.Float64().Draw(t, "y"), rapid.Float64().Draw(t, "turn")))
		}
		q, err := arc.ParsePath(p.String())
		require.NoError(t, err)
		require.Equal(t, p.Closed, q.Closed)
		require.Len(t, q.V, len(p.V))
		for i := range p.V {
			require.True(t, sameVertex(p.V[i], q.V[i]), "%v %v", p.V[i], q.V[i])
		}
	})
}

// sameVertex compares bits; a turn of -0 is not written, being a line.
func sameVertex(a, b arc.Vertex) bool {
	return math.Float64bits(a.P.X) == math.Float64bits(b.P.X) &&
		math.Float64bits(a.P.Y) == math.Float64bits(b.P.Y) && a.K == b.K
}

func TestParsePathRefuses(t *testing.T) {
	for text, kind := range map[string]error{
		"0":                     arc.ErrSyntax,
		"0,":                    arc.ErrSyntax,
		",":                     arc.ErrSyntax,
		"0,0,0,0":               arc.ErrSyntax,
		"0,0 close 1,1":         arc.ErrSyntax,
		"close close":           arc.ErrSyntax,
		"0,0 Close":             arc.ErrSyntax,
		"0,NaN":                 arc.ErrSyntax,
		"Inf,0":                 arc.ErrSyntax,
		"0x1p3,0":               arc.ErrSyntax,
		"1_0,0":                 arc.ErrSyntax,
		"1,2;3,4":               arc.ErrSyntax,
		"1e999,0":               arc.ErrRange,
		"0,0,-1e999":            arc.ErrRange,
		strings.Repeat("9", 99): arc.ErrSyntax,
	} {
		_, err := arc.ParsePath(text)
		var pe *arc.ParamError
		require.ErrorAs(t, err, &pe, text)
		assert.ErrorIs(t, err, kind, text)
	}
	for _, text := range []string{"", " \n\t", "close", "1,2", "1,2 close", "+1,-.5,1e-3\n 0,0"} {
		_, err := arc.ParsePath(text)
		assert.NoError(t, err, text)
	}
}

func FuzzParsePath(f *testing.F) {
	for _, s := range []string{"0,0 100,0,0.25 100,60 0,60 close", "close", "", "1,2,3,4", "1e308,1e-308,-0", "0,0 close 1,1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := arc.ParsePath(s)
		if err != nil {
			assert.Empty(t, p.V)
			return
		}
		q, err := arc.ParsePath(p.String())
		require.NoError(t, err)
		assert.Equal(t, p.String(), q.String())
		for i := range p.V {
			assert.True(t, sameVertex(p.V[i], q.V[i]))
		}
		if p.Usable() == nil { // whatever was read can be worked with
			_, _, _ = p.Length(), p.Area(), p.Bounds()
		}
	})
}

func ExampleParsePath() {
	p, err := arc.ParsePath("0,0 100,0 100,60,1 0,60 close")
	fmt.Printf("%v %.3f %v\n", err, p.Area(), p)
	// Output:
	// <nil> 9926.991 0,0 100,0 100,60,1 0,60 close
}
