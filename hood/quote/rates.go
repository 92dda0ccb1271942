package quote

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/spec"
)

// Rates are what a shop pays and takes. Prices are in Currency; a price or a
// number of minutes of 0 is not known, and what would need it is not priced.
type Rates struct {
	Version  int     `json:"version" doc:"of the meaning of these keys: 1"`
	Title    string  `json:"title" most:"200" doc:"name of the table, for people; may be empty"`
	Example  bool    `json:"example" doc:"true where the figures are invented; every quote made from them says so"`
	Currency string  `json:"currency" most:"12" doc:"label of the amounts, such as USD"`
	Machine  float64 `json:"machine" doc:"price of an hour of the router, with who runs it"`
	Labor    float64 `json:"labor" doc:"price of an hour of labor"`
	Work     Work    `json:"work" doc:"minutes of labor for each piece of work"`
	Use      Use     `json:"use" doc:"prices of what is used up"`
	Molding  Molding `json:"molding" doc:"moldings as they are bought"`
	Extras   []Extra `json:"extras" most:"100" doc:"whatever else a job takes: hardware, delivery, what others do"`
	Markup   float64 `json:"markup" doc:"share of the cost added to it, such as 0.25; 0 means none"`
	Tax      float64 `json:"tax" doc:"share of cost and markup added to them, such as 0.07; 0 means none"`
}

// Work is minutes of labor for each piece of work.
type Work struct {
	Job      float64 `json:"job" doc:"for the job as a whole: reading, checking, a test strip"`
	Sheet    float64 `json:"sheet" doc:"for each sheet: fetched, held down, labeled, cleared"`
	Part     float64 `json:"part" doc:"for each part: tabs cut, edges cleaned"`
	SawEdge  float64 `json:"saw_edge" doc:"for each edge left to the saw"`
	Band     float64 `json:"band" doc:"for each meter of edge that shows"`
	Kerfed   float64 `json:"kerfed" doc:"for each kerfed panel: bent, filled, held till dry"`
	Ply      float64 `json:"ply" doc:"for each ply: spread, stacked, pressed"`
	Assembly float64 `json:"assembly" doc:"for each part of the hood: fitted, glued, clamped"`
	Miter    float64 `json:"miter" doc:"for each mitered end of a molding"`
	Finish   float64 `json:"finish" doc:"for each square meter and coat: sanded and coated"`
}

// Use is prices of what is used up.
type Use struct {
	Glue   float64 `json:"glue" doc:"price of glue for a square meter of joint"`
	Fill   float64 `json:"fill" doc:"price of a liter of what fills kerfs"`
	Band   float64 `json:"band" doc:"price of a meter of banding"`
	Finish float64 `json:"finish" doc:"price of finish for a square meter and coat"`
	Coats  int     `json:"coats" doc:"coats of finish, primer among them; 0 means that the hood is left bare"`
}

// A Molding says in which lengths moldings are sold.
type Molding struct {
	Band  []Bar   `json:"band" most:"20" doc:"bars of the band; none means that its price is not known"`
	Crown []Bar   `json:"crown" most:"20" doc:"bars of the crown; none means that its price is not known"`
	Miter float64 `json:"miter" unit:"mm" doc:"length to add for each mitered end: at least the projection of the molding"`
	Kerf  float64 `json:"kerf" unit:"mm" doc:"what a saw cut takes"`
}

// A Bar is a length of molding as it is sold.
type Bar struct {
	Length float64 `json:"length" unit:"mm" doc:"length"`
	Price  float64 `json:"price" doc:"price of one; 0 means not known"`
}

// An Extra is a line of the shop's own.
type Extra struct {
	Item  string  `json:"item" most:"100" doc:"what it is"`
	Count float64 `json:"count" doc:"how many"`
	Unit  string  `json:"unit" most:"20" doc:"what is counted; empty means pieces"`
	Price float64 `json:"price" doc:"price of one; 0 means not known"`
}

// ratesVersion is the version of the keys.
const ratesVersion = 1

// most bounds every number, so that an amount is 1e12 at most, which a float64
// holds to a hundredth (1e14 < 2^53).
const most = 1e6

// Validate returns every fault of the rates as hood.Faults, nil where there are
// none; the Param of each is the key.
func (r Rates) Validate() error {
	var c checks
	c.rates(r)
	return c.Err()
}

// checks collects the faults of rates and quantities.
type checks struct{ spec.Checker }

func (c *checks) rates(r Rates) {
	if r.Version != ratesVersion {
		c.Add("version", r.Version, "", fmt.Sprint(ratesVersion), arc.ErrRange)
	}
	for _, f := range []struct {
		key string
		v   float64
	}{
		{"machine", r.Machine}, {"labor", r.Labor}, {"markup", r.Markup}, {"tax", r.Tax},
		{"work.job", r.Work.Job}, {"work.sheet", r.Work.Sheet}, {"work.part", r.Work.Part}, {"work.saw_edge", r.Work.SawEdge},
		{"work.band", r.Work.Band}, {"work.kerfed", r.Work.Kerfed}, {"work.ply", r.Work.Ply}, {"work.assembly", r.Work.Assembly},
		{"work.miter", r.Work.Miter}, {"work.finish", r.Work.Finish},
		{"use.glue", r.Use.Glue}, {"use.fill", r.Use.Fill}, {"use.band", r.Use.Band}, {"use.finish", r.Use.Finish}, {"use.coats", float64(r.Use.Coats)},
		{"molding.miter", r.Molding.Miter}, {"molding.kerf", r.Molding.Kerf},
	} {
		c.number(f.key, f.v)
	}
	c.bars("molding.band", r.Molding.Band)
	c.bars("molding.crown", r.Molding.Crown)
	for i, e := range r.Extras {
		c.number(fmt.Sprintf("extras[%d].count", i), e.Count)
		c.number(fmt.Sprintf("extras[%d].price", i), e.Price)
	}
}

func (c *checks) number(key string, v float64) {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		c.Add(key, v, "", "a finite number", arc.ErrNotFinite)
	case v < 0 || v > most:
		c.Add(key, v, "", "0 to a million", arc.ErrRange)
	}
}

func (c *checks) bars(key string, bars []Bar) {
	for i, b := range bars {
		c.number(fmt.Sprintf("%s[%d].price", key, i), b.Price)
		if !(b.Length > 0 && b.Length <= most) {
			c.Add(fmt.Sprintf("%s[%d].length", key, i), b.Length, "", "over 0, at most a million", arc.ErrRange)
		}
	}
}
