package packet

import (
	"bytes"
	"context"
	"fmt"

	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
)

// Make builds the hood, lays its parts on sheets, writes and proves the
// programs, and returns every file of the packet, by name, with packet.json
// first. The error is [hood.Faults], or that of ctx.
func Make(ctx context.Context, s hood.Spec, o Options) ([]File, error) {
	o.say("building and proving the hood")
	s.Units = o.Unit.String()
	d, err := hood.Build(s)
	if err != nil {
		return nil, err
	}
	o.say("laying %d kinds of parts on sheets", len(d.Parts))
	ways, err := decide(&d, o.shop())
	if err != nil {
		return nil, asFaults(err)
	}
	if err := checkCutters(d, o.shop()); err != nil {
		return nil, err
	}
	n, err := nest(ctx, d, o)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m := maker{d: d, n: n, o: o, in: d.Spec.Format(), rec: newRecord(d)}
	m.rec.setWays(ways)
	m.sheets(ctx)
	m.parts()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	o.say("drawing the model")
	m.pictures()
	m.cutList()
	m.quote()
	m.report()
	m.record()
	if m.err != nil {
		return nil, m.err
	}
	return m.files, nil
}

// A maker gathers the files of a packet and keeps the first error.
type maker struct {
	d     hood.Design
	n     nested
	o     Options
	in    say.Format // of all that people read
	rec   record
	page  page
	files []File
	err   error
}

func (m *maker) add(err error, f ...File) {
	if m.err == nil {
		m.err = err
		m.files = append(m.files, f...)
	}
}

func (m *maker) parts() {
	for _, p := range m.d.Parts {
		f, err := partFiles(p, m.in)
		m.add(err, f...)
	}
	f, err := bench{m.in, len(m.d.Parts)}.file(m.d.Spec.Title, m.d.Parts)
	m.add(err, f)
	m.page.Parts = partPages(m.d, m.in)
}

func (m *maker) sheets(ctx context.Context) {
	cuttings := m.holdable(ctx, m.cuttings(ctx))
	for i, s := range m.n.layout.Sheets {
		dr, leaders := sheetDrawing(m.d, m.n, i, m.in)
		f, err := sheetFiles(dr, i)
		m.add(err, f...)
		fig, err := inline(dr)
		m.add(err)
		p, name := m.program(i, cuttings[i])
		facts, notes := programFacts(p, s, m.in)
		notes = append(notes, slenderNotes(cuttings[i].rep, m.in)...)
		m.page.Sheets = append(m.page.Sheets, sheetPage{figure: fig, Program: name, Leaders: leaders, Facts: facts, Tools: notes})
		rec := m.sheetRecord(s)
		rec.Program, rec.Minutes = name, float(p.Minutes)
		m.rec.Sheets = append(m.rec.Sheets, rec)
	}
	m.rec.Cost = float(m.n.layout.Cost)
}

func (m *maker) sheetRecord(s sheet.Sheet) sheetRecord {
	stock := m.n.stock[s.Stock]
	r := sheetRecord{
		Material: stock.Material, Thickness: float(stock.Thickness),
		Length: float(stock.Length), Width: float(stock.Width), Used: float(s.Use),
	}
	for _, p := range s.Placements {
		r.Placements = append(r.Placements, placementRecord{
			Part: m.d.Parts[p.Part].Name, X: float(p.At.X), Y: float(p.At.Y), RotateDeg: degrees(p.Rotate),
		})
	}
	return r
}

func (m *maker) pictures() {
	solids, err := m.d.Model()
	m.add(err)
	if m.err != nil {
		return
	}
	png, err := picture(solids)
	m.add(err)
	m.page.Picture = dataURL(png)
	for _, v := range views(m.d, solids, m.in) {
		f, err := v.file()
		m.add(err, f)
		fig, err := inline(v.drawing)
		m.add(err)
		m.page.Views = append(m.page.Views, fig)
		if v.name != "section" { // which speaks of what is inside
			m.page.Overall = append(m.page.Overall, fig)
		}
	}
	m.model(solids)
}

func (m *maker) cutList() {
	var b bytes.Buffer
	err := sheet.WriteCutList(&b, m.n.parts, m.n.layout)
	m.add(err, File{"cutlist.csv", b.Bytes()})
}

