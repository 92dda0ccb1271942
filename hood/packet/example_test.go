package packet_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"strings"

	"example.com/sagitta/hood"
	"example.com/sagitta/hood/packet"
)

// All faults of a file come back at once, each with the key and what is needed.
func ExampleReadSpec() {
	_, err := packet.ReadSpec(strings.NewReader(`{"version": 2, "width": "41 3/8 in", "hieght": 900, "depth": "wide"}`))
	for _, line := range strings.Split(err.Error(), "\n") {
		key, _, _ := strings.Cut(line, ":")
		fmt.Println(key)
	}
	s, err := packet.ReadSpec(strings.NewReader(`{"version": 2, "width": "41 3/8 in"}`))
	fmt.Println(s.Width, err)
	// Output:
	// hieght = "unknown key"
	// depth = "wide"
	// 1050.925 <nil>
}

// A spec is written as a person would have written it.
func ExampleWriteSpec() {
	err := packet.WriteSpec(os.Stdout, hood.Spec{Version: hood.Version, Width: 1219.2, Skirt: 136.5})
	fmt.Println(err)
	// Output:
	// {
	//   "version": 2,
	//   "width": 1219.2,
	//   "skirt": 136.5
	// }
	// <nil>
}

// The whole packet of the demo, in memory.
func ExampleMake() {
	spec, err := packet.ReadSpec(bytes.NewReader(packet.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	files, err := packet.Make(context.Background(), spec, packet.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range files {
		if f.Name == "report.html" || strings.HasSuffix(f.Name, ".glb") || strings.HasSuffix(f.Name, ".nc") {
			fmt.Println(f.Name)
		}
	}
	// Output:
	// sheets/sheet-1.nc
	// sheets/sheet-2.nc
	// sheets/sheet-3.nc
	// model.glb
	// report.html
}
