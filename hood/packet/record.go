package packet

import (
	"bytes"
	"encoding/json"
	"example.com/sagitta/internal/num"
	"reflect"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
)

// The record is packet.json: the whole result in numbers, in mm, kg and
// degrees, for programs that read on.
type record struct {
	Version   int             `json:"version"`
	Title     string          `json:"title"`
	Front     curveRecord     `json:"front"`
	Side      *curveRecord    `json:"side,omitempty"`
	Seam      []seamRecord    `json:"seam,omitempty"`
	Left      *curveRecord    `json:"side_left,omitempty"` // these four only where the sides differ
	Right     *curveRecord    `json:"side_right,omitempty"`
	LeftSeam  []seamRecord    `json:"seam_left,omitempty"`
	RightSeam []seamRecord    `json:"seam_right,omitempty"`
	Parts     []partRecord    `json:"parts"`
	Sheets    []sheetRecord   `json:"sheets"`
	Checks    []checkRecord   `json:"checks"`
	Cautions  []cautionRecord `json:"cautions"`
	MassKg    float           `json:"mass_kg"`
	Hang      *hangRecord     `json:"hang,omitempty"`
	Steps     []string        `json:"steps,omitempty"`
	Moldings  []trimRecord    `json:"moldings,omitempty"`
	Off       []offRecord     `json:"off,omitempty"`
	Cost      float           `json:"cost"`
	Files     []string        `json:"files"`
}

type curveRecord struct {
	Chord      float         `json:"chord"`
	Sag        float         `json:"sag"`
	Radius     float         `json:"radius"` // 0 where straight
	TurnDeg    float         `json:"turn_deg"`
	LeanDeg    float         `json:"lean_deg"`
	ShowLength float         `json:"show_length"`
	FlatLength float         `json:"flat_length"`
	SkirtBevel float         `json:"skirt_bevel_deg"`
	Kerfs      kerfRecord    `json:"kerfs"`
	Method     string        `json:"method,omitempty"` // where not kerfed or straight
	Plies      *plyRecord    `json:"plies,omitempty"`
	Arcs       []curveRecord `json:"arcs,omitempty"`
}

// A seamRecord is a point of the seam of front and flared side. Lengths u run
// from the lower show edge of the sweep, on the show face before kerfing. The
// last two are left out where the backs do not meet at that height.
type seamRecord struct {
	Y          float  `json:"y"`
	XShow      float  `json:"x_show"`
	ZShow      float  `json:"z_show"`
	UFront     float  `json:"u_front"`
	USide      float  `json:"u_side"`
	BevelDeg   float  `json:"bevel_deg"`
	XBack      *float `json:"x_back,omitempty"`
	UFrontBack *float `json:"u_front_back,omitempty"`
}

type kerfRecord struct {
	Count   int   `json:"count"`
	Pitch   float `json:"pitch"`
	First   float `json:"first"`
	TurnDeg float `json:"turn_deg"`
	Facet   float `json:"facet"`
	Strain  float `json:"strain"`
	Mouth   float `json:"mouth"`
}

type partRecord struct {
	Name      string         `json:"name"`
	Qty       int            `json:"qty"`
	Material  string         `json:"material"`
	Thickness float          `json:"thickness"`
	Outline   []vertex       `json:"outline"`
	Holes     [][]vertex     `json:"holes"`
	Area      float          `json:"area"`
	MassKg    float          `json:"mass_kg"`
	Label     string         `json:"label,omitempty"`
	Notes     []string       `json:"notes,omitempty"`
	Saw       []sawRecord    `json:"finish_by_saw,omitempty"`
	Kerfs     []kerfAt       `json:"kerfs,omitempty"`
	Pockets   []areaRecord   `json:"pockets,omitempty"`
	Bevels    []edgeRecord   `json:"bevels,omitempty"`
	Bands     []bandRecord   `json:"edges_that_show,omitempty"`
	Bent      []bentRecord   `json:"bent,omitempty"`
	Ply       bool           `json:"ply,omitempty"`     // outline as cut; trimmed after glue-up
	Trimmed   []finishRecord `json:"trimmed,omitempty"` // where a ply's faces end after that
	Form      bool           `json:"form,omitempty"`    // of a bending form, not of the hood
}

