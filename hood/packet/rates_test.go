package packet

import (
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood/quote"
)

const someRates = `{"version": 1, "currency": "USD", "machine": 90, "labor": 50, "work": {"job": 60, "kerfed": 30},
 "use": {"fill": 10, "coats": 2}, "molding": {"band": [{"length": "96 in", "price": 12}]}, "extras": [{"item": "delivery", "count": 1, "price": 40}], "markup": 0.25}`

func TestReadRates(t *testing.T) {
	r, err := ReadRates(strings.NewReader(someRates))
	require.NoError(t, err)
	assert.Equal(t, quote.Bar{Length: 2438.4, Price: 12}, r.Molding.Band[0])
	assert.Equal(t, 60.0, r.Work.Job)
	for text, want := range map[string]string{
		`{"version": 1, "machnie": 3}`:                    "machnie",
		`{"version": 2}`:                                  "version = 2",
		`{"version": 1, "labor": -4}`:                     "labor = -4",
		`{"version": 1, "labor": -4, "machine": -1}`:      "machine = -1",
		`{"version": 1, "use": {"coats": 1.5}}`:           "use.coats",
		`{"version": 1, "molding": {"band": [{}]}}`:       "molding.band[0].length",
		`{"version": 1, "currency": "` + "\\u0007" + `"}`: "currency",
		``: "",
	} {
		_, err := ReadRates(strings.NewReader(text))
		assert.ErrorContains(t, err, want, text)
	}
	data, err := json.Marshal(quote.ExampleRates())
	require.NoError(t, err)
	back, err := ReadRates(strings.NewReader(string(data)))
	require.NoError(t, err)
	assert.Equal(t, quote.ExampleRates(), back)
	assert.Contains(t, string(RatesSchema()), `"saw_edge"`)
}

// The quote of a packet takes its sheets and minutes from packet.json's own,
// and stands there only where rates are given.
func TestQuoteInPacket(t *testing.T) {
	spec, err := ReadSpec(strings.NewReader(string(Demo())))
	require.NoError(t, err)
	r, err := ReadRates(strings.NewReader(someRates))
	require.NoError(t, err)
	files, err := Make(context.Background(), spec, Options{Rates: &r})
	require.NoError(t, err)
	var q quote.Quote
	var rec struct {
		Cost   float64
		Sheets []struct{ Minutes float64 }
		Files  []string
	}
	seen := 0
	for _, f := range files {
		switch f.Name {
		case "quote.json":
			require.NoError(t, json.Unmarshal(f.Data, &q))
		case "packet.json":
			require.NoError(t, json.Unmarshal(f.Data, &rec))
		}
		if strings.HasPrefix(f.Name, "quote.") {
			seen++
			assert.Contains(t, rec.Files, f.Name)
		}
	}
	assert.Equal(t, 3, seen)
	minutes, sheets := 0.0, 0.0
	for _, s := range rec.Sheets {
		minutes += s.Minutes
	}
	for _, l := range q.Lines {
		switch l.Section {
		case quote.Sheets:
			sheets += l.Amount
		case quote.Machine:
			assert.Equal(t, math.Round(minutes/60*1e4)/1e4, l.Quantity)
		}
	}
	assert.InDelta(t, rec.Cost, sheets, 0.005)
	assert.Equal(t, "USD", q.Currency)
}
