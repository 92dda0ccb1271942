package packet

import (
	"context"
	"errors"
	"example.com/sagitta/internal/num"
	"fmt"
	"gonum.org/v1/gonum/spatial/r2"
	"math"
	"slices"
	"time"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood"
	"example.com/sagitta/hood/quote"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
)

// iterations is the search for a layout that is made where no time is asked:
// counted, so that the same spec gives the same packet on every machine.
const iterations = 60

// nested is the parts on their sheets.
type nested struct {
	parts  []sheet.Part
	stock  []sheet.Stock
	layout sheet.Layout
}

// room returns the distances to keep between parts and from the edge of a
// sheet: what the spec asks, and at least what the cutters take beside a part
// and how far their axes go beyond it. A tenth more keeps rounding and
// tolerance out of the neighbor.
//
// With bridges there is room for a tab beside every straight side, between two
// parts and at the edge of the sheet: it takes more sheet, and is asked for where
// a layout leaves nothing to hold a part by.
func room(d hood.Design, n nested, shop Shop, bridges bool) (gap, margin float64, err error) {
	gap, margin = d.Spec.Cut.Gap, d.Spec.Cut.Margin
	for _, stock := range n.stock {
		var j cut.Job
		j.Stock = stock
		for i, p := range n.parts {
			if p.Thickness == stock.Thickness {
				j.Parts = append(j.Parts, p)
				j.Works = append(j.Works, d.Parts[i].Work)
			}
		}
		opt, err := shop.cutters(d.Spec, stock.Thickness)
		if err != nil {
			return 0, 0, err
		}
		gap = math.Max(gap, cut.Clearance(j, opt)+0.1)
		margin = math.Max(margin, cut.Overhang(j, opt)+0.1)
		if bridges {
			between, beside := cut.Room(j, opt)
			gap, margin = math.Max(gap, between+0.1), math.Max(margin, beside+0.1)
		}
	}
	return gap, margin, nil
}

func stockOf(material string, thickness float64, sheets []hood.Sheet, in say.Format) []sheet.Stock {
	out := make([]sheet.Stock, len(sheets))
	for i, s := range sheets {
		out[i] = sheet.Stock{
			Name:     material + " " + in.Thin(thickness) + ", " + in.Size(s.Length, s.Width),
			Material: material, Thickness: thickness, Length: s.Length, Width: s.Width, Count: s.Count, Price: s.Price,
		}
	}
	return out
}

// nest lays the parts out and refuses a design of which any part has no place.
func nest(ctx context.Context, d hood.Design, o Options) (nested, error) {
	return nestWith(ctx, d, o, false)
}

// holdable lays the parts out again, with room for a tab beside every straight
// side, where the program of a sheet had nothing to hold a part by.
func (m *maker) holdable(ctx context.Context, was []cutting) []cutting {
	if !slices.ContainsFunc(was, func(c cutting) bool { return errors.Is(c.err, cut.ErrNoHold) }) {
		return was
	}
	n, err := nestWith(ctx, m.d, m.o, true)
	if err != nil {
		return was
	}
	m.o.say("laid out again, with room for tabs")
	m.n = n
	return m.cuttings(ctx)
}