// A vertex is x, y, k: k = tan(turn/4) of the segment that leaves it, 0 for a line.
type vertex [3]float64

// MarshalJSON keeps more digits, which areas feel: parts are rounded as they are
// made.
func (v vertex) MarshalJSON() ([]byte, error) {
	return json.Marshal([3]float64{num.Decimals(v[0], 10), num.Decimals(v[1], 10), num.Decimals(v[2], 13)})
}

type sawRecord struct {
	Edge     string `json:"edge"`
	AngleDeg float  `json:"angle_deg"`
	Sense    string `json:"sense"` // which way it leans
	Why      string `json:"why"`   // no cutter makes it
}

type kerfAt struct {
	At      float `json:"at"`
	TurnDeg float `json:"turn_deg"`
	Mouth   float `json:"mouth"`
}

type areaRecord struct {
	Outline []vertex `json:"outline"`
	Depth   float    `json:"depth"`
}

type edgeRecord struct {
	Edge     []vertex `json:"edge"`
	AngleDeg float    `json:"angle_deg"`
	Way      string   `json:"way,omitempty"`     // V cutter, steps or saw
	Minutes  float    `json:"minutes,omitempty"` // at the machine, for one copy
	Scallop  float    `json:"scallop,omitempty"` // of steps
	Back     []vertex `json:"back,omitempty"`    // of a bevel that changes: its edge on the back face, joined by level lines
}

type sheetRecord struct {
	Material   string            `json:"material"`
	Thickness  float             `json:"thickness"`
	Length     float             `json:"length"`
	Width      float             `json:"width"`
	Used       float             `json:"used"`
	Placements []placementRecord `json:"placements"`
	Program    string            `json:"program"`
	Minutes    float             `json:"minutes"`
}

type placementRecord struct {
	Part      string `json:"part"`
	X         float  `json:"x"`
	Y         float  `json:"y"`
	RotateDeg float  `json:"rotate_deg"`
}

type hangRecord struct {
	MassKg   float    `json:"mass_kg"`
	Center   [3]float `json:"center"` // of gravity: right of the middle, up, out of the wall
	LoadN    float    `json:"load_n"`
	PullN    float    `json:"pull_n"`
	Heaviest string   `json:"heaviest"`
	LiftKg   float    `json:"lift_kg"`
	Passes   bool     `json:"passes_doorway"`
}

type checkRecord struct {
	Name  string `json:"name"`
	Value float  `json:"value"`
	Limit float  `json:"limit"`
	Unit  string `json:"unit"`
	OK    bool   `json:"ok"`
}

type cautionRecord struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// A float is written in eleven digits, at most eight of them decimals, so that
// the last bits, which differ between processors, do not reach the file, and no
// -0 does.
type float float64

func (f float) MarshalJSON() ([]byte, error) {
	return json.Marshal(num.Digits(float64(f), 11, 8))
}

// stepTexts returns the order of work in words.
func stepTexts(d hood.Design) []string {
	var out []string
	for _, s := range d.Steps() {
		out = append(out, s.Text)
	}
	return out
}

func newRecord(d hood.Design) record {
	r := record{
		Version: hood.Version, Title: d.Spec.Title, Front: newCurve(d.Front), MassKg: float(d.Mass),
		Steps: stepTexts(d), Moldings: newTrim(d), Off: off(d), Checks: []checkRecord{}, Cautions: []cautionRecord{}, Sheets: []sheetRecord{},
	}
	one := d.Right
	if one.Curve.Chord == 0 { // plumb
		one = d.Left
	}
	r.Side, r.Seam = newFlare(one)
	if !reflect.DeepEqual(d.Left, d.Right) {
		r.Left, r.LeftSeam = newFlare(d.Left)
		r.Right, r.RightSeam = newFlare(d.Right)
	}
	for _, p := range d.Parts {
		r.Parts = append(r.Parts, newPart(p))
	}
	for _, c := range d.Checks {
		r.Checks = append(r.Checks, checkRecord{c.Name, float(c.Value), float(c.Limit), c.Unit, c.OK})
	}
	for _, c := range d.Cautions {
		r.Cautions = append(r.Cautions, cautionRecord{c.Text, c.Source})
	}
	return r
}

