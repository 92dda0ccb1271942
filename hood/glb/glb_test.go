package glb_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/hood/glb"
)

// wedge is a closed prism whose volume is 100·50·30/2.
func wedge(name string) hood.Solid {
	v := []r3.Vec{{X: 0}, {X: 100}, {Y: 50}, {X: 0, Z: 30}, {X: 100, Z: 30}, {Y: 50, Z: 30}}
	return hood.Solid{Name: name, Vertices: v, Triangles: [][3]int{
		{0, 2, 1}, {3, 4, 5}, {0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5},
	}}
}

// file is what a strict reader of the container finds.
type file struct {
	doc map[string]any
	bin []byte
}

func read(t *testing.T, data []byte) file {
	word := func(at int) int { return int(binary.LittleEndian.Uint32(data[at:])) }
	require.Equal(t, "glTF", string(data[:4]))
	require.Equal(t, 2, word(4))
	require.Equal(t, len(data), word(8))
	n := word(12)
	require.Zero(t, n%4)
	require.Equal(t, "JSON", string(data[16:20]))
	var f file
	require.NoError(t, json.Unmarshal(data[20:20+n], &f.doc))
	at := 20 + n
	require.Equal(t, "BIN\x00", string(data[at+4:at+8]))
	f.bin = data[at+8:]
	require.Equal(t, len(f.bin), word(at))
	return f
}

func (f file) list(key string, i int) map[string]any {
	return f.doc[key].([]any)[i].(map[string]any)
}

func num(m map[string]any, key string) int { return int(m[key].(float64)) }

// floats returns the numbers of an accessor, after checking its bounds.
func (f file) floats(t *testing.T, i int) []r3.Vec {
	a := f.list("accessors", i)
	require.Equal(t, 5126, num(a, "componentType"))
	at := num(f.list("bufferViews", num(a, "bufferView")), "byteOffset")
	require.Zero(t, at%4)
	out := make([]r3.Vec, num(a, "count"))
	lo, hi := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for j := range out {
		var p [3]float64
		for k := range p {
			p[k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(f.bin[at+12*j+4*k:])))
			lo[k], hi[k] = min(lo[k], p[k]), max(hi[k], p[k])
		}
		out[j] = r3.Vec{X: p[0], Y: p[1], Z: p[2]}
	}
	if _, ok := a["min"]; ok {
		for k := range 3 {
			require.Equal(t, float32(lo[k]), float32(a["min"].([]any)[k].(float64)))
			require.Equal(t, float32(hi[k]), float32(a["max"].([]any)[k].(float64)))
		}
	}
	return out
}

func TestReadBack(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, glb.Encode(&b, []hood.Solid{wedge("cheek-left"), wedge("back")}))
	f := read(t, b.Bytes())
	for i, name := range []string{"cheek-left", "back"} {
		assert.Equal(t, name, f.list("nodes", i)["name"])
		prim := f.list("meshes", i)["primitives"].([]any)[0].(map[string]any)
		at := prim["attributes"].(map[string]any)
		pos := f.floats(t, num(at, "POSITION"))
		for _, n := range f.floats(t, num(at, "NORMAL")) {
			assert.InDelta(t, 1, r3.Norm(n), 1e-6)
		}
		checkClosed(t, pos)
		assert.InDelta(t, 100*50*30/2*1e-9, volume(pos), 1e-12)
	}
	// Up is +Y and the front is +Z.
	pos := f.floats(t, 0)
	var top, front float64
	for _, p := range pos {
		top, front = max(top, p.Y), max(front, p.Z)
	}
	assert.InDelta(t, 0.050, top, 1e-9)
	assert.InDelta(t, 0.030, front, 1e-9)
}

func volume(pos []r3.Vec) float64 {
	sum := 0.0
	for i := 0; i < len(pos); i += 3 {
		sum += r3.Dot(pos[i], r3.Cross(pos[i+1], pos[i+2])) / 6
	}
	return sum
}

// checkClosed welds corners by place and wants each directed edge once with
// its reverse.
func checkClosed(t *testing.T, pos []r3.Vec) {
	edges := map[[2]r3.Vec]int{}
	for i := 0; i < len(pos); i += 3 {
		for k := range 3 {
			edges[[2]r3.Vec{pos[i+k], pos[i+(k+1)%3]}]++
		}
	}
	for e, n := range edges {
		require.Equal(t, 1, n)
		require.Equal(t, 1, edges[[2]r3.Vec{e[1], e[0]}])
	}
}

func TestRefuses(t *testing.T) {
	bad := wedge("x")
	bad.Triangles[0][0] = 99
	far := wedge("y")
	far.Vertices[0].X = math.NaN()
	for _, c := range []struct {
		solids []hood.Solid
		kind   error
	}{{nil, arc.ErrEmpty}, {[]hood.Solid{bad}, glb.ErrTriangle}, {[]hood.Solid{far}, arc.ErrNotFinite}} {
		var b bytes.Buffer
		assert.ErrorIs(t, glb.Encode(&b, c.solids), c.kind)
		assert.Zero(t, b.Len())
	}
}