func (m *maker) report() {
	s := m.d.Spec
	length := func(mm float64) string { return m.in.Length(mm) }
	p := &m.page
	p.Title = s.Title
	if p.Title == "" {
		p.Title = "Hood surround"
	}
	p.Client = m.clientFacts()
	p.Facts = append([]fact{
		{"depth at the neck", length(s.Neck.Depth)}, {"sheets", fmt.Sprint(len(m.n.layout.Sheets))},
		{"sheet area used", say.Percent(m.n.layout.Use, 1)},
	}, m.costFacts()...)
	p.Steps = m.rec.Steps
	p.Moldings = trimPages(m.d, m.in)
	p.Facts = append(p.Facts, m.hang()...)
	p.Curves = curveFacts("Front", m.d.Front, m.in)
	p.Curves = append(p.Curves, sideFacts(m.d, m.in)...)
	p.Curves = append(p.Curves, offFacts(m.d, m.in)...)
	p.Kerfs, p.Seams = kerfTables(m.d, m.in), seamTables(m.d, m.in)
	p.Proof = proofSays(m.d.Checks, p.Checks, m.in)
	p.Checks, p.Cautions = append(checkPages(m.d.Checks, m.in), p.Checks...), m.d.Cautions
	data, err := p.encode()
	m.add(err, File{"report.html", data})
}

// clientFacts returns what a client agrees to.
func (m *maker) clientFacts() []fact {
	s, length := m.d.Spec, m.in.Length
	out := []fact{{"width", length(s.Width)}, {"height", length(s.Height + s.Chimney.Height)}, {"depth", length(s.Depth)}}
	if s.Skirt > 0 {
		out = append(out, fact{"plumb band at the bottom", length(s.Skirt)})
	}
	if s.Chimney.Height > 0 {
		out = append(out, fact{"of the height, chimney", length(s.Chimney.Height)})
	}
	distance := "not known: to be measured"
	if s.Cooktop.Distance > 0 {
		distance = length(s.Cooktop.Distance)
	}
	out = append(out, fact{"above the cooktop", distance},
		fact{"front, sides and deck", s.Board.Material + ", " + m.in.Thin(s.Board.Thickness)},
		fact{"back", s.Back.Material + ", " + m.in.Thin(s.Back.Thickness)})
	if s.Liner.Length > 0 {
		out = append(out, fact{"opening for the insert", m.in.Size(s.Liner.Length, s.Liner.Width)})
	}
	if s.Duct.Diameter > 0 {
		out = append(out, fact{"opening for the duct", length(s.Duct.Diameter)})
	}
	return append(out, fact{"mass of the wood", m.in.Mass(m.d.Mass)})
}

// costFacts tells what the sheets cost that have a price, and how many have
// none, apart.
func (m *maker) costFacts() []fact {
	priced, unpriced := 0, 0
	for _, s := range m.n.layout.Sheets {
		if m.n.stock[s.Stock].Price > 0 {
			priced++
		} else {
			unpriced++
		}
	}
	var out []fact
	if priced > 0 {
		out = append(out, fact{"cost of the " + plural(priced, "sheet") + " with a price", number(m.n.layout.Cost, 2)})
	}
	if unpriced > 0 {
		out = append(out, fact{"sheets without a price, in no cost", fmt.Sprint(unpriced)})
	}
	return out
}

// hang returns what whoever hangs the hood has to know, and records it.
func (m *maker) hang() []fact {
	h, err := m.d.Hang()
	if m.add(err); err != nil {
		return nil
	}
	m.rec.Hang = &hangRecord{
		MassKg: float(h.Mass), Center: [3]float{float(h.Center.X), float(h.Center.Y), float(h.Center.Z)},
		LoadN: float(h.Load), PullN: float(h.Pull), Heaviest: h.Heaviest, LiftKg: float(h.Lift), Passes: h.Passes,
	}
	facts := []fact{
		{"mass that hangs, without liner and blower", m.in.Mass(h.Mass)},
		{"heaviest part", h.Heaviest + ", " + m.in.Mass(h.Lift)},
		{"center of gravity out of the wall", m.in.Length(h.Center.Z)},
	}
	if h.Cleat > 0 {
		facts = append(facts, fact{"pull at the cleat", m.in.Force(h.Pull)})
	}
	return facts
}

// record writes packet.json, which lists every file, itself included.
func (m *maker) record() {
	if m.err != nil {
		return
	}
	m.rec.Files = []string{"packet.json"}
	for _, f := range m.files {
		m.rec.Files = append(m.rec.Files, f.Name)
	}
	data, err := m.rec.encode()
	m.add(err)
	m.files = append([]File{{"packet.json", data}}, m.files...)
}
