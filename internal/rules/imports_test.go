package rules

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// floors of the house: a package may import those on lower floors, and those of
// its own top folder.
var floors = map[string]int{"internal": 0, "arc": 1, "bend": 2, "miter": 2, "sheet": 2, "hood": 3, "examples": 4}

// modules that may be imported beside the standard library.
var modules = []string{"gonum.org/v1/gonum", "github.com/stretchr/testify", "pgregory.net/rapid"}

// against lists the imports that run against the arrows, and those of modules
// that nobody agreed to.
func against(rooms []room) []string {
	var out []string
	for _, r := range rooms {
		for _, name := range r.names() {
			for _, im := range r.files[name].Imports {
				path, _ := strconv.Unquote(im.Path.Value)
				if why := wrong(r.path, path); why != "" {
					out = append(out, fmt.Sprintf("%s/%s imports %s: %s", r.path, name, path, why))
				}
			}
		}
	}
	return out
}

func wrong(from, path string) string {
	below, own := strings.CutPrefix(path, module+"/")
	if !own {
		return foreign(path)
	}
	a, b := strings.Split(from, "/")[0], strings.Split(below, "/")[0]
	switch {
	case a == "examples" && b == "examples":
		return "examples stand alone"
	case below == "hood/packet" && a == "hood":
		return "the packet is the last room of hood"
	case (from == "internal/readback" || from == "internal/hangs") && below == "arc":
		return "" // kits of tests, which TestKitsStayInTests keeps there
	case a != b && floors[a] <= floors[b]:
		return "against the arrows"
	}
	return ""
}

func foreign(path string) string {
	if !strings.Contains(strings.Split(path, "/")[0], ".") {
		return "" // of the standard library
	}
	for _, m := range modules {
		if path == m || strings.HasPrefix(path, m+"/") {
			return ""
		}
	}
	return "a module that is not agreed"
}

func TestImportsFollowTheArrows(t *testing.T) {
	rooms := ours(t)
	for _, r := range rooms {
		assert.Contains(t, floors, strings.Split(r.path, "/")[0], "a folder without a floor")
	}
	assert.Empty(t, against(rooms))
}

// What only tests need is imported by tests alone.
func TestKitsStayInTests(t *testing.T) {
	for _, r := range ours(t) {
		for _, name := range r.names() {
			for _, im := range r.files[name].Imports {
				for _, kit := range []string{"internal/hangs", "internal/readback", "internal/weary", "github.com/stretchr/testify", "pgregory.net/rapid"} {
					if r.path != kit {
						assert.NotContains(t, im.Path.Value, kit, r.path+"/"+name)
					}
				}
			}
		}
	}
}

func TestPlantedImports(t *testing.T) {
	file := func(path string) string { return "package p\n\nimport _ \"" + path + "\"\n" }
	for from, path := range map[string]string{
		"arc/a.go": module + "/hood", "bend/a.go": module + "/sheet", "internal/num/a.go": module + "/arc",
		"hood/part/a.go": module + "/hood/packet", "examples/one/a.go": module + "/examples/two", "hood/a.go": "example.org/other",
	} {
		assert.Len(t, against(planted(t, map[string]string{from: file(path)})), 1, "%s imports %s", from, path)
	}
	for from, path := range map[string]string{"hood/a.go": module + "/arc", "arc/svg/a.go": module + "/arc/draw", "arc/a.go": "gonum.org/v1/gonum/mat"} {
		assert.Empty(t, against(planted(t, map[string]string{from: file(path)})), "%s imports %s", from, path)
	}
}

func TestModuleFile(t *testing.T) {
	text, err := os.ReadFile("../../go.mod")
	require.NoError(t, err)
	var found []string
	for _, line := range regexp.MustCompile(`(?m)^\s+?(?:require )?(\S+\.\S+/\S+) v\S+$`).FindAllStringSubmatch(string(text), -1) {
		found = append(found, line[1]) // those marked indirect end otherwise
	}
	assert.ElementsMatch(t, modules, found)
	assert.Regexp(t, `(?m)^go \d+\.\d+(\.0)?$`, string(text), "no patch release is asked")
	assert.NotRegexp(t, `(?m)^(replace|toolchain|exclude)`, string(text))
}
