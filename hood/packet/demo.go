package packet

import _ "embed"

//go:embed demo.json
var demoSpec []byte

// Demo returns the spec file of a demo hood in an invented kitchen.
func Demo() []byte { return append([]byte(nil), demoSpec...) }
