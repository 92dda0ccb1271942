package main

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/sheet"
)

// tangram is an invented set in the form of the data: four small triangles, a large
// one, a square and a bar.
const tangram = `{"name":"tangram","strip_height":20,"pieces":7,"items":[
	{"demand":4,"allowed_rotations_deg":[0,90,180,270],"polygon":[[0,0],[10,0],[0,10]]},
	{"demand":1,"allowed_rotations_deg":[0,180],"polygon":[[0,0],[20,0],[10,10]]},
	{"demand":1,"allowed_rotations_deg":[0],"polygon":[[0,0],[4,0],[4,4],[0,4]]},
	{"demand":1,"allowed_rotations_deg":[],"polygon":[[0,0],[3,0],[3,1],[0,1]]}]}`

func folder(t *testing.T, files map[string]string) string {
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	return dir
}

func TestReadIrregular(t *testing.T) {
	dir := folder(t, map[string]string{"irregular/a.json": tangram, "irregular/bad.json": "{"})
	set, err := readIrregular(filepath.Join(dir, "irregular", "a.json"))
	require.NoError(t, err)
	assert.Equal(t, 20.0, set.Height)
	parts := set.parts()
	require.Len(t, parts, 4)
	assert.Equal(t, []sheet.Turns{sheet.RightAngles, sheet.HalfTurns, sheet.NoTurn, sheet.AnyAngle},
		[]sheet.Turns{parts[0].Turns, parts[1].Turns, parts[2].Turns, parts[3].Turns})
	pieces, area := 0, 0.0
	for _, p := range parts {
		pieces += p.Copies()
		area += float64(p.Copies()) * p.Outline.Area()
	}
	assert.Equal(t, set.Pieces, pieces)
	assert.InDelta(t, 4*50+100+16+3, area, 1e-9)

	_, err = readIrregular(filepath.Join(dir, "irregular", "bad.json"))
	assert.Error(t, err)
	_, err = readIrregular(filepath.Join(dir, "irregular", "none.json"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}

func TestReadRectangles(t *testing.T) {
	dir := folder(t, map[string]string{
		"rect/strips.json": `[{"name":"s","strip_width":10,"optimal_height":6,"items":[[10,2],[5,4],[5,4]]}]`,
		"rect/bins.json":   `[{"name":"b","bin":[10,10],"items":[[10,5],[4,5]],"best_known_bins_rotation":1,"best_known_3stage_guillotine_rotation":2}]`,
		"rect/bad.json":    `[`,
	})
	b := bench{data: dir, skipped: new([]string)}
	var strips []rectStrip
	ok, err := b.read("strips.json", &strips)
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, []rectStrip{{"s", 10, 6, [][2]float64{{10, 2}, {5, 4}, {5, 4}}}}, strips)
	var bins []binSet
	ok, err = b.read("bins.json", &bins)
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, []binSet{{"b", [2]float64{10, 10}, [][2]float64{{10, 5}, {4, 5}}, 1, 2}}, bins)
	ok, err = b.read("none.json", &bins)
	assert.NoError(t, err, "absent data is passed over")
	assert.False(t, ok)
	ok, err = b.read("bad.json", &bins)
	assert.Error(t, err)
	assert.False(t, ok)
}

// A strip of the set, laid out with next to no budget, is legal by points: no
// point of a fine lattice lies inside two pieces, each piece covers as many as
// its area, and none is outside the strip.
func TestTinyRunIsLegal(t *testing.T) {
	var set irregular
	require.NoError(t, json.Unmarshal([]byte(tangram), &set))
	parts := set.parts()
	s, err := sheet.NestStrip(context.Background(), parts, set.Height, sheet.Options{Iterations: 5})
	require.NoError(t, err)
	require.Len(t, s.Placements, set.Pieces)
	const step = 0.1
	covered := 0
	for x := -1 + step/3; x < s.Length+1; x += step {
		for y := -1 + step/3; y < set.Height+1; y += step {
			in := 0
			for _, p := range s.Placements {
				in += inside(set.Items[p.Part].Polygon, back(p, r2.Vec{X: x, Y: y}))
			}
			require.LessOrEqual(t, in, 1, "two pieces at %v, %v", x, y)
			if in == 1 {
				covered++
				require.True(t, x >= 0 && x <= s.Length && y >= 0 && y <= set.Height, "a piece outside at %v, %v", x, y)
			}
		}
	}
	assert.InEpsilon(t, 319, float64(covered)*step*step, 0.02)
	assert.GreaterOrEqual(t, s.Length, 319/set.Height)
}

// back returns the point of a piece that a placement puts at v.
func back(p sheet.Placement, v r2.Vec) r2.Vec {
	v = r2.Sub(v, p.At)
	sin, cos := math.Sincos(-float64(p.Rotate))
	return r2.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y}
}

// inside is 1 for a point inside a polygon, by counting crossings to the right.
func inside(poly [][2]float64, v r2.Vec) int {
	in := 0
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a[1] > v.Y) != (b[1] > v.Y) && v.X < a[0]+(v.Y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in ^= 1
		}
	}
	return in
}

// Without data the families say so, go on and are listed at the end.
func TestAbsentDataIsSkipped(t *testing.T) {
	b := bench{data: t.TempDir(), seeds: 1, skipped: new([]string)}
	for _, run := range []func(bench) error{bench.irregular, bench.strip, bench.bins, bench.straight} {
		assert.NoError(t, run(b))
	}
	assert.Len(t, *b.skipped, len(published)+3)
	b = bench{skipped: new([]string)}
	require.NoError(t, b.run([]string{"irregular"}))
	assert.Len(t, *b.skipped, len(families), "without a folder nothing is run, and all of it listed")
	assert.Error(t, b.run([]string{"triangular"}))
}

// The invented jobs are laid out legally, and what is used is what a sum of the
// offcuts says.
func TestCasesAreLaidOut(t *testing.T) {
	for _, parts := range [][]sheet.Part{curvedCase(), distinct(40)} {
		b := bench{workers: 1, cpu: true}
		opt := b.options(20*time.Millisecond, 1)
		l, err := sheet.Nest(context.Background(), parts, []sheet.Stock{board()}, opt)
		require.NoError(t, err)
		require.Empty(t, l.Unplaced)
		require.NoError(t, sheet.Check(parts, []sheet.Stock{board()}, l, opt))
		n := used(l)
		area := 0.0
		for _, p := range parts {
			area += float64(p.Copies()) * p.Outline.Area()
		}
		assert.Less(t, area/(2465*1245), n)
		assert.LessOrEqual(t, n, float64(len(l.Sheets)))
	}
}

// A named set is run alone and the others are listed, with the published figure
// beside what was found.
func TestBinsAreCounted(t *testing.T) {
	b := bench{time: 30 * time.Millisecond, workers: 1, seeds: 1, names: []string{"b"}, skipped: new([]string), data: folder(t, map[string]string{
		"rect/class_bins.json": `[{"name":"b","bin":[10,10],"items":[[10,5],[4,5]],"best_known_bins_rotation":1,"best_known_3stage_guillotine_rotation":1},
			{"name":"c","bin":[10,10],"items":[[10,5]],"best_known_bins_rotation":1,"best_known_3stage_guillotine_rotation":1}]`})}
	require.NoError(t, b.bins())
	require.NoError(t, b.straight())
	assert.Equal(t, []string{"c: not named", "c: not named"}, *b.skipped)
}
