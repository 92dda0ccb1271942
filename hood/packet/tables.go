package packet

import (
	"fmt"
	"reflect"
	"strconv"

	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood"
)

// A kerfTable says where the kerfs of a panel go.
type kerfTable struct {
	Name, Unit, Cut string
	Rows            []kerfRow
}

type kerfRow struct{ Number, At, Turn string }

// kerfRows is how many kerfs one table holds, so that tables stand side by side.
const kerfRows = 16

// kerfTables returns a table for each kerfed part: every place is from one end,
// to what a readout or a stop shows, as rounded steps would add up.
func kerfTables(d hood.Design, in say.Format) []kerfTable {
	var out []kerfTable
	for _, p := range d.Parts {
		if len(p.Kerfs) == 0 {
			continue
		}
		t := kerfTable{Name: p.Name, Unit: in.Unit.String(), Cut: kerfSays(p, in)}
		for i, k := range p.Kerfs {
			if len(t.Rows) == kerfRows { // the next column
				out = append(out, t)
				t.Rows, t.Cut = nil, "on"
			}
			t.Rows = append(t.Rows, kerfRow{strconv.Itoa(i + 1), in.Place(k.At), say.Program(max(k.Turn, -k.Turn))})
		}
		out = append(out, t)
	}
	return out
}

// kerfSays tells how the kerfs of a part are cut.
func kerfSays(p hood.Part, in say.Format) string {
	s := p.Work.Slots[0]
	depth := p.SlotDepth(s)
	return fmt.Sprintf("%d kerfs %s wide, %s deep, %s of web left", len(p.Kerfs), in.Thin(s.Width), in.Thin(depth), in.Thin(p.Thickness-depth))
}

// A seamTable is a seam of the front and a flared side.
type seamTable struct {
	Name, Unit string
	Rows       [][]string
}

func seamTables(d hood.Design, in say.Format) []seamTable {
	var out []seamTable
	type side struct {
		name string
		seam []hood.SeamPoint
	}
	sides := []side{{"left seam", d.Left.Seam}, {"right seam", d.Right.Seam}}
	if reflect.DeepEqual(d.Left, d.Right) {
		sides = []side{{"both seams", d.Right.Seam}}
	}
	for _, f := range sides {
		if len(f.seam) == 0 {
			continue
		}
		t := seamTable{Name: f.name, Unit: in.Unit.String()}
		for _, q := range f.seam {
			back := "none there"
			if q.HasBack {
				back = in.Place(q.XBack)
			}
			t.Rows = append(t.Rows, []string{in.Place(q.Y), in.Place(q.UFront), in.Place(q.USide), in.Place(q.XShow), in.Place(q.ZShow), say.Program(q.Bevel), back})
		}
		out = append(out, t)
	}
	return out
}

// proofSays is the proof in one sentence.
func proofSays(checks []hood.Check, programs []checkPage, in say.Format) string {
	holds, worst := 0, hood.Check{}
	for _, c := range checks {
		if c.OK {
			holds++
		}
		if c.Unit == "mm" && c.Value > worst.Value {
			worst = c
		}
	}
	for _, c := range programs {
		if c.OK {
			holds++
		}
	}
	all := len(checks) + len(programs)
	text := fmt.Sprintf("%d checks hold", holds)
	if holds < all {
		text = fmt.Sprintf("%d of %d checks hold", holds, all)
	}
	if in.Gap(worst.Value) == "closed" {
		return text + ", and every joint is closed."
	}
	return fmt.Sprintf("%s, largest gap %s of %s allowed.", text, in.Thin(worst.Value), in.Thin(worst.Limit))
}
