package rules

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "example.com/sagitta"

// A room is the code of a package without its tests.
type room struct {
	path  string // below the module, "" at its root
	name  string
	files map[string]*ast.File
}

// names lists the files of a room in order.
func (r room) names() []string {
	var out []string
	for name := range r.files {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

var fset = token.NewFileSet()

// house parses every package of a folder that is a module's root.
func house(t *testing.T, root string) []room {
	rooms := map[string]room{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(fset, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		if rooms[rel].files == nil {
			rooms[rel] = room{rel, f.Name.Name, map[string]*ast.File{}}
		}
		rooms[rel].files[filepath.Base(path)] = f
		return nil
	})
	require.NoError(t, err)
	var out []room
	for _, r := range rooms {
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b room) int { return strings.Compare(a.path, b.path) })
	return out
}

// ours parses the module this test stands in.
func ours(t *testing.T) []room {
	rooms := house(t, "../..")
	require.Greater(t, len(rooms), 20)
	return rooms
}

// planted parses a module of the given files, each a path and its text.
func planted(t *testing.T, files map[string]string) []room {
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
	}
	return house(t, dir)
}

// public reports whether a room can be imported by other modules and is no
// command.
func (r room) public() bool {
	return r.name != "main" && !slices.Contains(strings.Split(r.path, "/"), "internal")
}
