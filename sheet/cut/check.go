package cut

// Check returns what of the options cannot be used.
func (o Options) Check() error { return o.check("cut.Options.Check") }
