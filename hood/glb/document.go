package glb

import (
	"bytes"
	"math"
)

// The parts of a glTF document that are used here, with its names.
type document struct {
	Asset       asset        `json:"asset"`
	Scene       int          `json:"scene"`
	Scenes      []scene      `json:"scenes"`
	Nodes       []node       `json:"nodes"`
	Meshes      []mesh       `json:"meshes"`
	Materials   []material   `json:"materials"`
	Accessors   []accessor   `json:"accessors"`
	BufferViews []bufferView `json:"bufferViews"`
	Buffers     []buffer     `json:"buffers"`

	bin bytes.Buffer
}

type asset struct {
	Version string `json:"version"`
}

type scene struct {
	Nodes []int `json:"nodes"`
}

type node struct {
	Name string `json:"name"`
	Mesh int    `json:"mesh"`
}

type mesh struct {
	Name       string      `json:"name"`
	Primitives []primitive `json:"primitives"`
}

type primitive struct {
	Attributes map[string]int `json:"attributes"`
	Indices    int            `json:"indices"`
	Material   int            `json:"material"`
}

type material struct {
	Name string `json:"name"`
	PBR  pbr    `json:"pbrMetallicRoughness"`
}

type pbr struct {
	BaseColor [4]float64 `json:"baseColorFactor"`
	Metallic  float64    `json:"metallicFactor"`
	Roughness float64    `json:"roughnessFactor"`
}

type accessor struct {
	BufferView    int       `json:"bufferView"`
	ComponentType int       `json:"componentType"`
	Count         int       `json:"count"`
	Type          string    `json:"type"`
	Min           []float32 `json:"min,omitempty"`
	Max           []float32 `json:"max,omitempty"`
}

type bufferView struct {
	Buffer     int `json:"buffer"`
	ByteOffset int `json:"byteOffset"`
	ByteLength int `json:"byteLength"`
	Target     int `json:"target"`
}

type buffer struct {
	ByteLength int `json:"byteLength"`
}

// materialFor tells parts apart by a small step of a wood-like tone.
func materialFor(i int, name string) material {
	f := 0.8 + 0.2*math.Abs(math.Mod(float64(i)*0.37, 1)*2-1)
	round := func(x float64) float64 { return math.Round(x*f*1000) / 1000 }
	return material{Name: name, PBR: pbr{BaseColor: [4]float64{round(0.76), round(0.6), round(0.42), 1}, Roughness: 0.8}}
}
