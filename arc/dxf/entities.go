package dxf

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
)

func (e *encoder) entities(d draw.Drawing) {
	e.tags("0", "SECTION", "2", "ENTITIES")
	for i, l := range d.Layers {
		for _, r := range l.Regions {
			for _, p := range r.Loops() {
				e.polyline(p, e.names[i])
			}
		}
		for _, p := range l.AllLines() {
			e.polyline(p, e.names[i])
		}
		for _, p := range l.Arrows() {
			e.solid(p, e.names[i])
		}
		for _, t := range l.AllTexts() {
			e.label(t, e.names[i])
		}
	}
	e.tags("0", "ENDSEC")
}

// entity opens an entity of model space.
func (e *encoder) entity(kind, layer string) {
	e.tag(0, kind)
	if !e.r12 {
		e.tags("5", e.next(), "330", modelSpace, "100", "AcDbEntity")
	}
	e.tag(8, layer)
}

func closedFlag(p arc.Path) int {
	if p.Closed {
		return 1
	}
	return 0
}

func (e *encoder) polyline(p arc.Path, layer string) {
	if e.r12 {
		e.polyline12(p, layer)
		return
	}
	e.entity("LWPOLYLINE", layer)
	e.tag(100, "AcDbPolyline")
	e.int(90, len(p.V))
	e.int(70, closedFlag(p))
	e.mm(43, 0)
	for i, v := range p.V {
		e.mm(10, v.P.X)
		e.mm(20, v.P.Y)
		e.bulge(p, i)
	}
}

// polyline12 writes the older form, an entity of its own for each vertex.
func (e *encoder) polyline12(p arc.Path, layer string) {
	e.entity("POLYLINE", layer)
	e.int(66, 1)
	e.point(10, 0, 0)
	e.int(70, closedFlag(p))
	for i, v := range p.V {
		e.entity("VERTEX", layer)
		e.point(10, v.P.X, v.P.Y)
		e.bulge(p, i)
	}
	e.entity("SEQEND", layer)
}

// leastSag is half the last digit of a size in a file, mm.
const leastSag = 5e-7

// bulge writes the curvature of the segment that leaves vertex i, where that
// is an arc whose sag does not vanish in the last digit of a size.
func (e *encoder) bulge(p arc.Path, i int) {
	if i < p.NumSegments() && p.Segment(i).Sag() >= leastSag {
		e.real(42, p.V[i].K, 12)
	}
}

// solid writes a filled triangle; its last corner is given twice.
func (e *encoder) solid(p arc.Path, layer string) {
	e.entity("SOLID", layer)
	if !e.r12 {
		e.tag(100, "AcDbTrace")
	}
	for i := range 4 {
		v := p.V[min(i, len(p.V)-1)]
		e.point(10+i, v.P.X, v.P.Y)
	}
}

// label writes a text. Group 72 aligns it along its line, and where that is
// not at the left its place is the second point.
func (e *encoder) label(t draw.Text, layer string) {
	at := t.Baseline()
	e.entity("TEXT", layer)
	if !e.r12 {
		e.tag(100, "AcDbText")
	}
	e.point(10, at.X, at.Y)
	e.mm(40, t.CapHeight())
	e.text(1, t.Text)
	if t.Angle != 0 {
		e.real(50, degrees(t.Angle), 6)
	}
	along := map[draw.Align]int{draw.Center: 1, draw.Middle: 1, draw.Right: 2}[t.Align]
	if along != 0 {
		e.int(72, along)
		e.point(11, at.X, at.Y)
	}
	if !e.r12 {
		e.tag(100, "AcDbText")
	}
}
