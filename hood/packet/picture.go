package packet

import (
	"bytes"
	"example.com/sagitta/internal/num"
	"image"
	"image/color"
	"image/png"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/hood"
)

// Size of the picture of the report, drawn at twice that and averaged.
const (
	pictureW, pictureH = 760, 620
	fine               = 2
)

// picture returns a PNG of the model as one sees it from the front, a little
// to the right and from above. Places are rounded to whole subpixels and
// depths to 0.01 mm, so that last bits of arithmetic do not show.
func picture(solids []hood.Solid) ([]byte, error) {
	c := newCamera(solids)
	for _, s := range solids {
		for _, t := range s.Triangles {
			c.triangle(s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]])
		}
	}
	for _, s := range solids {
		for _, e := range sharpEdges(s) {
			c.line(s.Vertices[e[0]], s.Vertices[e[1]])
		}
	}
	var b bytes.Buffer
	err := png.Encode(&b, c.average())
	return b.Bytes(), err
}

// A camera holds the picture while it is drawn: tones and depths.
type camera struct {
	right, up, near r3.Vec // axes of the picture in hood space; near points at the viewer
	scale           float64
	dx, dy          float64
	w, h            int
	tone            []uint8 // 0 is paper, else 1 + brightness
	depth           []float64
}

func newCamera(solids []hood.Solid) *camera {
	sa, ca := math.Sincos(-0.62) // about the upright
	se, ce := math.Sincos(0.30)  // from above
	c := &camera{w: pictureW * fine, h: pictureH * fine}
	c.right = r3.Vec{X: ca, Z: sa}
	c.near = r3.Vec{X: -sa * ce, Y: se, Z: ca * ce}
	c.up = r3.Vec{X: sa * se, Y: ce, Z: -ca * se}
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, s := range solids {
		for _, v := range s.Vertices {
			x, y := r3.Dot(v, c.right), r3.Dot(v, c.up)
			x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
		}
	}
	c.scale = 0.92 * min(float64(c.w)/max(x1-x0, 1), float64(c.h)/max(y1-y0, 1))
	c.dx = float64(c.w)/2 - c.scale*(x0+x1)/2
	c.dy = float64(c.h)/2 + c.scale*(y0+y1)/2
	c.tone = make([]uint8, c.w*c.h)
	c.depth = make([]float64, c.w*c.h)
	for i := range c.depth {
		c.depth[i] = math.Inf(-1)
	}
	return c
}

func (c *camera) project(v r3.Vec) (x, y, z float64) {
	return num.Round(c.dx+c.scale*r3.Dot(v, c.right), 1),
		num.Round(c.dy-c.scale*r3.Dot(v, c.up), 1),
		num.Decimals(r3.Dot(v, c.near), 2)
}

// triangle draws a face that looks at the viewer, row by row.
func (c *camera) triangle(a, b, d r3.Vec) {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(d, a))
	if !(r3.Dot(n, c.near) > 0) {
		return
	}
	light := math.Abs(r3.Dot(r3.Unit(n), r3.Unit(r3.Vec{X: -0.35, Y: 0.55, Z: 0.75})))
	tone := uint8(1 + num.Round(120+130*light, 1))
	var p [3][3]float64
	for i, v := range [3]r3.Vec{a, b, d} {
		p[i][0], p[i][1], p[i][2] = c.project(v)
	}
	area := (p[1][0]-p[0][0])*(p[2][1]-p[0][1]) - (p[1][1]-p[0][1])*(p[2][0]-p[0][0])
	if area == 0 {
		return
	}
	// Depth over the picture is a plane: its slopes along x and y.
	zx := ((p[1][2]-p[0][2])*(p[2][1]-p[0][1]) - (p[2][2]-p[0][2])*(p[1][1]-p[0][1])) / area
	zy := ((p[2][2]-p[0][2])*(p[1][0]-p[0][0]) - (p[1][2]-p[0][2])*(p[2][0]-p[0][0])) / area
	top, bottom := min(p[0][1], p[1][1], p[2][1]), max(p[0][1], p[1][1], p[2][1])
	for y := max(0, top); y <= min(float64(c.h-1), bottom); y++ {
		lo, hi := rowOf(p, y)
		for x := max(0, math.Ceil(lo)); x <= min(float64(c.w-1), hi); x++ {
			z := num.Decimals(p[0][2]+zx*(x-p[0][0])+zy*(y-p[0][1]), 6)
			if i := int(y)*c.w + int(x); z > c.depth[i] {
				c.depth[i], c.tone[i] = z, tone
			}
		}
	}
}

