// Package archtest keeps the order of the packages. It opens the source files itself, so
// that the test cache notices every change to them.
package archtest

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// order is the import rule: a package may import only from lines above its own, and never a
// package on its own line, except its own sub-packages listed above it. A change here is a
// decision record, not a way to fix a build.
const order = `
length order
source mass money
source/yaml source/json schema
geom finding
draw/font
draw
draw/font/ttf draw/hidden
part stock cutting
cutting/bound
stow
joinery
fitting
fitting/rack
carcass counter base hutch filler
job
place
assemble
fittings/* rules goods cutting/solve cutting/judge cutting/list cutlist strength/unit
strength/nds strength/beam strength/plate strength/lift strength/tip strength/reach
strength bill
shop
view
draw/svg draw/pdf export/*
packet packet/*
builtin plan
phrases
output pages
bundle
propose compare
cli web wasm
`

// shells may touch files, the clock and the network.
var shells = []string{"cli", "web", "wasm"}

// outside lists what only shells import.
var outside = []string{"os", "time", "net", "net/http", "log", "os/exec", "path/filepath", "io/ioutil"}

func rank(t *testing.T, pkg string) int {
	t.Helper()
	for i, line := range strings.Split(strings.TrimSpace(order), "\n") {
		for _, p := range strings.Fields(line) {
			if ok, _ := path.Match(p, pkg); ok {
				return i
			}
		}
	}
	return -1
}

type file struct {
	pkg     string // below internal
	name    string
	imports []string
	tree    *ast.File
	set     *token.FileSet
}

func files(t *testing.T) []file {
	t.Helper()
	var list []file
	root := ".."
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || d.Name() == "archtest") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(p, ".go") || strings.HasSuffix(p, "_test.go") {
			return nil
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, p, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(tree.Comments, func(c *ast.CommentGroup) bool {
			return c.Pos() < tree.Package && strings.Contains(c.Text(), "go:build ignore")
		}) {
			return nil
		}
		for _, c := range tree.Comments {
			for _, l := range c.List {
				if c.Pos() < tree.Package && l.Text == "//go:build ignore" {
					return nil
				}
			}
		}
		rel, _ := filepath.Rel(root, filepath.Dir(p))
		f := file{pkg: filepath.ToSlash(rel), name: p, tree: tree, set: set}
		for _, i := range tree.Imports {
			s, _ := strconv.Unquote(i.Path.Value)
			f.imports = append(f.imports, s)
		}
		list = append(list, f)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(list) < 10 {
		t.Fatalf("found only %d source files: the walk is broken", len(list))
	}
	return list
}

// test packages serve tests of several packages; they may import anything, and nothing but
// tests imports them.
func isTestPackage(pkg string) bool {
	return strings.HasSuffix(path.Base(pkg), "test") || pkg == "strength/plainfe"
}

func TestImportsPointUpwards(t *testing.T) {
	for _, f := range files(t) {
		if isTestPackage(f.pkg) {
			continue
		}
		if strings.HasSuffix(f.pkg, "/gen") {
			continue // commands that write embedded tables
		}
		mine := rank(t, f.pkg)
		if mine < 0 {
			t.Errorf("%s: package %s is in no line of the order", f.name, f.pkg)
			continue
		}
		for _, imp := range f.imports {
			other, ok := strings.CutPrefix(imp, "stowright/internal/")
			if !ok {
				continue
			}
			if isTestPackage(other) {
				t.Errorf("%s: %s imports %s, which is for tests", f.name, f.pkg, other)
			}
			if r := rank(t, other); r < 0 || r >= mine {
				t.Errorf("%s: %s imports %s, which is not above it", f.name, f.pkg, other)
			}
			if strings.HasPrefix(other, "fittings/") && f.pkg != "builtin" {
				t.Errorf("%s: %s imports %s: only builtin may", f.name, f.pkg, other)
			}
		}
	}
}

func TestOnlyShellsTouchTheWorld(t *testing.T) {
	for _, f := range files(t) {
		if slices.Contains(shells, f.pkg) || isTestPackage(f.pkg) || strings.HasSuffix(f.pkg, "/gen") {
			continue
		}
		for _, imp := range f.imports {
			if slices.Contains(outside, imp) && !allowed(f.pkg, imp) {
				t.Errorf("%s: %s imports %q: only the shells may", f.name, f.pkg, imp)
			}
			if (imp == "stowright/internal/source/yaml") && f.pkg != "source/yaml" {
				t.Errorf("%s: %s imports YAML: only the shells may, the core is built without it", f.name, f.pkg)
			}
		}
	}
}

