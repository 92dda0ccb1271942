package sheet

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	drawing "example.com/sagitta/arc/draw"
)

// WriteCuts writes one record a cut, after a header, as comma-separated values by
// RFC 4180 with CRLF line ends, in the sequence in which they are made: the sheets
// that are cut at once, numbered from 1, the number of the cut, the stage, whether
// the piece is turned for it, the direction, where it runs, and the width to which
// the fence is set. A layout without Stacks is written sheet by sheet. A number that
// is not finite is a [*ParamError], and nothing is written then.
func WriteCuts(w io.Writer, l SawLayout) error {
	records := [][]string{{"sheets", "cut", "stage", "turn", "along", "at_mm", "from_mm", "to_mm", "width_mm"}}
	for _, st := range l.stacks() {
		names := make([]string, len(st))
		for k, i := range st {
			names[k] = strconv.Itoa(i + 1)
		}
		for k, c := range l.Cuts[st[0]] {
			for _, v := range [4]float64{c.At, c.From, c.To, c.Width} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					return &ParamError{Func: "sheet.WriteCuts", Param: fmt.Sprintf("l.Cuts[%d][%d]", st[0], k), Value: v, Unit: "mm", Need: "a finite number", Err: arc.ErrNotFinite}
				}
			}
			records = append(records, []string{strings.Join(names, " "), strconv.Itoa(k + 1), strconv.Itoa(c.Stage), yesNo(c.Turn), c.along(),
				number(c.At), number(c.From), number(c.To), number(c.Width)})
		}
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return out.WriteAll(records)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func (c SawCut) along() string {
	if c.AlongX {
		return "length"
	}
	return "width"
}

// stacks returns the stacks, one a sheet where there are none, of sheets that
// have cuts.
func (l SawLayout) stacks() (out [][]int) {
	for _, st := range l.Stacks {
		if len(st) > 0 && st[0] >= 0 && st[0] < len(l.Cuts) {
			out = append(out, st)
		}
	}
	for i := range l.Cuts {
		if len(l.Stacks) == 0 {
			out = append(out, []int{i})
		}
	}
	return out
}

// DrawCuts returns a drawing of the cuts of a sheet, in its coordinates: the sheet,
// its parts with their names, and every cut as a line with its number, those for
// which the piece is turned in a layer of their own. It is a [*ParamError] if there
// is no such sheet, or it names parts or stock that are not there.
func DrawCuts(parts []Part, stock []Stock, l SawLayout, sheet int) ([]drawing.Layer, error) {
	const fn = "sheet.DrawCuts"
	if sheet < 0 || sheet >= len(l.Sheets) || sheet >= len(l.Cuts) {
		return nil, &ParamError{Func: fn, Param: "sheet", Value: sheet, Need: fmt.Sprintf("0 to %d", min(len(l.Sheets), len(l.Cuts))-1), Err: arc.ErrRange}
	}
	s := l.Sheets[sheet]
	if s.Stock < 0 || s.Stock >= len(stock) {
		return nil, &ParamError{Func: fn, Param: fmt.Sprintf("l.Sheets[%d].Stock", sheet), Value: s.Stock, Need: "an index of stock", Err: arc.ErrRange}
	}
	board := drawing.Layer{Name: "sheet", Weight: 0.5, Paths: stock[s.Stock].Shape().Loops()}
	pieces := drawing.Layer{Name: "parts"}
	for i, p := range s.Placements {
		if p.Part < 0 || p.Part >= len(parts) || !finite(p) {
			return nil, &ParamError{Func: fn, Param: fmt.Sprintf("l.Sheets[%d].Placements[%d]", sheet, i), Value: p.Part, Need: "a part of the list, in place", Err: arc.ErrRange}
		}
		g := parts[p.Part].Outline.Transform(p.Motion())
		pieces.Paths = append(pieces.Paths, g.Loops()...)
		b := g.Bounds()
		pieces.Texts = append(pieces.Texts, drawing.Text{At: r2.Scale(0.5, r2.Add(b.Min, b.Max)), Text: parts[p.Part].Name, Height: textHeight, Align: drawing.Middle})
	}
	cuts, turned := drawing.Layer{Name: "cuts", Dash: []float64{6, 2}}, drawing.Layer{Name: "cuts-turned", Dash: []float64{2, 2}}
	for i, c := range l.Cuts[sheet] {
		into := &cuts
		if c.Turn {
			into = &turned
		}
		a, b := c.ends()
		into.Paths = append(into.Paths, arc.Path{V: []arc.Vertex{{P: a}, {P: b}}})
		into.Texts = append(into.Texts, drawing.Text{At: r2.Add(a, r2.Scale(0.5, r2.Sub(b, a))), Text: strconv.Itoa(i + 1), Height: textHeight, Align: drawing.Middle})
	}
	return []drawing.Layer{board, pieces, cuts, turned}, nil
}

const textHeight = 18 // mm on the sheet

// ends returns where a cut begins and ends.
func (c SawCut) ends() (a, b r2.Vec) {
	if c.AlongX {
		return r2.Vec{X: c.From, Y: c.At}, r2.Vec{X: c.To, Y: c.At}
	}
	return r2.Vec{X: c.At, Y: c.From}, r2.Vec{X: c.At, Y: c.To}
}