// rowOf returns where a triangle begins and ends on a row.
func rowOf(p [3][3]float64, y float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i := range 3 {
		a, b := p[i], p[(i+1)%3]
		if y < min(a[1], b[1]) || y > max(a[1], b[1]) {
			continue
		}
		x0, x1 := a[0], b[0]
		if a[1] != b[1] {
			x0 = a[0] + (b[0]-a[0])*(y-a[1])/(b[1]-a[1])
			x1 = x0
		}
		lo, hi = min(lo, x0, x1), max(hi, x0, x1)
	}
	return num.Decimals(lo, 6), num.Decimals(hi, 6) // often whole pixels
}

// line draws an edge where nothing lies clearly before it.
func (c *camera) line(a, b r3.Vec) {
	const before = 0.8 // mm, less than the web under a kerf
	ax, ay, az := c.project(a)
	bx, by, bz := c.project(b)
	n := int(max(math.Abs(bx-ax), math.Abs(by-ay), 1))
	for i := range n + 1 {
		f := float64(i) / float64(n)
		x, y, z := int(num.Round(ax+f*(bx-ax), 1)), int(num.Round(ay+f*(by-ay), 1)), num.Decimals(az+f*(bz-az), 6)
		if x < 0 || y < 0 || x >= c.w || y >= c.h {
			continue
		}
		if j := y*c.w + x; z > c.depth[j]-before {
			c.tone[j] = 1
		}
	}
}

// average returns the picture at its own size, in tones of wood.
func (c *camera) average() image.Image {
	img := image.NewPaletted(image.Rect(0, 0, pictureW, pictureH), woodTones())
	for y := range pictureH {
		for x := range pictureW {
			sum, n := 0, 0
			for dy := range fine {
				for dx := range fine {
					t := c.tone[(y*fine+dy)*c.w+x*fine+dx]
					if t == 0 {
						t = 255
					}
					sum += int(t)
					n++
				}
			}
			img.SetColorIndex(x, y, uint8(sum/n))
		}
	}
	return img
}

// woodTones runs from ink over wood to paper.
func woodTones() color.Palette {
	p := make(color.Palette, 256)
	for i := range p {
		f := float64(i) / 255
		mix := func(dark, light float64) uint8 { return uint8(math.Round(dark + (light-dark)*f)) }
		p[i] = color.NRGBA{mix(50, 255), mix(36, 252), mix(30, 246), 255}
	}
	return p
}

// sharpEdges returns the edges of a mesh where its faces meet at more than
// about 15 degrees, which leaves out the facets of a bend.
func sharpEdges(s hood.Solid) [][2]int {
	type key [2]r3.Vec
	normals := map[key]r3.Vec{}
	var out [][2]int
	for _, t := range s.Triangles {
		n := r3.Cross(r3.Sub(s.Vertices[t[1]], s.Vertices[t[0]]), r3.Sub(s.Vertices[t[2]], s.Vertices[t[0]]))
		if r3.Norm(n) == 0 {
			continue
		}
		n = r3.Unit(n)
		for k := range 3 {
			i, j := t[k], t[(k+1)%3]
			a, b := s.Vertices[i], s.Vertices[j]
			if other, ok := normals[key{b, a}]; ok && r3.Dot(n, other) < 0.966 {
				out = append(out, [2]int{i, j})
			}
			normals[key{a, b}] = n
		}
	}
	return out
}