// newFlare records a flared side; of a plumb one there is nothing to say.
func newFlare(f hood.Flare) (*curveRecord, []seamRecord) {
	if f.Curve.Chord == 0 {
		return nil, nil
	}
	side := newCurve(f.Curve)
	var seam []seamRecord
	for _, q := range f.Seam {
		seam = append(seam, newSeam(q))
	}
	return &side, seam
}

func newSeam(q hood.SeamPoint) seamRecord {
	r := seamRecord{
		Y: float(q.Y), XShow: float(q.XShow), ZShow: float(q.ZShow),
		UFront: float(q.UFront), USide: float(q.USide), BevelDeg: degrees(q.Bevel),
	}
	if q.HasBack {
		x, u := float(q.XBack), float(q.UFrontBack)
		r.XBack, r.UFrontBack = &x, &u
	}
	return r
}

func newCurve(c hood.Curve) curveRecord {
	r := curveRecord{
		Chord: float(c.Chord), Sag: float(c.Sag), Radius: float(c.Radius),
		TurnDeg: degrees(c.Turn), LeanDeg: degrees(c.Lean),
		ShowLength: float(c.ShowLength), FlatLength: float(c.FlatLength), SkirtBevel: degrees(c.SkirtBevel),
		Kerfs: kerfRecord{
			Count: c.Kerfs.Count, Pitch: float(c.Kerfs.Pitch), First: float(c.Kerfs.First), TurnDeg: degrees(c.Kerfs.Turn),
			Facet: float(c.Kerfs.Facet), Strain: float(c.Kerfs.Strain), Mouth: float(c.Kerfs.Mouth),
		},
	}
	r.setPlies(c.Plies)
	for _, a := range c.Arcs {
		r.Arcs = append(r.Arcs, newCurve(a))
	}
	return r
}

func newPart(p hood.Part) partRecord {
	r := partRecord{
		Name: p.Name, Qty: p.Copies(), Material: p.Material, Thickness: float(p.Thickness),
		Outline: vertices(p.Outline.Outer), Holes: [][]vertex{}, Area: float(p.Outline.Area()),
		MassKg: float(p.Mass), Label: p.Label, Notes: p.Notes, Bands: newBands(p),
	}
	for _, h := range p.Outline.Holes {
		r.Holes = append(r.Holes, vertices(h))
	}
	for _, e := range p.Edges {
		if e.Saw {
			r.Saw = append(r.Saw, sawRecord{e.Name, degrees(e.Bevel), cut.Sense(e.Bevel), e.Why})
		}
	}
	for _, k := range p.Kerfs {
		r.Kerfs = append(r.Kerfs, kerfAt{float(k.At), degrees(k.Turn), float(k.Mouth)})
	}
	r.setBent(p)
	for _, k := range p.Work.Pockets {
		r.Pockets = append(r.Pockets, areaRecord{vertices(k.Area.Outer), float(k.Depth)})
	}
	for _, b := range p.Work.Bevels {
		e := edgeRecord{Edge: vertices(b.Edge), AngleDeg: degrees(b.Angle)}
		if len(b.Back.V) > 0 {
			e.Back = vertices(b.Back)
		}
		r.Bevels = append(r.Bevels, e)
	}
	return r
}

func degrees(a arc.Angle) float { return float(a.Degrees()) }

// leastSag is half the last digit of the drawings and programs, mm: the sag
// below which the record has a line too.
const leastSag = 5e-5

func vertices(p arc.Path) []vertex {
	p = p.Straightened(leastSag)
	out := make([]vertex, len(p.V))
	for i, v := range p.V {
		out[i] = vertex{v.P.X, v.P.Y, v.K}
	}
	return out
}

func (r record) encode() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(r)
	return b.Bytes(), err
}
