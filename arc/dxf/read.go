package dxf

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A place is where a block is drawn, and for which layer its layer 0 stands.
type place struct {
	m     arc.Motion
	layer string
}

// number reads a value, NaN where it is none.
func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// draw reads entities at a place.
func (d *decoder) draw(list []entity, at place, depth int) error {
	for i := range list {
		e := &list[i]
		if d.drawn++; d.drawn > maxEntities {
			return &ParamError{Func: "dxf.Decode", Param: "entities", Value: d.drawn, Need: "at most " + strconv.Itoa(maxEntities), Err: arc.ErrRange}
		}
		if err := d.ctx.Err(); err != nil {
			return err
		}
		d.pairs += len(e.pairs)
		for j := range e.verts {
			d.pairs += len(e.verts[j].pairs)
		}
		if d.pairs > maxPairs {
			return &ParamError{Func: "dxf.Decode", Param: "groups", Value: d.pairs, Need: "at most " + strconv.Itoa(maxPairs), Err: arc.ErrRange}
		}
		why := ""
		switch {
		case e.int(67) == 1:
			why = "on paper, not in the model"
		case !e.fromAbove() && !e.fromBelow():
			why = "on a plane that is not the sheet's"
		case e.kind == "INSERT":
			var err error
			if why, err = d.insert(e, at, depth); err != nil {
				return err
			}
		default:
			why = d.path(e, at)
		}
		if why != "" {
			d.skipped = append(d.skipped, Skipped{e.kind, d.layerOf(e, at), e.line, why})
		}
	}
	return nil
}

// fromAbove and fromBelow tell of the direction an entity's plane faces.
func (e *entity) fromAbove() bool {
	return e.num(210, 0) == 0 && e.num(220, 0) == 0 && e.num(230, 1) > 0
}

func (e *entity) fromBelow() bool {
	return e.num(210, 0) == 0 && e.num(220, 0) == 0 && e.num(230, 1) < 0
}

func (d *decoder) layerOf(e *entity, at place) string {
	l := e.text(8)
	if l == "" {
		l = "0"
	}
	if l == "0" && at.layer != "" {
		return at.layer
	}
	return l
}

// path reads an entity that is a path, and returns why not.
func (d *decoder) path(e *entity, at place) (why string) {
	if d.vertices > maxVertices || d.failed > maxFailed {
		return "too much in the file"
	}
	p, own, why := d.shape(e, at.m.Factor())
	if why != "" {
		if e.kind == "SPLINE" || e.kind == "ELLIPSE" {
			d.failed++
		}
		return why
	}
	d.vertices += len(p.V)
	if own && e.fromBelow() {
		p = p.Transform(arc.MirrorX())
	}
	p = p.Transform(at.m)
	if err := p.Usable(); err != nil {
		return err.Error()
	}
	if p.Length() == 0 {
		return "of no length"
	}
	name := d.layerOf(e, at)
	i, ok := d.layer[name]
	if !ok {
		i = len(d.layers)
		d.layer[name] = i
		d.layers = append(d.layers, Layer{Name: name})
	}
	d.layers[i].Paths = append(d.layers[i].Paths, p)
	return ""
}

// shape returns an entity as a path in the file's unit, and whether it is in
// the system of its own plane. f is the length in mm of the unit it is drawn in.
func (d *decoder) shape(e *entity, f float64) (p arc.Path, own bool, why string) {
	at := func(code int) r2.Vec { return r2.Vec{X: e.num(code, 0), Y: e.num(code+10, 0)} }
	switch e.kind {
	case "LINE":
		return arc.Polyline(at(10), at(11)), false, ""
	case "CIRCLE":
		r := e.num(40, 0)
		if !(r > 0) {
			return p, true, "radius not above 0"
		}
		return arc.Circle(at(10), r), true, ""
	case "ARC":
		p, why = roundArc(at(10), e.num(40, 0), e.num(50, 0), e.num(51, 0))
		return p, true, why
	case "LWPOLYLINE":
		return light(e), true, ""
	case "POLYLINE":
		p, why = heavy(e)
		return p, true, why
	case "ELLIPSE":
		p, why = d.ellipse(e, at(10), at(11), f)
		return p, false, why
	case "SPLINE":
		p, why = d.spline(e, f)
		return p, false, why
	}
	return p, false, "not a kind that is read"
}

