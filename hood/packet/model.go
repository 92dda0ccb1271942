package packet

import (
	"bytes"

	"example.com/sagitta/hood"
	"example.com/sagitta/hood/glb"
)

func (m *maker) model(solids []hood.Solid) {
	var b bytes.Buffer
	err := glb.Encode(&b, solids)
	m.add(err, File{"model.glb", b.Bytes()})
}
