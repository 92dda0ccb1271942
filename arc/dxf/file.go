package dxf

import (
	"math"
	"strconv"

	"example.com/sagitta/arc/draw"
)

// Handles of what every file of the release of 2000 holds; entities follow.
// They are fixed, so that tables can name each other.
const (
	vportTable   = "1"
	ltypeTable   = "2"
	layerTable   = "3"
	styleTable   = "4"
	viewTable    = "5"
	ucsTable     = "6"
	appidTable   = "7"
	dimTable     = "8"
	recordTable  = "9"
	modelSpace   = "A"
	paperSpace   = "B"
	rootDict     = "C"
	groupDict    = "D"
	modelBegin   = "E"
	modelEnd     = "F"
	paperBegin   = "10"
	paperEnd     = "11"
	firstHandle  = 0x20
	continuous   = "CONTINUOUS"
	plainStyle   = "STANDARD"
	blackOnWhite = 7
)

func (e *encoder) file(d draw.Drawing) {
	e.tag(999, "All lengths are in millimetres.")
	if e.r12 {
		e.header(d, nil)
		e.tables(d)
		e.entities(d)
		e.tag(0, "EOF")
		return
	}
	// The header states the first handle that is free, so it is written last.
	body := &encoder{names: e.names, handle: firstHandle}
	body.tags("0", "SECTION", "2", "CLASSES", "0", "ENDSEC")
	body.tables(d)
	body.blocks()
	body.entities(d)
	body.objects()
	body.tag(0, "EOF")
	e.header(d, body)
	e.Write(body.Bytes())
}

func (e *encoder) header(d draw.Drawing, body *encoder) {
	b := d.Extent()
	e.tags("0", "SECTION", "2", "HEADER", "9", "$ACADVER")
	if body == nil {
		e.tags("1", "AC1009")
	} else {
		e.tags("1", "AC1015", "9", "$HANDSEED", "5", body.next(), "9", "$INSUNITS")
		e.int(70, 4) // millimetres
		e.tags("9", "$MEASUREMENT")
		e.int(70, 1) // metric
	}
	e.tags("9", "$EXTMIN")
	e.point(10, b.Min.X, b.Min.Y)
	e.tags("9", "$EXTMAX")
	e.point(10, b.Max.X, b.Max.Y)
	e.tags("0", "ENDSEC")
}

func (e *encoder) tables(d draw.Drawing) {
	e.tags("0", "SECTION", "2", "TABLES")
	if !e.r12 {
		e.table("VPORT", vportTable, 1, e.viewport(d))
	}
	e.linetypes(d)
	e.layers(d)
	e.table("STYLE", styleTable, 1, e.style)
	if !e.r12 {
		e.table("VIEW", viewTable, 0, nil)
		e.table("UCS", ucsTable, 0, nil)
		e.table("APPID", appidTable, 1, func() {
			e.record("APPID", appidTable, "AcDbRegAppTableRecord", "ACAD")
		})
		e.dimstyles()
		e.table("BLOCK_RECORD", recordTable, 2, e.blockRecords)
	}
	e.tags("0", "ENDSEC")
}

// table writes a table of n records.
func (e *encoder) table(name, handle string, n int, records func()) {
	e.tags("0", "TABLE", "2", name)
	if !e.r12 {
		e.tags("5", handle, "330", "0", "100", "AcDbSymbolTable")
	}
	e.int(70, n)
	if records != nil {
		records()
	}
	e.tags("0", "ENDTAB")
}

// record opens a record of a table and writes its name and flags.
func (e *encoder) record(kind, table, class, name string) {
	e.tag(0, kind)
	if !e.r12 {
		e.tags("5", e.next(), "330", table, "100", "AcDbSymbolTableRecord", "100", class)
	}
	e.tag(2, name)
	e.int(70, 0)
}

// lineType returns the name of the line type of layer i.
func lineType(d draw.Drawing, i int) string {
	if len(d.Layers[i].Dash) == 0 {
		return continuous
	}
	return "DASH" + strconv.Itoa(i+1)
}

func (e *encoder) linetypes(d draw.Drawing) {
	n := 1
	for _, l := range d.Layers {
		if len(l.Dash) > 0 {
			n++
		}
	}
	own := []string{}
	if !e.r12 {
		own = []string{"BYBLOCK", "BYLAYER"}
	}
	e.table("LTYPE", ltypeTable, n+len(own), func() {
		for _, name := range append(own, continuous) {
			e.linetype(name, nil)
		}
		for i, l := range d.Layers {
			if len(l.Dash) > 0 {
				e.linetype(lineType(d, i), l.Dash)
			}
		}
	})
}

// linetype writes a pattern: a dash is positive, a gap negative, and their
// number even.
func (e *encoder) linetype(name string, dash []float64) {
	e.record("LTYPE", ltypeTable, "AcDbLinetypeTableRecord", name)
	if len(dash)%2 == 1 {
		dash = append(append([]float64(nil), dash...), dash...)
	}
	sum := 0.0
	for _, l := range dash {
		sum += l
	}
	e.tag(3, "")
	e.int(72, 'A')
	e.int(73, len(dash))
	e.mm(40, sum)
	for i, l := range dash {
		if i%2 == 1 {
			l = -l
		}
		e.mm(49, l)
		if !e.r12 {
			e.int(74, 0)
		}
	}
}

