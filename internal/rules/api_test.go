package rules

import (
	"bytes"
	"go/ast"
	"go/printer"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const listing = "testdata/api.txt"

// api lists what a caller of a room can name, a line each, sorted: functions and
// methods with their types, types with their exported fields, values.
func api(r room) []string {
	var out []string
	for _, name := range r.names() {
		for _, d := range r.files[name].Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Name.IsExported() && receiver(d) != "" {
					out = append(out, text(&ast.FuncDecl{Recv: d.Recv, Name: d.Name, Type: d.Type}))
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					out = append(out, said(d.Tok.String(), s)...)
				}
			}
		}
	}
	slices.Sort(out)
	for i := range out {
		out[i] = r.path + ": " + out[i]
	}
	return out
}

// said lists what a declaration of values or types exports.
func said(kind string, s ast.Spec) []string {
	var out []string
	switch s := s.(type) {
	case *ast.ValueSpec:
		for _, id := range s.Names {
			if id.IsExported() {
				out = append(out, strings.TrimSpace(kind+" "+id.Name+" "+text(s.Type)))
			}
		}
	case *ast.TypeSpec:
		if !s.Name.IsExported() {
			return nil
		}
		st, ok := s.Type.(*ast.StructType)
		if !ok {
			return []string{"type " + s.Name.Name + " " + text(s.Type)}
		}
		out = append(out, "type "+s.Name.Name+" struct")
		for _, f := range st.Fields.List {
			for _, id := range f.Names {
				if id.IsExported() {
					out = append(out, "type "+s.Name.Name+" struct, "+id.Name+" "+text(f.Type))
				}
			}
			if len(f.Names) == 0 {
				out = append(out, "type "+s.Name.Name+" struct, "+text(f.Type))
			}
		}
	}
	return out
}

// text prints a node on one line.
func text(n ast.Node) string {
	if n == nil || n == ast.Expr(nil) {
		return ""
	}
	var b bytes.Buffer
	if err := printer.Fprint(&b, fset, n); err != nil {
		return err.Error()
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// What the packages export is what the listing says, so that a change of it is
// meant: SAGITTA_API=write go test ./internal/rules writes the listing anew.
func TestExportedNamesAreListed(t *testing.T) {
	var lines []string
	for _, r := range ours(t) {
		if r.public() {
			lines = append(lines, api(r)...)
		}
	}
	require.Greater(t, len(lines), 500)
	if os.Getenv("SAGITTA_API") == "write" {
		require.NoError(t, os.MkdirAll("testdata", 0o777))
		require.NoError(t, os.WriteFile(listing, []byte(strings.Join(lines, "\n")+"\n"), 0o666))
	}
	data, err := os.ReadFile(listing)
	require.NoError(t, err)
	old := strings.Split(strings.TrimSpace(string(data)), "\n")
	var gone, come []string
	for _, l := range old {
		if !slices.Contains(lines, l) {
			gone = append(gone, l)
		}
	}
	for _, l := range lines {
		if !slices.Contains(old, l) {
			come = append(come, l)
		}
	}
	assert.Empty(t, gone, "a caller misses these")
	assert.Empty(t, come, "these are new")
}

func TestPlantedExports(t *testing.T) {
	a := api(planted(t, map[string]string{"arc/a.go": `package p

type T struct {
	A, B int
	c    int
}

func (t *T) M(x ...float64) (int, error) { return 0, nil }
func (t T) m()                            {}

var V = 1

const c = 2
`})[0])
	assert.Equal(t, []string{
		"arc: func (t *T) M(x ...float64) (int, error)", "arc: type T struct", "arc: type T struct, A int", "arc: type T struct, B int", "arc: var V",
	}, a)
}