// allowed: the PDF encoder must hand a time.Time to its library; it is made from the job's
// date, never from a clock.
func allowed(pkg, imp string) bool { return pkg == "draw/pdf" && imp == "time" }

func TestNoPackageState(t *testing.T) {
	for _, f := range files(t) {
		if isTestPackage(f.pkg) || strings.HasSuffix(f.pkg, "/gen") {
			continue
		}
		for _, d := range f.tree.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Name.Name == "init" {
				t.Errorf("%s: func init", f.set.Position(fn.Pos()))
			}
		}
		for name, at := range changed(f.tree) {
			t.Errorf("%s: %s is a variable of the package and changes", f.set.Position(at), name)
		}
	}
}

// memos are variables of packages that hold what was worked out once, the same whenever it is: nobody can tell that they
// change.
var memos = []string{
	"forms",     // schema: the fields of a type
	"kindsRead", // schema: how a type is read
	"naming",    // job: the fields of a type that name something
}

// changed gives the variables of a package that a file declares and changes, or that can only be there to change.
func changed(tree *ast.File) map[string]token.Pos {
	own := map[any]string{} // by declaration
	out := map[string]token.Pos{}
	for _, d := range tree.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.VAR {
			continue
		}
		for _, s := range g.Specs {
			v := s.(*ast.ValueSpec)
			own[v] = v.Names[0].Name
			at, isSelector := v.Type.(*ast.SelectorExpr)
			if isSelector && fmt.Sprint(at.X) == "sync" || v.Values == nil && g.Doc == nil && v.Doc == nil {
				out[v.Names[0].Name] = v.Pos()
			}
		}
	}
	touch := func(x ast.Expr) {
		for {
			switch e := x.(type) {
			case *ast.IndexExpr:
				x = e.X
			case *ast.SelectorExpr:
				x = e.X
			case *ast.StarExpr:
				x = e.X
			case *ast.ParenExpr:
				x = e.X
			case *ast.Ident:
				if e.Obj != nil && own[e.Obj.Decl] != "" {
					out[e.Name] = e.Pos()
				}
				return
			default:
				return
			}
		}
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		switch s := n.(type) {
		case *ast.AssignStmt:
			for _, x := range s.Lhs {
				touch(x)
			}
		case *ast.IncDecStmt:
			touch(s.X)
		case *ast.CallExpr:
			if f, ok := s.Fun.(*ast.Ident); ok && (f.Name == "delete" || f.Name == "clear") && len(s.Args) > 0 {
				touch(s.Args[0])
			}
		case *ast.UnaryExpr:
			if s.Op == token.AND {
				touch(s.X)
			}
		}
		return true
	})
	for _, m := range memos {
		delete(out, m)
	}
	return out
}

func TestChangedVariablesAreFound(t *testing.T) {
	const text = `package p
import "sync"
var table = map[string]int{"a": 1}
var memo sync.Map
var seen = map[string]bool{}
var n, m int = 0, 1
func f() { seen["x"] = true; n++; table := 1; table = 2; _ = table }
`
	tree, err := parser.ParseFile(token.NewFileSet(), "p.go", text, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	got := slices.Sorted(maps.Keys(changed(tree)))
	if want := []string{"memo", "n", "seen"}; !slices.Equal(got, want) {
		t.Errorf("found %q, want %q", got, want)
	}
}

func TestEveryFittingIsBuiltIn(t *testing.T) {
	var listed []string
	dirs := map[string]bool{}
	for _, f := range files(t) {
		if f.pkg == "builtin" {
			listed = append(listed, f.imports...)
		}
		if strings.HasPrefix(f.pkg, "fittings/") {
			dirs[f.pkg] = true
		}
	}
	for d := range dirs {
		if !slices.Contains(listed, "stowright/internal/"+d) {
			t.Errorf("%s is not listed in builtin", d)
		}
	}
}

func TestEveryPackageSaysWhatItIsFor(t *testing.T) {
	has := map[string]bool{}
	for _, f := range files(t) {
		if f.tree.Doc != nil {
			has[f.pkg] = true
		} else if _, ok := has[f.pkg]; !ok {
			has[f.pkg] = false
		}
	}
	for p, ok := range has {
		if !ok {
			t.Errorf("package %s has no package comment", p)
		}
	}
}
