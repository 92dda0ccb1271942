package svg

import (
	"context"
	"io"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// DecodeOptions say how a file is read.
type DecodeOptions struct {
	// Unit is the length in mm of the file's user unit where the file does not
	// state its size in mm, cm, in, pt, pc or Q; 0 means that of a pixel, 1/96
	// inch. A size that is stated is used.
	Unit float64
	// Tolerance, in mm, is how far the arcs that stand for ellipses and Bézier
	// curves may leave them; 0 means 0.001.
	Tolerance float64
	// Join, in mm, is how far apart ends on one layer may be to be joined; 0
	// joins ends that are equal.
	Join float64
}

// A File is what was read, in mm with y up: the place x, y of the outermost svg
// element is x·Unit, -y·Unit.
type File struct {
	Unit    float64 // length in mm of the user unit, across where it differs
	Stated  bool    // the file states its size
	Layers  []Layer // in the order of their first element
	Skipped []Skipped
}

// A Layer is the paths of one group, joined where their ends meet, in the order
// of their first elements. Its name is the attribute data-layer of the nearest
// group around them that has one, or else the id of the outermost group.
type Layer struct {
	Name  string
	Paths []arc.Path
}

// Skipped is an element, or something that an element asks for, that was not
// read.
type Skipped struct {
	Type  string // the element, such as text, or the attribute, such as clip-path
	Layer string
	Line  int // of the file, from 1, where the element starts
	Why   string
}

// LooseEnds returns the ends of the paths of the layer that stay open.
func (l Layer) LooseEnds() []r2.Vec {
	var out []r2.Vec
	for _, p := range l.Paths {
		if !p.Closed && len(p.V) > 0 {
			out = append(out, p.V[0].P, p.V[len(p.V)-1].P)
		}
	}
	return out
}

// Limits of what Decode takes, so that a hostile file takes neither memory nor
// time without bound.
const (
	maxBytes    = 64 << 20
	maxElements = 1 << 18      // with all that is used again
	maxDepth    = 64           // of elements in elements
	maxUses     = 8            // of used elements in used elements
	maxWork     = 4 * maxBytes // of attributes, counted as often as they are used
	maxVertices = 1 << 20
	maxCurves   = 1 << 16 // that are no arcs of circles
	maxFailed   = 64      // of those, that cannot be read
)

// Decode reads the outlines of a drawing in Scalable Vector Graphics (SVG 1.1
// and what SVG 2 says of the same): path with all commands, rect, circle,
// ellipse, line, polyline and polygon, under transforms in groups, nested svg
// elements and use. Circles stay arcs; ellipses and Bézier curves become
// tangent arcs. It reads where lines go and not how they are painted: strokes
// are their center lines, fills their edges; what a viewport would cut off is
// read too.
//
// All else that is drawn is listed in Skipped, with where and why: text,
// images, what is hidden, and clipping, masks, markers and style sheets that
// would change what is seen. Path data that is wrong is read up to the fault,
// and the fault is listed.
//
// It returns a [*ParamError] of the kind [arc.ErrSyntax] where the text is no
// well-formed SVG, and [arc.ErrRange] where it is longer than 64 MiB or draws
// more than 262,144 elements, or 256 MiB of attributes, those used again counted
// as often as they are.
func Decode(r io.Reader, o DecodeOptions) (File, error) {
	return DecodeContext(context.Background(), r, o)
}

// DecodeContext is [Decode], stopped with the context's error when ctx is done.
func DecodeContext(ctx context.Context, r io.Reader, o DecodeOptions) (File, error) {
	for _, x := range [...]struct {
		name string
		v    float64
	}{{"Unit", o.Unit}, {"Tolerance", o.Tolerance}, {"Join", o.Join}} {
		if !(x.v >= 0) || math.IsInf(x.v, 0) {
			return File{}, fault(x.name, x.v, "mm", "finite and >= 0", arc.ErrRange)
		}
	}
	if o.Tolerance == 0 {
		o.Tolerance = 1e-3
	}
	text, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return File{}, err
	}
	if len(text) > maxBytes {
		return File{}, fault("file", "over 64 MiB", "", "at most 64 MiB", arc.ErrRange)
	}
	root, err := parse(text)
	if err != nil {
		return File{}, err
	}
	d := &decoder{ctx: ctx, o: o, ids: map[string]*node{}, layer: map[string]int{}}
	d.index(root)
	return d.file(root)
}

