package rules

import (
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// changed lists the places that change a variable of the package, in functions
// other than init: values assigned, counted or appended to, or whose address is
// taken. A name that a function declares itself hides the package's.
func changed(r room) []string {
	state := map[string]bool{}
	for _, f := range r.files {
		for _, d := range f.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.VAR {
				for _, s := range g.Specs {
					for _, id := range s.(*ast.ValueSpec).Names {
						state[id.Name] = id.Name != "_"
					}
				}
			}
		}
	}
	var out []string
	for _, name := range r.names() {
		for _, d := range r.files[name].Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil && fn.Name.Name != "init" {
				out = append(out, changes(fn, state)...)
			}
		}
	}
	return out
}

func changes(fn *ast.FuncDecl, state map[string]bool) []string {
	own := declared(fn)
	var out []string
	note := func(x ast.Expr) {
		if id := root(x); id != nil && state[id.Name] && !own[id.Name] {
			out = append(out, fmt.Sprintf("%s: %s", fset.Position(x.Pos()), id.Name))
		}
	}
	ast.Inspect(fn.Body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			if n.Tok != token.DEFINE {
				for _, x := range n.Lhs {
					note(x)
				}
			}
		case *ast.IncDecStmt:
			note(n.X)
		case *ast.UnaryExpr:
			if n.Op == token.AND {
				note(n.X)
			}
		}
		return true
	})
	return out
}

// declared returns the names a function declares anywhere.
func declared(fn *ast.FuncDecl) map[string]bool {
	own := map[string]bool{}
	ast.Inspect(fn, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			if n.Tok == token.DEFINE {
				for _, x := range n.Lhs {
					if id, ok := x.(*ast.Ident); ok {
						own[id.Name] = true
					}
				}
			}
		case *ast.ValueSpec:
			for _, id := range n.Names {
				own[id.Name] = true
			}
		case *ast.Field:
			for _, id := range n.Names {
				own[id.Name] = true
			}
		case *ast.RangeStmt:
			for _, x := range []ast.Expr{n.Key, n.Value} {
				if id, ok := x.(*ast.Ident); ok && n.Tok == token.DEFINE {
					own[id.Name] = true
				}
			}
		}
		return true
	})
	return own
}

// root returns the variable that an expression is a part of.
func root(x ast.Expr) *ast.Ident {
	for {
		switch y := x.(type) {
		case *ast.Ident:
			return y
		case *ast.IndexExpr:
			x = y.X
		case *ast.SelectorExpr:
			x = y.X
		case *ast.StarExpr:
			x = y.X
		case *ast.ParenExpr:
			x = y.X
		default:
			return nil
		}
	}
}

func TestNoPackageHasState(t *testing.T) {
	for _, r := range ours(t) {
		if r.name != "main" {
			assert.Empty(t, changed(r))
		}
	}
}

func TestPlantedState(t *testing.T) {
	for text, want := range map[string]int{
		"func f() { n++ }":            1,
		"func f() { n = 2 }":          1,
		"func f() { m[1] = 2 }":       1,
		"func f() *int { return &n }": 1,
		"func f() { n := 1; n++ }":    0,
		"func f(n int) { n = 2 }":     0,
		"func f() int { return n }":   0,
	} {
		r := planted(t, map[string]string{"arc/a.go": "package p\n\nvar n int\nvar m = map[int]int{}\n\n" + text})[0]
		assert.Len(t, changed(r), want, text)
	}
}

// No file is over 800 lines; no folder stands at the top that is not agreed.
func TestFilesAndFolders(t *testing.T) {
	long := 0
	for _, r := range ours(t) {
		for _, name := range r.names() {
			f := r.files[name]
			lines := fset.Position(f.FileEnd).Line
			assert.LessOrEqual(t, lines, 800, r.path+"/"+name)
			long = max(long, lines)
		}
	}
	assert.Greater(t, long, 200, "files are measured")
	entries, err := os.ReadDir("../..")
	require.NoError(t, err)
	for _, e := range entries {
		switch e.Name() {
		case "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "CHANGELOG.md":
			continue
		}
		_, agreed := floors[e.Name()]
		assert.True(t, agreed && e.IsDir() || strings.HasPrefix(e.Name(), "."), filepath.Join("top level", e.Name()))
	}
}