// roundArc goes counter-clockwise from one angle to another, in degrees.
func roundArc(c r2.Vec, r, from, to float64) (arc.Path, string) {
	turn := math.Mod(to-from, 360)
	if turn <= 0 {
		turn += 360
	}
	if !(r > 0) || math.IsInf(r, 0) || math.IsNaN(turn) {
		return arc.Path{}, "no radius above 0, or no angle"
	}
	point := func(deg float64) r2.Vec {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return r2.Vec{X: c.X + r*cos, Y: c.Y + r*sin}
	}
	// As two, since one cannot be a whole turn.
	a, m, b := point(from), point(from+turn/2), point(to)
	k := math.Tan(turn * math.Pi / 180 / 8)
	return arc.Path{V: []arc.Vertex{{P: a, K: k}, {P: m, K: k}, {P: b}}}, ""
}

// light reads the vertices of an LWPOLYLINE, each begun by its x.
func light(e *entity) arc.Path {
	p := arc.Path{Closed: e.int(70)&1 != 0}
	for _, g := range e.pairs {
		n := len(p.V) - 1
		switch {
		case g.code == 10:
			p.V = append(p.V, arc.V(number(g.value), 0, 0))
		case g.code == 20 && n >= 0:
			p.V[n].P.Y = number(g.value)
		case g.code == 42 && n >= 0:
			p.V[n].K = number(g.value)
		}
	}
	return p
}

// heavy reads a POLYLINE: flags 8, 16 and 64 are those of space curves and
// meshes, 16 of a vertex marks one of a spline's frame.
func heavy(e *entity) (arc.Path, string) {
	if e.int(70)&(8|16|64) != 0 {
		return arc.Path{}, "in space, or a mesh"
	}
	p := arc.Path{Closed: e.int(70)&1 != 0}
	for i := range e.verts {
		if v := &e.verts[i]; v.int(70)&16 == 0 {
			p.V = append(p.V, arc.V(v.num(10, 0), v.num(20, 0), v.num(42, 0)))
		}
	}
	return p, ""
}

// ellipse reads one from the parameter 41 to 42, counter-clockwise as seen from
// where its plane faces.
func (d *decoder) ellipse(e *entity, c, major r2.Vec, f float64) (arc.Path, string) {
	rx := r2.Norm(major)
	ry := rx * e.num(40, 1)
	from, to := e.num(41, 0), e.num(42, 2*math.Pi)
	turn := math.Mod(to-from, 2*math.Pi)
	if turn <= 1e-9 {
		turn += 2 * math.Pi
	}
	m := arc.Rotate(arc.Angle(math.Atan2(major.Y, major.X))).Then(arc.Shift(c))
	if e.fromBelow() {
		m = arc.MirrorY().Then(m)
	}
	p, err := arc.EllipticalArcContext(d.ctx, rx, ry, arc.Angle(from), arc.Angle(from+math.Min(turn, 2*math.Pi)), d.o.Tolerance/f)
	if err != nil {
		return p, err.Error()
	}
	return p.Transform(m), ""
}

// insert draws a block in rows and columns.
func (d *decoder) insert(e *entity, at place, depth int) (why string, err error) {
	b := d.blocks[strings.ToUpper(e.text(2))]
	sx, sy := e.num(41, 1), e.num(42, 1)
	switch {
	case b == nil:
		return "of a block that is not there", nil
	case depth >= maxDepth:
		return "blocks in blocks too deep, or in themselves", nil
	case !(math.Abs(sx) > 0) || math.Abs(math.Abs(sx)-math.Abs(sy)) > 1e-9*math.Abs(sx):
		return "scaled unequally, or by nothing", nil
	}
	m := arc.Shift(r2.Vec{X: -b.head.num(10, 0), Y: -b.head.num(20, 0)}).Then(arc.Scale(math.Abs(sx)))
	if sx < 0 {
		m = m.Then(arc.MirrorX())
	}
	if sy < 0 {
		m = m.Then(arc.MirrorY())
	}
	turn := arc.Rotate(arc.Angle(e.num(50, 0)) * arc.Degree)
	cols, rows := max(1, e.int(70)), max(1, e.int(71))
	if cols > maxEntities || rows > maxEntities || cols*rows > maxEntities {
		return "repeated too often", nil
	}
	for r := range rows {
		for c := range cols {
			step := r2.Vec{X: float64(c) * e.num(44, 0), Y: float64(r) * e.num(45, 0)}
			n := m.Then(arc.Shift(step)).Then(turn).Then(arc.Shift(r2.Vec{X: e.num(10, 0), Y: e.num(20, 0)}))
			if e.fromBelow() {
				n = n.Then(arc.MirrorX())
			}
			if err := d.draw(b.body, place{n.Then(at.m), d.layerOf(e, at)}, depth+1); err != nil {
				return "", err
			}
			if d.drawn += 1; d.drawn > maxEntities {
				return "", &ParamError{Func: "dxf.Decode", Param: "entities", Value: d.drawn, Need: "at most " + strconv.Itoa(maxEntities), Err: arc.ErrRange}
			}
		}
	}
	return "", nil
}