func fault(param string, value any, unit, need string, err error) error {
	return &ParamError{Func: "svg.Decode", Param: param, Value: value, Unit: unit, Need: need, Err: err}
}

type decoder struct {
	ctx      context.Context
	o        DecodeOptions
	ids      map[string]*node
	layer    map[string]int
	layers   []Layer
	skipped  []Skipped
	drawn    int
	work     int
	vertices int
	curves   int
	failed   int
}

// index notes the elements by their ids, of which the first counts, and lists
// style sheets that cannot be left out without loss.
func (d *decoder) index(n *node) {
	if n.name == "style" && hides(n.text.String()) {
		d.skip(n, "style", &place{}, "style sheets are not read; what this one hides or moves is read as it stands")
	}
	if id := n.attr("id"); id != "" && d.ids[id] == nil {
		d.ids[id] = n
	}
	for _, k := range n.kids {
		d.index(k)
	}
}

func (d *decoder) file(root *node) (File, error) {
	v, unit, stated := d.page(root)
	f := File{Unit: unit.X, Stated: stated}
	at := place{m: matrix{a: unit.X, d: -unit.Y}, view: v}
	if root.prop("transform") != "" || root.styled() {
		d.skip(root, "svg", &at, "a transform or size in a style of the outermost element")
	} else if d.shown(root, &at) {
		if err := d.children(root, at); err != nil {
			return File{}, err
		}
	}
	if err := d.ctx.Err(); err != nil {
		return File{}, err
	}
	for _, l := range d.layers {
		paths, err := arc.ConnectContext(d.ctx, l.Paths, d.o.Join)
		if err != nil {
			return File{}, err
		}
		f.Layers = append(f.Layers, Layer{l.Name, paths})
	}
	f.Skipped = d.skipped
	return f, nil
}

// page returns the size of the outermost viewport in user units and the lengths
// in mm of one of them across and down.
func (d *decoder) page(root *node) (view, unit r2.Vec, stated bool) {
	const pixel = arc.Inch / 96
	wide, absW := physical(root.attr("width"))
	high, absH := physical(root.attr("height"))
	box, ok := root.viewBox()
	base := pixel
	if d.o.Unit > 0 {
		base = d.o.Unit
	}
	if !ok {
		view = r2.Vec{X: wide / pixel, Y: high / pixel}
		return view, r2.Vec{X: base, Y: base}, false
	}
	view = r2.Vec{X: box[2], Y: box[3]}
	stated = absW || absH
	if !stated && d.o.Unit > 0 || wide <= 0 && high <= 0 {
		return view, r2.Vec{X: base, Y: base}, false
	}
	sx, sy := wide/box[2], high/box[3]
	switch {
	case wide <= 0:
		sx = sy
	case high <= 0:
		sy = sx
	default:
		sx, sy, _, _ = root.fit(sx, sy)
	}
	return view, r2.Vec{X: sx, Y: sy}, stated
}

// physical returns a length in mm, and whether its unit is one outside the
// screen.
func physical(s string) (mm float64, abs bool) {
	v, unit, ok := splitLength(s)
	if !ok || unit == "%" || v < 0 {
		return 0, false
	}
	f, known := toMM[unit]
	if !known {
		return 0, false
	}
	return v * f, unit != "" && unit != "px"
}

// toMM are the lengths in mm of units.
var toMM = map[string]float64{
	"": arc.Inch / 96, "px": arc.Inch / 96, "in": arc.Inch, "cm": 10, "mm": 1, "q": 0.25, "pt": arc.Inch / 72, "pc": arc.Inch / 6,
}

func (d *decoder) skip(n *node, what string, at *place, why string) {
	d.skipped = append(d.skipped, Skipped{what, at.layer, n.line, why})
}

// put puts a path, in mm, on its layer, and returns why not.
func (d *decoder) put(p arc.Path, at *place) (why string) {
	if err := p.Usable(); err != nil {
		return err.Error()
	}
	if l := p.Length(); !(l > 0) || math.IsInf(l, 0) {
		return "of length " + strconv.FormatFloat(l, 'g', -1, 64)
	}
	i, ok := d.layer[at.layer]
	if !ok {
		i = len(d.layers)
		d.layer[at.layer] = i
		d.layers = append(d.layers, Layer{Name: at.layer})
	}
	d.layers[i].Paths = append(d.layers[i].Paths, p)
	return ""
}