func nestWith(ctx context.Context, d hood.Design, o Options, bridges bool) (nested, error) {
	var n nested
	s := d.Spec
	n.stock = stockOf(s.Board.Material, s.Board.Thickness, s.Board.Sheets, s.Format())
	backs := stockOf(s.Back.Material, s.Back.Thickness, s.Back.Sheets, s.Format())
	if len(backs) == 0 {
		// Sheets of the board's sizes; what they cost is not known.
		backs = stockOf(s.Back.Material, s.Back.Thickness, s.Board.Sheets, s.Format())
		for i := range backs {
			backs[i].Price = 0
		}
	}
	if s.Back.Material != s.Board.Material || s.Back.Thickness != s.Board.Thickness {
		n.stock = append(n.stock, backs...)
	}
	for _, p := range d.Parts {
		if p.Ply > 0 || len(p.Bent) > 0 {
			n.addStock(p.Part, plySheets(s), s.Format())
		}
		n.parts = append(n.parts, p.OnSheet())
	}
	gap, margin, err := room(d, n, o.shop(), bridges)
	if err != nil {
		return n, err
	}
	opt := sheet.Options{Gap: gap, Margin: margin, Seed: o.Seed, Time: o.Budget, Workers: 2}
	if o.Budget == 0 {
		opt.Iterations = iterations
	}
	if n.layout, err = sheet.Nest(ctx, n.parts, n.stock, opt); err != nil {
		return n, err
	}
	for _, s := range n.layout.Sheets { // as parts are, for the same bytes on every processor
		for i, p := range s.Placements {
			s.Placements[i].At = r2.Vec{X: num.Decimals(p.At.X, 7), Y: num.Decimals(p.At.Y, 7)}
		}
		for i, o := range s.Offcuts { // what is left, by a search that ends a little sooner or later
			s.Offcuts[i].At = r2.Vec{X: num.Decimals(o.At.X, 2), Y: num.Decimals(o.At.Y, 2)}
			s.Offcuts[i].Stock.Length, s.Offcuts[i].Stock.Width = num.Decimals(o.Stock.Length, 2), num.Decimals(o.Stock.Width, 2)
		}
	}
	return n, n.unplaced(d)
}

// plySheets returns the sheets that plies come in: those of the spec, or sheets
// of the board's sizes, of unknown price.
func plySheets(s hood.Spec) []hood.Sheet {
	if len(s.Bend.Ply.Sheets) > 0 {
		return s.Bend.Ply.Sheets
	}
	out := slices.Clone(s.Board.Sheets)
	for i := range out {
		out[i].Price = 0
	}
	return out
}

// addStock adds sheets of a part's material and thickness where there are none.
func (n *nested) addStock(p sheet.Part, sheets []hood.Sheet, in say.Format) {
	for _, s := range n.stock {
		if s.Material == p.Material && s.Thickness == p.Thickness {
			return
		}
	}
	n.stock = append(n.stock, stockOf(p.Material, p.Thickness, sheets, in)...)
}

// unplaced returns a fault for each list of sheets that leaves parts out: how
// many, why the first, and what would hold the largest.
func (n nested) unplaced(d hood.Design) error {
	var faults hood.Faults
	in := d.Spec.Format()
	type lack struct {
		param, material string
		thickness       float64
	}
	seen := map[lack]bool{}
	for i, u := range n.layout.Unplaced {
		of := func(part int) lack {
			p := n.parts[part]
			return lack{sheetsOf(d, d.Parts[part]), p.Material, p.Thickness}
		}
		l := of(u.Part)
		if seen[l] {
			continue
		}
		seen[l] = true
		count, long, wide := 0, 0.0, 0.0
		for _, v := range n.layout.Unplaced[i:] {
			if of(v.Part) == l {
				a, b := n.parts[v.Part].Size()
				count, long, wide = count+1, max(long, max(a, b)), max(wide, min(a, b))
			}
		}
		faults = append(faults, &arc.ParamError{
			Param: l.param,
			Value: fmt.Sprintf("%s without a place, first %s: %s", plural(count, "part"), n.parts[u.Part].Name, u.Reason),
			Need: "sheets of " + l.material + " " + in.Thin(l.thickness) + " that hold every part, the largest " + in.Size(long, wide) +
				" and cut.margin around it",
			Err: hood.ErrPlace,
		})
	}
	if len(faults) == 0 {
		return nil
	}
	return faults
}

