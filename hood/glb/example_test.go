package glb_test

import (
	"bytes"
	"fmt"

	"example.com/sagitta/hood"
	"example.com/sagitta/hood/glb"
	"gonum.org/v1/gonum/spatial/r3"
)

// A wedge block as a file for any viewer: a header of 12 bytes, then the
// document and the numbers.
func ExampleEncode() {
	wedge := hood.Solid{
		Name:      "wedge",
		Vertices:  []r3.Vec{{}, {X: 60}, {Y: 60}, {Z: 40}, {X: 60, Z: 40}, {Y: 60, Z: 40}},
		Triangles: [][3]int{{0, 2, 1}, {3, 4, 5}, {0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5}},
	}
	var b bytes.Buffer
	if err := glb.Encode(&b, []hood.Solid{wedge}); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, version %d, %.0f mm³\n", b.Bytes()[:4], b.Bytes()[4], wedge.Volume())
	// Output:
	// glTF, version 2, 72000 mm³
}
