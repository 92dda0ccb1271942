package sheet

import (
	"encoding/csv"
	"example.com/sagitta/internal/num"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A Label is what to write on a copy of a part.
type Label struct {
	Part, Copy    int
	Name          string
	Of            int // copies of the part
	Sheet         int // from 1
	Material      string
	Thickness     float64 // mm
	Length, Width float64 // mm, of the part as drawn
}

// Labels returns a label for each placed copy, sheet by sheet. Placements of
// parts that are not in the list have none.
func Labels(parts []Part, l Layout) []Label {
	var out []Label
	for i, s := range l.Sheets {
		for _, pl := range s.Placements {
			if pl.Part < 0 || pl.Part >= len(parts) {
				continue
			}
			p := parts[pl.Part]
			length, width := p.Size()
			out = append(out, Label{pl.Part, pl.Copy, p.Name, p.Copies(), i + 1, p.Material, p.Thickness, length, width})
		}
	}
	return out
}

// WriteCutList writes one record a part, after a header, as comma-separated
// values by RFC 4180 with CRLF line ends. Length is along the part's x axis;
// sheets lists the sheets, numbered from 1, that hold its copies. A text that
// a spreadsheet would take for a formula gets a leading apostrophe. A size that
// is not finite is a [*ParamError], and nothing is written then.
func WriteCutList(w io.Writer, parts []Part, l Layout) error {
	for i, p := range parts {
		length, width := p.Size()
		for _, v := range [4]float64{p.Thickness, length, width, p.Outline.Area()} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return needNotNegative("sheet.WriteCutList", fmt.Sprintf("parts[%d]", i), v, "mm")
			}
		}
	}
	c := csv.NewWriter(w)
	c.UseCRLF = true
	err := c.Write([]string{"part", "quantity", "placed", "material", "thickness_mm",
		"length_mm", "width_mm", "area_mm2", "grain", "sheets", "note"})
	for i := 0; i < len(parts) && err == nil; i++ {
		err = c.Write(record(parts[i], i, l))
	}
	if err != nil {
		return err
	}
	c.Flush()
	return c.Error()
}

func record(p Part, part int, l Layout) []string {
	var sheets []string
	placed := 0
	for i, s := range l.Sheets {
		n := 0
		for _, pl := range s.Placements {
			if pl.Part == part {
				n++
			}
		}
		placed += n
		if n > 0 {
			sheets = append(sheets, strconv.Itoa(i+1))
		}
	}
	length, width := p.Size()
	return []string{text(p.Name), strconv.Itoa(p.Copies()), strconv.Itoa(placed), text(p.Material),
		number(p.Thickness), number(length), number(width), number(p.Outline.Area()), p.Grain.String(), strings.Join(sheets, " "), text(p.Note)}
}

// text guards a cell against being read as a formula (OWASP, CSV injection).
func text(s string) string {
	if s != "" && slices.Contains([]byte("=+-@\t\r"), s[0]) {
		return "'" + s
	}
	return s
}

// number returns v rounded to a thousandth, without trailing zeros.
func number(v float64) string {
	return strconv.FormatFloat(num.Decimals(v, 3), 'f', -1, 64)
}