// sheetsOf names the list of sheets that a part comes from.
func sheetsOf(d hood.Design, p hood.Part) string {
	s := d.Spec
	own := p.Material != s.Board.Material || p.Thickness != s.Board.Thickness
	switch {
	case own && (p.Ply > 0 || len(p.Bent) > 0) && len(s.Bend.Ply.Sheets) > 0:
		return "bend.ply.sheets"
	case own && p.Kind == hood.KindBack && len(s.Back.Sheets) > 0:
		return "back.sheets"
	}
	return "board.sheets"
}

// checkCutters asks for cutters that make the kerfs and enter the openings, before
// anything is laid out.
func checkCutters(d hood.Design, shop Shop) error {
	faults := narrowOpenings(d)
	if err := checkKerfs(d, shop); err != nil {
		var more hood.Faults
		if !errors.As(err, &more) {
			return err
		}
		faults = append(faults, more...)
	}
	if len(faults) == 0 {
		return nil
	}
	return faults
}

// narrowOpenings returns a fault for each opening of the back that the cutter for
// outlines does not enter.
func narrowOpenings(d hood.Design) hood.Faults {
	var out hood.Faults
	in, tool := d.Spec.Format(), d.Spec.Cut.Tool
	for i, o := range d.Spec.Back.Openings {
		field, v := "diameter", o.Diameter
		if o.Shape != "circle" {
			if field, v = "width", o.Width; o.Height < v {
				field, v = "height", o.Height
			}
		}
		if v >= tool*1.01 {
			continue
		}
		out = append(out, &arc.ParamError{
			Param: fmt.Sprintf("back.openings[%d].%s", i, field), Value: in.Value(v), Unit: in.Unit.String(),
			Need: "at least " + in.Up(tool*1.01) + ", for cut.tool to go round in it, or a smaller cut.tool; or drill it by hand and leave it out",
			Err:  cut.ErrNoTool,
		})
	}
	return out
}

// checkKerfs asks for a cutter that makes the kerfs.
func checkKerfs(d hood.Design, shop Shop) error {
	in := d.Spec.Format()
	for _, p := range d.Parts {
		if len(p.Kerfs) == 0 {
			continue
		}
		o, err := shop.cutters(d.Spec, p.Thickness)
		if err != nil {
			return err
		}
		s := p.Work.Slots[0]
		s.Depth = p.SlotDepth(s)
		least, narrowest := false, math.Inf(1)
		for _, t := range o.Tools {
			if !t.V() && t.Diameter < narrowest && (t.MaxDepth == 0 || t.MaxDepth >= s.Depth) {
				narrowest = t.Diameter
			}
			least = least || !t.V() && t.Diameter <= s.Width+0.01 && (t.MaxDepth == 0 || t.MaxDepth >= s.Depth)
		}
		if least {
			continue
		}
		need := "an end mill of the shop file no wider, that reaches " + in.Up(s.Depth)
		if !math.IsInf(narrowest, 1) {
			need = "at least " + in.Up(narrowest) + ", the narrowest end mill that reaches " + in.Up(s.Depth) + ", or a narrower one in the shop file"
		}
		return hood.Faults{{Param: "bend.kerf_width", Value: in.Value(s.Width), Unit: in.Unit.String(), Need: need, Err: cut.ErrNoTool}}
	}
	return nil
}

// Options say how a packet is made. The zero Options are those of the example
// command without flags.
type Options struct {
	Unit   arc.Unit      // of what people read; the zero Unit is mm
	Seed   uint64        // of the search for a layout
	Shop   *Shop         // the shop's cutters, habits and dialect; nil means [DefaultShop]
	Rates  *quote.Rates  // what the shop pays and takes, for a quote; nil means no quote
	Budget time.Duration // of that search; 0 means a fixed number of steps, so that the packet repeats
	// Progress is called as each step begins, with words for it; nil means not.
	Progress func(step string)
}

// say tells of a step that begins.
func (o Options) say(format string, args ...any) {
	if o.Progress != nil {
		o.Progress(fmt.Sprintf(format, args...))
	}
}
