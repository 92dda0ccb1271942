package place

// A Memory keeps what the search knows of pairs of outlines from one call to
// the next with the same items, or some of them. The zero Memory is empty. It
// is not for concurrent calls. The same calls in the same order give the same
// results.
type Memory struct {
	grid   grid
	res    int
	forms  map[string]*form
	tables map[tableKey]*table
	bytes  int
}

// recall takes over the forms of an earlier call on the same grid.
func (p *problem) recall(m *Memory) {
	if m != nil && m.grid == p.grid && m.forms != nil {
		p.forms = m.forms
	}
}

// keepForms notes the forms of a call that was stopped, so that the next one
// need not begin anew.
func (p *problem) keepForms(m *Memory) {
	if m != nil && (m.grid != p.grid || m.forms == nil) {
		*m = Memory{grid: p.grid, forms: p.forms}
	}
}

// recallTables takes over its tables, where they are as fine.
func (p *problem) recallTables(m *Memory) {
	if m == nil {
		return
	}
	if m.grid == p.grid && m.res == p.res && m.tables != nil {
		p.tables, p.bytes = m.tables, m.bytes
	}
	*m = Memory{grid: p.grid, res: p.res, forms: p.forms, tables: p.tables, bytes: p.bytes}
}

// remember notes the memory taken.
func (p *problem) remember(m *Memory) {
	if m != nil {
		m.bytes = p.bytes
	}
}