func (e *encoder) layers(d draw.Drawing) {
	e.table("LAYER", layerTable, len(d.Layers)+1, func() {
		e.layer("0", continuous, 0.25)
		for i, l := range d.Layers {
			e.layer(e.names[i], lineType(d, i), l.LineWidth())
		}
	})
}

func (e *encoder) layer(name, lineType string, weight float64) {
	e.record("LAYER", layerTable, "AcDbLayerTableRecord", name)
	e.int(62, blackOnWhite)
	e.tag(6, lineType)
	if !e.r12 {
		e.int(370, nearestWeight(weight))
	}
}

// nearestWeight returns the nearest of the line weights that the format has,
// in 1/100 mm.
func nearestWeight(mm float64) int {
	best := 0
	for _, w := range [...]int{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211} {
		if math.Abs(float64(w)-mm*100) < math.Abs(float64(best)-mm*100) {
			best = w
		}
	}
	return best
}

func (e *encoder) style() {
	e.record("STYLE", styleTable, "AcDbTextStyleTableRecord", plainStyle)
	e.mm(40, 0)
	e.mm(41, 1)
	e.mm(50, 0)
	e.int(71, 0)
	e.mm(42, 3.5)
	e.tags("3", "txt", "4", "")
}

// viewport writes the view that is shown first: the whole page.
func (e *encoder) viewport(d draw.Drawing) func() {
	return func() {
		b := d.Sheet()
		wide, high := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
		pair := func(code int, x, y float64) {
			e.mm(code, x)
			e.mm(code+10, y)
		}
		e.record("VPORT", vportTable, "AcDbViewportTableRecord", "*ACTIVE")
		pair(10, 0, 0)
		pair(11, 1, 1)
		pair(12, (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2)
		pair(13, 0, 0)
		pair(14, 10, 10)
		pair(15, 10, 10)
		pair(16, 0, 0) // seen from above
		e.mm(36, 1)
		e.point(17, 0, 0)
		e.mm(40, math.Max(high, 1))
		e.mm(41, math.Max(wide, 1)/math.Max(high, 1))
		e.mm(42, 50)
		e.mm(43, 0)
		e.mm(44, 0)
		e.mm(50, 0)
		e.mm(51, 0)
		for _, f := range [...][2]int{{71, 0}, {72, 100}, {73, 1}, {74, 3}, {75, 0}, {76, 0}, {77, 0}, {78, 0}} {
			e.int(f[0], f[1])
		}
	}
}

func (e *encoder) dimstyles() {
	e.tags("0", "TABLE", "2", "DIMSTYLE", "5", dimTable, "330", "0", "100", "AcDbSymbolTable")
	e.int(70, 1)
	e.tag(100, "AcDbDimStyleTable")
	// A dimension style's handle has the code 105, since 5 was taken.
	e.tags("0", "DIMSTYLE", "105", e.next(), "330", dimTable,
		"100", "AcDbSymbolTableRecord", "100", "AcDbDimStyleTableRecord", "2", plainStyle)
	e.int(70, 0)
	e.tags("0", "ENDTAB")
}

// The two blocks that every file has: what is drawn, and a sheet of paper.
var spaces = [...]struct{ name, record, begin, end string }{
	{"*MODEL_SPACE", modelSpace, modelBegin, modelEnd},
	{"*PAPER_SPACE", paperSpace, paperBegin, paperEnd},
}

func (e *encoder) blockRecords() {
	for _, s := range spaces {
		e.tags("0", "BLOCK_RECORD", "5", s.record, "330", recordTable,
			"100", "AcDbSymbolTableRecord", "100", "AcDbBlockTableRecord", "2", s.name, "340", "0")
	}
}

func (e *encoder) blocks() {
	e.tags("0", "SECTION", "2", "BLOCKS")
	for i, s := range spaces {
		e.tags("0", "BLOCK", "5", s.begin, "330", s.record, "100", "AcDbEntity")
		if i == 1 {
			e.int(67, 1)
		}
		e.tags("8", "0", "100", "AcDbBlockBegin", "2", s.name)
		e.int(70, 0)
		e.point(10, 0, 0)
		e.tags("3", s.name, "1", "", "0", "ENDBLK", "5", s.end, "330", s.record, "100", "AcDbEntity")
		if i == 1 {
			e.int(67, 1)
		}
		e.tags("8", "0", "100", "AcDbBlockEnd")
	}
	e.tags("0", "ENDSEC")
}

func (e *encoder) objects() {
	e.tags("0", "SECTION", "2", "OBJECTS",
		"0", "DICTIONARY", "5", rootDict, "330", "0", "100", "AcDbDictionary", "281", "1", "3", "ACAD_GROUP", "350", groupDict,
		"0", "DICTIONARY", "5", groupDict, "330", rootDict, "100", "AcDbDictionary", "281", "1",
		"0", "ENDSEC")
}
