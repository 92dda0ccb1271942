package rules

import (
	"fmt"
	"go/ast"
	"go/token"
	"path"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// undocumented lists the exported names of a room that have no comment.
func undocumented(r room) []string {
	var out []string
	note := func(name string, pos token.Pos, docs ...*ast.CommentGroup) {
		for _, d := range docs {
			if d != nil && strings.TrimSpace(d.Text()) != "" {
				return
			}
		}
		out = append(out, fmt.Sprintf("%s: %s", fset.Position(pos), name))
	}
	page := false
	for _, name := range r.names() {
		f := r.files[name]
		page = page || f.Doc != nil
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Name.IsExported() && receiver(d) != "" && !obvious(d) {
					note(d.Name.Name, d.Pos(), d.Doc)
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					switch s := s.(type) {
					case *ast.TypeSpec:
						if s.Name.IsExported() {
							note(s.Name.Name, s.Pos(), d.Doc, s.Doc, s.Comment)
						}
					case *ast.ValueSpec:
						if s.Names[0].IsExported() {
							note(s.Names[0].Name, s.Pos(), d.Doc, s.Doc, s.Comment)
						}
					}
				}
			}
		}
	}
	if !page {
		out = append(out, r.path+": no page")
	}
	return out
}

// receiver returns the type of a method, "-" of a function; "" where the type is
// not exported.
func receiver(d *ast.FuncDecl) string {
	if d.Recv == nil {
		return "-"
	}
	x := d.Recv.List[0].Type
	if s, ok := x.(*ast.StarExpr); ok {
		x = s.X
	}
	if g, ok := x.(*ast.IndexExpr); ok {
		x = g.X
	}
	if id, ok := x.(*ast.Ident); ok && id.IsExported() {
		return id.Name
	}
	return ""
}

// obvious reports whether a method is one of an interface of the standard
// library that says all there is to say.
func obvious(d *ast.FuncDecl) bool {
	switch d.Name.Name {
	case "Error", "Unwrap", "String", "MarshalJSON", "UnmarshalJSON", "MarshalText", "UnmarshalText":
		return d.Recv != nil
	}
	return false
}

func TestExportedNamesAreDocumented(t *testing.T) {
	for _, r := range ours(t) {
		if r.name != "main" {
			assert.Empty(t, undocumented(r))
		}
	}
}

// hidden lists the exported declarations of a public room that name a type of
// an internal one, which no caller could write down.
func hidden(r room) []string {
	var out []string
	for _, name := range r.names() {
		f := r.files[name]
		inner := map[string]bool{}
		for _, im := range f.Imports {
			p, _ := strconv.Unquote(im.Path.Value)
			if !strings.Contains(p+"/", "/internal/") {
				continue
			}
			if im.Name != nil {
				inner[im.Name.Name] = true
			} else {
				inner[path.Base(p)] = true
			}
		}
		for _, x := range signatures(f) {
			ast.Inspect(x, func(n ast.Node) bool {
				if sel, ok := n.(*ast.SelectorExpr); ok {
					if id, ok := sel.X.(*ast.Ident); ok && inner[id.Name] {
						out = append(out, fmt.Sprintf("%s: %s.%s", fset.Position(n.Pos()), id.Name, sel.Sel.Name))
					}
				}
				return true
			})
		}
	}
	return out
}

// signatures returns what a caller can see of a file: types of exported
// functions, fields and values.
func signatures(f *ast.File) []ast.Node {
	var out []ast.Node
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() && receiver(d) != "" {
				out = append(out, d.Type)
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() {
						out = append(out, visible(s.Type)...)
					}
				case *ast.ValueSpec:
					if s.Names[0].IsExported() && s.Type != nil {
						out = append(out, s.Type)
					}
				}
			}
		}
	}
	return out
}

// visible returns the exported fields of a struct, or the type itself.
func visible(x ast.Expr) []ast.Node {
	s, ok := x.(*ast.StructType)
	if !ok {
		return []ast.Node{x}
	}
	var out []ast.Node
	for _, f := range s.Fields.List {
		if len(f.Names) == 0 || f.Names[0].IsExported() {
			out = append(out, f.Type)
		}
	}
	return out
}

func TestNoInternalTypeIsExported(t *testing.T) {
	for _, r := range ours(t) {
		if r.public() {
			assert.Empty(t, hidden(r))
		}
	}
}

func TestPlantedNames(t *testing.T) {
	head := "// Package p is one.\npackage p\n\nimport \"" + module + "/internal/num\"\n\n"
	for text, want := range map[string][2]int{
		"func Bare() {}":     {1, 0},
		"type Bare struct{}": {1, 0},
		"const Bare = 1":     {1, 0},
		"// T is one.\ntype T struct{}\nfunc (T) M() {}": {1, 0},
		"// F is one.\nfunc F(n num.T) {}":               {0, 1},
		"// T is one.\ntype T struct{ N num.T }":         {0, 1},
		"// T is one.\ntype T = num.T":                   {0, 1},
		"// T is one.\ntype T struct{ n num.T }":         {0, 0},
		"type t struct{}\nfunc (t) M(num.T) {}":          {0, 0},
		"// V is one.\nvar V num.T":                      {0, 1},
	} {
		r := planted(t, map[string]string{"arc/a.go": head + text})[0]
		assert.Len(t, undocumented(r), want[0], text)
		assert.Len(t, hidden(r), want[1], text)
	}
	assert.Len(t, undocumented(planted(t, map[string]string{"arc/a.go": "package p\n"})[0]), 1)
}
