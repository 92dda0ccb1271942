package sheet

import "fmt"

// A Taken is a number of sheets of one kind that a job takes.
type Taken struct {
	Stock int // index in the list
	ID    string
	Name  string
	Count int
	Cost  float64 // of all of them
}

// A Given is an offcut that a job gives back.
type Given struct {
	Sheet  int // index in the layout
	Offcut int // index among those of the sheet
	ID     string
	Stock  Stock   // as to be offered to the next job, with the ID
	Worth  float64 // by its area and the worth of its kind
}

// A Booking is what a job takes from an inventory and gives back to it.
type Booking struct {
	Takes []Taken
	Gives []Given
	Net   float64 // cost of what is taken less the worth of what is given back
}

// Book returns the record of a layout. Sheets of Options.Fixed count as taken; pass
// their number as booked where they were booked before. The ID of an offcut is
// job, the number of its sheet and its own, so that it is unique where job is; its
// name is kept. It is a [*ParamError] if the layout names stock that is not there.
func Book(job string, stock []Stock, l Layout, booked int) (Booking, error) {
	var b Booking
	if booked < 0 || booked > len(l.Sheets) {
		return b, &ParamError{Func: "sheet.Book", Param: "booked", Value: booked, Need: fmt.Sprintf("0 to %d", len(l.Sheets)), Err: ErrIllegal}
	}
	at := map[int]int{}
	for i, s := range l.Sheets {
		if s.Stock < 0 || s.Stock >= len(stock) {
			return Booking{}, &ParamError{Func: "sheet.Book", Param: fmt.Sprintf("l.Sheets[%d].Stock", i), Value: s.Stock, Need: "an index of stock", Err: ErrIllegal}
		}
		st := stock[s.Stock]
		if i >= booked {
			k, ok := at[s.Stock]
			if !ok {
				k = len(b.Takes)
				at[s.Stock] = k
				b.Takes = append(b.Takes, Taken{Stock: s.Stock, ID: st.ID, Name: st.Name})
			}
			b.Takes[k].Count++
			b.Takes[k].Cost += st.Price
			b.Net += st.Price
		}
		for j, o := range s.Offcuts {
			g := Given{Sheet: i, Offcut: j, ID: fmt.Sprintf("%s-%d-%d", job, i+1, j+1), Stock: o.Stock, Worth: o.Stock.Area() / 1e6 * st.Worth}
			g.Stock.ID = g.ID
			b.Gives = append(b.Gives, g)
			b.Net -= g.Worth
		}
	}
	return b, nil
}
