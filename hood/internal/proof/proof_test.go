package proof

import (
	"go/parser"
	"go/token"
	"math"
	"os"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// The proof sees neither the spec nor the builder: it imports nothing that knows
// of hoods, itself or by way of another.
func TestImports(t *testing.T) {
	const own = "example.com/sagitta/"
	allowed := map[string]bool{"arc": true, "bend": true, "hood/part": true, "hood/internal/rise": true}
	for _, dir := range []string{".", "../../part", "../rise"} {
		files, err := os.ReadDir(dir)
		require.NoError(t, err)
		seen := 0
		for _, f := range files {
			if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
				continue
			}
			seen++
			src, err := parser.ParseFile(token.NewFileSet(), dir+"/"+f.Name(), nil, parser.ImportsOnly)
			require.NoError(t, err)
			for _, im := range src.Imports {
				path := strings.Trim(im.Path.Value, `"`)
				if rest, ok := strings.CutPrefix(path, own); ok && dir == "." {
					assert.True(t, allowed[rest], "%s imports %s", f.Name(), rest)
				} else if ok {
					assert.False(t, rest == "hood" || strings.HasPrefix(rest, "hood/") && !allowed[rest], "%s/%s imports %s", dir, f.Name(), rest)
				}
			}
		}
		assert.NotZero(t, seen, dir)
	}
}

// Square tabs in slots without reliefs do not go in: the cutter's radius stands
// in their corners. A play so large that it clears the radius is found good.
func TestReliefOrPlay(t *testing.T) {
	r := 9.525 / 2
	for _, w := range []struct {
		play float64
		left float64
	}{
		// A corner a/2 off both walls is (a/2)·√2 off the corner of the slot; the
		// cutter leaves r(√2 − 1) there.
		{0, r * (math.Sqrt2 - 1)}, {0.4, r*(math.Sqrt2-1) - 0.2*math.Sqrt2}, {2.7, r*(math.Sqrt2-1) - 1.35*math.Sqrt2}, {2.8, 0},
	} {
		c := Tabs{Tool: 2 * r}
		h := w.play / 2
		loop := arc.Rect(-h, -h, 36+h, 19+h)
		m := mortise{loop: loop, ways: c.around(loop.Reverse())}
		got := c.left(m, []r2.Vec{{}, {X: 36}, {X: 36, Y: 19}, {Y: 19}})
		assert.InDelta(t, w.left, got, 1e-6, "%g", w.play)
	}
}
