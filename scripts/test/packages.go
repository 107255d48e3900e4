package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// pkg is a package as go list -json describes it.
type pkg struct {
	ImportPath, Dir                    string
	GoFiles, TestGoFiles, XTestGoFiles []string
	Incomplete                         bool // it, or one it imports, cannot be loaded
}

type packages []pkg

func (list packages) paths() []string {
	var paths []string
	for _, p := range list {
		paths = append(paths, p.ImportPath)
	}
	return paths
}

// only returns the packages in a folder of the module and below.
func (list packages) only(folder string) packages {
	return slices.DeleteFunc(slices.Clone(list), func(p pkg) bool { return !p.in(folder) })
}

// except returns the other packages.
func (list packages) except(folder string) packages {
	return slices.DeleteFunc(slices.Clone(list), func(p pkg) bool { return p.in(folder) })
}

// tested returns the packages that have tests.
func (list packages) tested() packages {
	return slices.DeleteFunc(slices.Clone(list), func(p pkg) bool { return len(p.TestGoFiles)+len(p.XTestGoFiles) == 0 })
}

// in says whether the package lies in a folder such as "/engine" or below.
func (p pkg) in(folder string) bool {
	_, path, _ := strings.Cut(p.ImportPath, "/")
	return strings.HasPrefix("/"+path+"/", folder+"/")
}

// native returns the packages that this machine is to build.
func (s *suite) native() packages {
	s.list()
	return s.nativeList
}

// wasm returns the packages that go into the page, or may.
func (s *suite) wasm() packages {
	s.list()
	return s.wasmList
}

// list looks for the packages once.
func (s *suite) list() {
	if s.listed {
		return
	}
	s.listed = true
	native, err := listPackages(".", nil)
	if err != nil {
		s.verdict("go list", err, nil)
	}
	wasm, err := listPackages(".", wasmEnv)
	if err != nil {
		s.verdict("go list for wasm", err, nil)
	}
	s.nativeList = withoutWasmOnly(native, wasm)
	s.wasmList = slices.Concat(wasm.only("/engine"), wasm.only("/wasm"))
}

// listPackages lists the packages of the module in dir, with env in addition
// to the environment.
func listPackages(dir string, env []string) (packages, error) {
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,GoFiles,TestGoFiles,XTestGoFiles,Incomplete", "./...")
	cmd.Dir, cmd.Env = dir, append(os.Environ(), env...)
	var problems bytes.Buffer
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%w: %s", err, problems.Bytes())
	}
	list := packages{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p pkg
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			return list, nil
		}
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
}

// withoutWasmOnly leaves out the packages that can be loaded for wasm alone,
// because they import syscall/js. One that can be loaded for neither stays in,
// so that it is reported.
func withoutWasmOnly(native, wasm packages) packages {
	loads := map[string]bool{}
	for _, p := range wasm {
		loads[p.ImportPath] = !p.Incomplete
	}
	return slices.DeleteFunc(slices.Clone(native), func(p pkg) bool { return p.Incomplete && loads[p.ImportPath] })
}

// fuzzTargets returns the names of the package's fuzz targets.
func (p pkg) fuzzTargets() ([]string, error) {
	var names []string
	for _, file := range slices.Concat(p.TestGoFiles, p.XTestGoFiles) {
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.Dir, file), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		for _, d := range parsed.Decls {
			f, ok := d.(*ast.FuncDecl)
			if ok && f.Recv == nil && isFuzz(f.Name.Name) {
				names = append(names, f.Name.Name)
			}
		}
	}
	return names, nil
}

// isFuzz says whether go test takes a function of that name for a fuzz target.
func isFuzz(name string) bool {
	rest, ok := strings.CutPrefix(name, "Fuzz")
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && !unicode.IsLower(next)
}

// goroot returns the folder that Go is installed in.
func goroot() string {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(out))
}
