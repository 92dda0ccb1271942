package dxf

import (
	"context"
	"io"
	"math"

	"example.com/sagitta/arc"

	"gonum.org/v1/gonum/spatial/r2"
)

// DecodeOptions say how a file is read.
type DecodeOptions struct {
	// Unit is the length in mm of the file's unit where the file states none; 0
	// means 1. A unit that is stated is used.
	Unit float64
	// Tolerance, in mm, is how far the arcs that stand for ellipses and splines
	// may leave them; 0 means 0.001.
	Tolerance float64
	// Join, in mm, is how far apart ends on one layer may be to be joined; 0
	// joins ends that are equal.
	Join float64
}

// A File is what was read, in mm.
type File struct {
	Unit    float64 // length in mm of the file's unit
	Stated  bool    // the file states it
	Layers  []Layer // in the order of their first entity
	Skipped []Skipped
}

// A Layer is the paths on one layer, joined where their ends meet, in the order
// of their first entities.
type Layer struct {
	Name  string
	Paths []arc.Path
}

// Skipped is an entity that was not read.
type Skipped struct {
	Type  string // such as TEXT
	Layer string
	Line  int // of the file, from 1, on which it starts
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
	maxEntities = 1 << 18 // with all that blocks repeat
	maxDepth    = 8       // of blocks in blocks
	maxVertices = 1 << 21
	maxPairs    = 1 << 26 // of groups, counted as often as they are drawn
	maxFailed   = 256     // curves that cannot be read
)

// Decode reads an ASCII drawing interchange file of release 12 or later: LINE,
// ARC, CIRCLE, LWPOLYLINE, POLYLINE, ELLIPSE and SPLINE, the last two as
// tangent arcs, and INSERT of blocks, scaled alike both ways, in model space.
// Everything else that is drawn is listed in Skipped, with where and why. It
// reads what is seen from above: heights are left out, and entities on planes
// other than the sheet's, from above or below, are skipped.
//
// It returns a [*ParamError] of the kind [arc.ErrSyntax] where the text is not
// of the format, and [arc.ErrRange] where it is longer than 64 MiB or holds
// more than 262,144 entities, or 67,108,864 groups, those of blocks counted as
// often as they are drawn.
func Decode(r io.Reader, o DecodeOptions) (File, error) {
	return DecodeContext(context.Background(), r, o)
}

// DecodeContext is [Decode], stopped with the context's error when ctx is done.
func DecodeContext(ctx context.Context, r io.Reader, o DecodeOptions) (File, error) {
	const fn = "dxf.Decode"
	for _, x := range [...]struct {
		name string
		v    float64
	}{{"Unit", o.Unit}, {"Tolerance", o.Tolerance}, {"Join", o.Join}} {
		if !(x.v >= 0) || math.IsInf(x.v, 0) {
			return File{}, &ParamError{Func: fn, Param: x.name, Value: x.v, Unit: "mm", Need: "finite and >= 0", Err: arc.ErrRange}
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
		return File{}, &ParamError{Func: fn, Param: "file", Value: "over 64 MiB", Need: "at most 64 MiB", Err: arc.ErrRange}
	}
	d := &decoder{ctx: ctx, o: o, blocks: map[string]*block{}, layer: map[string]int{}}
	if err := d.parse(string(text)); err != nil {
		return File{}, err
	}
	return d.file()
}

// units are the lengths in mm that $INSUNITS can state, by its number.
var units = map[int]float64{
	1: arc.Inch, 2: arc.Foot, 3: 1609344, 4: 1, 5: 10, 6: 1000, 7: 1e6, 8: arc.Inch * 1e-6, 9: arc.Inch * 1e-3,
	10: 914.4, 11: 1e-7, 12: 1e-6, 13: 1e-3, 14: 100, 15: 1e4, 16: 1e5,
}

func (d *decoder) file() (File, error) {
	f := File{Unit: units[d.insUnits]}
	if f.Stated = f.Unit > 0; !f.Stated {
		if f.Unit = d.o.Unit; f.Unit == 0 {
			f.Unit = 1
		}
	}
	d.unit = f.Unit
	if err := d.draw(d.model, place{m: arc.Scale(f.Unit)}, 0); err != nil {
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
