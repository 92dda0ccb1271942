// Package glb writes the model of a hood as a binary glTF 2.0 file (Khronos
// glTF 2.0 specification, also ISO/IEC 12113).
//
// glTF has metres with +Y up and +Z to the front: the frame of a hood, in which
// millimetres become metres and nothing else changes.
package glb

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"example.com/sagitta/internal/num"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// ErrTriangle is the kind of fault where a triangle names no vertex.
var ErrTriangle = errors.New("triangle outside the vertices")

// The numbers of the specification that are used here.
const (
	magic     = 0x46546C67 // "glTF"
	chunkJSON = 0x4E4F534A
	chunkBin  = 0x004E4942

	componentUint32  = 5125
	componentFloat32 = 5126
	targetVertices   = 34962
	targetIndices    = 34963
)

// Encode writes the solids as one scene with a node, a mesh and a material for
// each, flat shaded. Solids need finite vertices and triangles that name them.
func Encode(w io.Writer, solids []hood.Solid) error {
	var d document
	for _, s := range solids {
		if err := d.add(s); err != nil {
			return err
		}
	}
	d.Buffers = []buffer{{ByteLength: d.bin.Len()}}
	if d.bin.Len() == 0 {
		return &arc.ParamError{Func: "glb.Encode", Param: "solids", Value: len(solids), Need: "at least one triangle", Err: arc.ErrEmpty}
	}
	text, err := json.Marshal(&d)
	if err != nil {
		return err
	}
	_, err = w.Write(container(text, d.bin.Bytes()))
	return err
}

// container joins the two chunks, padded to four bytes: JSON with spaces, the
// binary with zeros.
func container(text, bin []byte) []byte {
	for len(text)%4 != 0 {
		text = append(text, ' ')
	}
	for len(bin)%4 != 0 {
		bin = append(bin, 0)
	}
	var out bytes.Buffer
	words := func(v ...uint32) {
		for _, x := range v {
			var b [4]byte
			binary.LittleEndian.PutUint32(b[:], x)
			out.Write(b[:])
		}
	}
	words(magic, 2, uint32(12+8+len(text)+8+len(bin)), uint32(len(text)), chunkJSON)
	out.Write(text)
	words(uint32(len(bin)), chunkBin)
	out.Write(bin)
	return out.Bytes()
}

func (d *document) add(s hood.Solid) error {
	const fn = "glb.Encode"
	for _, t := range s.Triangles {
		for _, i := range t {
			if i < 0 || i >= len(s.Vertices) {
				return &arc.ParamError{Func: fn, Param: s.Name, Value: i, Need: "a triangle of its vertices", Err: ErrTriangle}
			}
		}
	}
	for _, v := range s.Vertices {
		if !(math.Abs(v.X)+math.Abs(v.Y)+math.Abs(v.Z) <= math.MaxFloat32) {
			return &arc.ParamError{Func: fn, Param: s.Name, Value: v, Unit: "mm", Need: "finite vertices", Err: arc.ErrNotFinite}
		}
	}
	if len(s.Triangles) == 0 {
		return nil
	}
	n := len(d.Nodes)
	d.Asset.Version = "2.0"
	d.Scenes = []scene{{Nodes: append(d.sceneNodes(), n)}}
	d.Nodes = append(d.Nodes, node{Name: s.Name, Mesh: n})
	d.Materials = append(d.Materials, materialFor(n, s.Name))
	d.Meshes = append(d.Meshes, mesh{Name: s.Name, Primitives: []primitive{{
		Attributes: map[string]int{"POSITION": d.positions(s), "NORMAL": len(d.Accessors)},
		Material:   n,
	}}})
	d.normals(s)
	d.Meshes[n].Primitives[0].Indices = d.indices(3 * len(s.Triangles))
	return nil
}

func (d *document) sceneNodes() []int {
	if len(d.Scenes) == 0 {
		return nil
	}
	return d.Scenes[0].Nodes
}

// corners calls f for every corner of every triangle.
func corners(s hood.Solid, f func(t [3]int, corner int)) {
	for _, t := range s.Triangles {
		for c := range 3 {
			f(t, c)
		}
	}
}

// gltf returns a vertex in metres, rounded to 1e-5 mm, so that the last bits of
// its reckoning do not reach the file.
func gltf(v r3.Vec) [3]float32 {
	at := func(x float64) float32 { return float32(num.Decimals(x, 5) / 1000) }
	return [3]float32{at(v.X), at(v.Y), at(v.Z)}
}

// positions writes three vertices a triangle, since flat faces share none.
func (d *document) positions(s hood.Solid) int {
	lo, hi := [3]float32{}, [3]float32{}
	first := true
	at := d.bin.Len()
	corners(s, func(t [3]int, c int) {
		p := gltf(s.Vertices[t[c]])
		for i, x := range p {
			if first || x < lo[i] {
				lo[i] = x
			}
			if first || x > hi[i] {
				hi[i] = x
			}
		}
		first = false
		d.float(p)
	})
	return d.accessor(at, targetVertices, accessor{
		ComponentType: componentFloat32, Count: 3 * len(s.Triangles), Type: "VEC3", Min: lo[:], Max: hi[:]})
}

func (d *document) normals(s hood.Solid) {
	at := d.bin.Len()
	corners(s, func(t [3]int, _ int) {
		a, b, c := gltf(s.Vertices[t[0]]), gltf(s.Vertices[t[1]]), gltf(s.Vertices[t[2]])
		d.float(normal(a, b, c))
	})
	d.accessor(at, targetVertices, accessor{ComponentType: componentFloat32, Count: 3 * len(s.Triangles), Type: "VEC3"})
}

// normal returns the unit normal of a triangle, up where it has none.
func normal(a, b, c [3]float32) [3]float32 {
	vec := func(p [3]float32) r3.Vec { return r3.Vec{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])} }
	n := r3.Cross(r3.Sub(vec(b), vec(a)), r3.Sub(vec(c), vec(a)))
	l := r3.Norm(n)
	if l == 0 {
		return [3]float32{0, 1, 0}
	}
	along := func(x float64) float32 { return float32(num.Decimals(x/l, 6)) }
	return [3]float32{along(n.X), along(n.Y), along(n.Z)}
}

func (d *document) indices(n int) int {
	at := d.bin.Len()
	for i := range n {
		var b [4]byte
		binary.LittleEndian.PutUint32(b[:], uint32(i))
		d.bin.Write(b[:])
	}
	return d.accessor(at, targetIndices, accessor{ComponentType: componentUint32, Count: n, Type: "SCALAR"})
}

func (d *document) float(p [3]float32) {
	for _, x := range p {
		var b [4]byte
		binary.LittleEndian.PutUint32(b[:], math.Float32bits(x))
		d.bin.Write(b[:])
	}
}

// accessor adds a view of the bytes written since at, and a reading of it.
func (d *document) accessor(at, target int, a accessor) int {
	a.BufferView = len(d.BufferViews)
	d.BufferViews = append(d.BufferViews, bufferView{ByteOffset: at, ByteLength: d.bin.Len() - at, Target: target})
	d.Accessors = append(d.Accessors, a)
	return len(d.Accessors) - 1
}
