package packet

import (
	"bytes"
	"io"
	"reflect"

	"example.com/sagitta/hood/quote"
	"example.com/sagitta/sheet"
)

// ReadRates reads the rates of a shop, as strictly as [ReadSpec] reads a spec:
// every fault it can reach comes back in hood.Faults. Lengths are in mm, or
// strings with their unit.
func ReadRates(r io.Reader) (quote.Rates, error) {
	q, err := fileOf[quote.Rates](r, "rates")
	if err != nil {
		return q, err
	}
	return q, q.Validate()
}

// RatesSchema returns the JSON schema of a file of rates.
func RatesSchema() []byte { return schema(reflect.TypeFor[quote.Rates](), "Rates of a shop") }

// quote adds the quote of the packet in three forms, where rates are given.
func (m *maker) quote() {
	if m.o.Rates == nil || m.err != nil {
		return
	}
	t := quote.TakeOff(m.d)
	book, err := sheet.Book("", m.n.stock, m.n.layout, 0)
	m.add(err)
	t.Sheets = book.Takes
	for _, s := range m.rec.Sheets {
		t.Minutes += float64(s.Minutes)
	}
	q, err := quote.New(t, *m.o.Rates)
	if err != nil {
		m.add(err)
		return
	}
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{{"quote.json", q.WriteJSON}, {"quote.csv", q.WriteCSV}, {"quote.html", q.WriteHTML}} {
		var b bytes.Buffer
		err := f.write(&b)
		m.add(err, File{f.name, b.Bytes()})
	}
}
