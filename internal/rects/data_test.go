package rects

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// readData reads an open data set from the folder shared/datasets that stands
// beside the checkout or above it, and skips the test where there is none.
func readData(t testing.TB, name string, v any) {
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for ; dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		data, err := os.ReadFile(filepath.Join(dir, "shared", "datasets", "rect", name))
		if err != nil {
			continue
		}
		if err := json.Unmarshal(data, v); err != nil {
			t.Fatal(err)
		}
		return
	}
	t.Skipf("no data set %s beside the checkout", name)
}

func turnable(sizes [][2]float64) []Item {
	items := make([]Item, len(sizes))
	for i, s := range sizes {
		items[i] = Item{Size{s[0], s[1]}, true}
	}
	return items
}
