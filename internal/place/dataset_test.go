package place

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// An instance of the irregular strip packing sets of ESICUP, the EURO special
// interest group on cutting and packing.
type instance struct {
	Name   string  `json:"name"`
	Height float64 `json:"strip_height"`
	Area   float64 `json:"total_area"`
	Items  []struct {
		Demand  int          `json:"demand"`
		Turns   []float64    `json:"allowed_rotations_deg"`
		Polygon [][2]float64 `json:"polygon"`
	} `json:"items"`
}

// dataDir walks up from the package to the open data, which is not part of
// the project.
func dataDir(tb testing.TB) string {
	tb.Helper()
	dir, err := os.Getwd()
	require.NoError(tb, err)
	for {
		d := filepath.Join(dir, "shared", "datasets")
		if _, err := os.Stat(d); err == nil {
			return d
		}
		up := filepath.Dir(dir)
		if up == dir {
			tb.Skip("no shared/datasets above this folder: open benchmark data absent")
		}
		dir = up
	}
}

func loadInstance(tb testing.TB, name string) instance {
	tb.Helper()
	raw, err := os.ReadFile(filepath.Join(dataDir(tb), "irregular", name+".json"))
	require.NoError(tb, err)
	var in instance
	require.NoError(tb, json.Unmarshal(raw, &in))
	return in
}

func (in instance) items() []Item {
	var items []Item
	for _, d := range in.Items {
		it := Item{Demand: d.Demand, AnyRotation: d.Turns == nil}
		for _, p := range d.Polygon {
			it.Outer = append(it.Outer, r2.Vec{X: p[0], Y: p[1]})
		}
		for _, a := range d.Turns {
			it.Rotations = append(it.Rotations, a*math.Pi/180)
		}
		items = append(items, it)
	}
	return items
}
