package packet

import (
	"bytes"
	"errors"
	"io"
	"reflect"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/hood/quote"
	"example.com/sagitta/sheet"
)

// ReadRates reads the rates of a shop, as strictly as [ReadSpec] reads a spec:
// every fault it can reach comes back in hood.Faults. Lengths are in mm, or
// strings with their unit.
func ReadRates(r io.Reader) (quote.Rates, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxSpecBytes+1))
	if err != nil {
		return quote.Rates{}, hood.Faults{{Param: "rates", Value: err.Error(), Need: "a file that can be read", Err: err}}
	}
	if len(data) > maxSpecBytes {
		return quote.Rates{}, hood.Faults{{Param: "rates", Value: "more than 1 MiB", Need: "a file of at most 1 MiB", Err: arc.ErrRange}}
	}
	n, faults := parse(data)
	if len(faults) > 0 {
		return quote.Rates{}, hood.Faults(faults)
	}
	var q quote.Rates
	f := &filler{reader: &reader{}, unit: arc.Millimeters}
	f.fill(reflect.ValueOf(&q).Elem(), n, "", 0)
	if len(f.faults) > 0 {
		return quote.Rates{}, hood.Faults(f.faults)
	}
	return q, paramFaults(q.Validate())
}

// RatesSchema returns the JSON schema of a file of rates.
func RatesSchema() []byte { return schema(reflect.TypeFor[quote.Rates](), "Rates of a shop") }

// paramFaults returns joined faults as hood.Faults.
func paramFaults(err error) error {
	if err == nil {
		return nil
	}
	list := []error{err}
	var all interface{ Unwrap() []error }
	if errors.As(err, &all) {
		list = all.Unwrap()
	}
	var out hood.Faults
	for _, e := range list {
		var p *arc.ParamError
		if errors.As(e, &p) {
			out = append(out, p)
		}
	}
	return out
}

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
		m.add(paramFaults(err))
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
