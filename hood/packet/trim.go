package packet

import (
	"example.com/sagitta/arc/say"
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

func trimPages(d hood.Design, in say.Format) []trimPage {
	var out []trimPage
	for _, t := range d.Trim {
		ends := "mitered at both ends"
		if t.Miters == 1 {
			ends = "mitered in front, square at the wall"
		}
		out = append(out, trimPage{t.Name, in.Length(t.Length), ends, say.Saw(max(t.End.Miter, -t.End.Miter)), say.Saw(max(t.End.Bevel, -t.End.Bevel))})
	}
	return out
}

// bandNotes says which edges of a part show.
func bandNotes(p hood.Part, in say.Format) []string {
	var out []string
	for _, e := range p.Edges {
		if e.Band {
			out = append(out, e.Name+" edge shows, "+in.Length(e.Show.Length())+": band it, or seal and fill")
		}
	}
	return out
}
