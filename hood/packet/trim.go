package packet

import (
	"strconv"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// A trimRecord is a length of molding. Miter and bevel are those of its mitered
// ends, off square; an end at the wall is square.
type trimRecord struct {
	Name     string `json:"name"`
	Length   float  `json:"length"`
	Miters   int    `json:"miters"`
	MiterDeg float  `json:"miter_deg"`
	BevelDeg float  `json:"bevel_deg"`
}

// A bandRecord is an edge that shows.
type bandRecord struct {
	Edge   string `json:"edge"`
	Length float  `json:"length"`
}

func newTrim(d hood.Design) []trimRecord {
	var out []trimRecord
	for _, t := range d.Trim {
		out = append(out, trimRecord{t.Name, float(t.Length), t.Miters, degrees(t.End.Miter), degrees(t.End.Bevel)})
	}
	return out
}

func newBands(p hood.Part) []bandRecord {
	var out []bandRecord
	for _, e := range p.Edges {
		if e.Band {
			out = append(out, bandRecord{e.Name, float(e.Show.Length())})
		}
	}
	return out
}

type trimPage struct{ Name, Length, Ends, Miter, Bevel string }

func trimPages(d hood.Design, unit arc.Unit) []trimPage {
	var out []trimPage
	for _, t := range d.Trim {
		ends := "mitered at both ends"
		if t.Miters == 1 {
			ends = "mitered in front, square at the wall"
		}
		angle := func(a arc.Angle) string { return strconv.FormatFloat(a.Degrees(), 'f', 2, 64) + "°" }
		out = append(out, trimPage{t.Name, arc.FormatLength(t.Length, unit), ends, angle(max(t.End.Miter, -t.End.Miter)), angle(t.End.Bevel)})
	}
	return out
}

// bandNotes says which edges of a part show.
func bandNotes(p hood.Part, unit arc.Unit) []string {
	var out []string
	for _, e := range p.Edges {
		if e.Band {
			out = append(out, e.Name+" edge shows, "+arc.FormatLength(e.Show.Length(), unit)+": band it, or seal and fill")
		}
	}
	return out
}
