package packet

import (
	"bytes"
	"errors"
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

// job returns sheet i with its parts as the machine sees them.
func (m *maker) job(i int) cut.Job {
	s := m.n.layout.Sheets[i]
	j := cut.Job{
		Title: fmt.Sprintf("%s, sheet %d", m.d.Spec.Title, i+1),
		Stock: m.n.stock[s.Stock], Placements: s.Placements, Parts: m.n.parts,
	}
	for _, p := range m.d.Parts {
		j.Works = append(j.Works, p.Work)
	}
	return j
}

func sheetName(i int) string { return fmt.Sprintf("sheets/sheet-%d", i+1) }

// program takes the program of sheet i, which was planned, written and read
// back, and cut a simulated sheet. A program that does not cut what is asked, and
// nothing else, is an error.
func (m *maker) program(i int, c cutting) (cut.Program, string) {
	name, p := sheetName(i), c.program
	if c.err != nil {
		m.add(c.err)
		return p, name
	}
	m.rec.Checks = append(m.rec.Checks, sawCheck(name, m.saws(c.job, &p)))
	name = c.files[0].Name
	for _, f := range c.files[1:] {
		name += ", " + f.Name
	}
	rep := c.rep
	m.add(replayFaults(name, c.faults), c.files...)
	m.rec.Checks = append(m.rec.Checks, checkRecord{
		Name: name + ": faults of its replay", Value: float(len(rep.Faults)), OK: len(rep.Faults) == 0,
	})
	m.faces(name, p, rep)
	m.page.Checks = append(m.page.Checks, checkPage{
		name + ": cuts what is asked and nothing else", fmt.Sprintf("%d faults in %d moves", len(rep.Faults), rep.Moves), "0", len(rep.Faults) == 0,
	})
	return p, name
}

// texts writes a program, or one for each cutter, and returns the moves read
// back from the texts alone.
func texts(p cut.Program, name string, o rs274.Options) (files []File, moves []cut.Move, err error) {
	programs := []cut.Program{p}
	if o.PerTool {
		programs = rs274.Split(p)
	}
	for i, q := range programs {
		var b bytes.Buffer
		if err := rs274.Encode(&b, q, o); err != nil {
			return nil, nil, err
		}
		m, _, err := rs274.Read(bytes.NewReader(b.Bytes()), o)
		if err != nil {
			return nil, nil, err
		}
		part := ""
		if len(programs) > 1 {
			part = fmt.Sprintf("-%d", i+1)
		}
		moves = append(moves, m...)
		files = append(files, File{name + part + o.Ext(), b.Bytes()})
	}
	return files, moves, nil
}

// replayFaults says in the words of a spec what a replay found.
func replayFaults(name string, err error) error {
	var found cut.Faults
	if !errors.As(err, &found) {
		return err
	}
	var out hood.Faults
	for _, f := range found {
		out = append(out, &arc.ParamError{Param: "proof: " + name, Value: f.Error(), Need: "a program that cuts what is asked", Err: cut.ErrFaulty})
	}
	return out
}

func asFaults(err error) error {
	var p *arc.ParamError
	if errors.As(err, &p) {
		return hood.Faults{p}
	}
	return err
}

// programFacts returns what a program takes, and what it leaves to the hand.
func programFacts(p cut.Program, s sheet.Sheet, in say.Format) (facts []fact, notes []string) {
	facts = []fact{
		{"sheet used", say.Percent(s.Use, 1)},
		{"machine time, about", number(p.Minutes, 1) + " min"},
		{"length of cut", in.Run(p.CutLength)},
	}
	for _, r := range p.Reaches() {
		t := r.Tool
		notes = append(notes, fmt.Sprintf("T%d: %s, %.0f rev/min, %s, cuts %s deep", t.Number, t.Label(in.Unit), t.Speed, in.Feed(t.Feed), in.Thin(r.Depth)))
		if r.Caution != "" {
			notes = append(notes, fmt.Sprintf("T%d: %s", t.Number, r.Caution))
		}
	}
	switch p.Hold {
	case cut.ByTabs:
		facts = append(facts, fact{"held by", "tabs, " + in.Thin(p.TabWidth) + " wide and " + in.Thin(p.TabHeight) + " high"})
	case cut.BySkin:
		facts = append(facts, fact{"held by", "a skin of " + in.Thin(p.Skin) + ", to be cut by hand"})
	case cut.BySkinAtLast:
		facts = append(facts, fact{"held by", "a skin of " + in.Thin(p.Skin) + ", and by vacuum alone once the last passes cut it"})
	case cut.ByVacuum:
		facts = append(facts, fact{"held by", "vacuum alone: neither tab nor skin"})
	}
	if edges, minutes, stands := p.Stepped(); edges > 0 {
		off := ""
		if stands > 0 {
			off = in.Gap(stands)
		}
		notes = append(notes, cut.StepsLine(edges, minutes, off))
	}
	for _, e := range p.Saw {
		notes = append(notes, fmt.Sprintf("finish by saw: %s, %s (%s)", e.Name, cut.SawLine(e.Side, e.Angle), e.Why))
	}
	for _, r := range p.Rest {
		notes = append(notes, fmt.Sprintf("finish by hand: %s, inside corner of the %s, %s left", r.Name, r.Kind, in.Thin(r.Left)))
	}
	return facts, notes
}

// slenderNotes tells of waste that hangs by less than a tab.
func slenderNotes(r cut.Report, in say.Format) []string {
	var out []string
	for _, f := range r.Slender {
		out = append(out, fmt.Sprintf("waste beside %s, %s of the sheet hangs by less than a tab: look at it before the parts around it are cut", in.Length(f.At.X), in.Length(f.At.Y)))
	}
	return out
}
