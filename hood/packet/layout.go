package packet

import (
	"context"
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
func room(d hood.Design, n nested, shop Shop) (gap, margin float64, err error) {
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
		n.parts = append(n.parts, blankOf(p))
	}
	gap, margin, err := room(d, n, o.shop())
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

// blankOf returns what a part takes of its sheet, which is more than its show
// face where a bevel undercuts.
func blankOf(p hood.Part) sheet.Part {
	b := p.Part
	if len(p.Blank.Outer.V) > 0 {
		b.Outline = p.Blank
	}
	return b
}

func (n nested) unplaced(d hood.Design) error {
	var faults hood.Faults
	for _, u := range n.layout.Unplaced {
		p := n.parts[u.Part]
		l, w := p.Size()
		param := "board.sheets"
		if q := d.Parts[u.Part]; (q.Ply > 0 || len(q.Bent) > 0) && (q.Material != d.Spec.Board.Material || q.Thickness != d.Spec.Board.Thickness) {
			param = "bend.ply.sheets"
		}
		faults = append(faults, &arc.ParamError{
			Param: param,
			Value: p.Name + " of " + d.Spec.Format().Size(l, w) + ", " + u.Reason.String(),
			Need:  "sheets of " + p.Material + " " + d.Spec.Format().Thin(p.Thickness) + " that hold every part",
			Err:   hood.ErrPlace,
		})
	}
	if len(faults) == 0 {
		return nil
	}
	return faults
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
