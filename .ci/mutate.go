// mutate asks whether the tests would notice: it changes one number, comparison or sign of the source at a time and runs the
// tests of that package, which must then fail.
//
//	go run .ci/mutate.go                    a sample by date, of the packages that the work rests on
//	go run .ci/mutate.go -n 0 ./internal/basis/way    everything in a package
//
// A number grows by a tenth (a whole number by one); a comparison is turned round, and one with a count takes in its limit
// or leaves it out; plus becomes minus, times becomes divided by, and becomes or. Changes that do not compile are not counted. Those that
// change nothing anybody could see are listed in .ci/equivalent with a reason.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// The packages that say what is seen, hidden, wide enough, hung, carried and when.
var usual = []string{"basis/colour", "basis/sight", "basis/unit", "basis/way", "find/check", "find/hang", "find/order", "plan/kinds", "plan/rules", "view/light"}

// mutant is one change of one file.
type mutant struct {
	file     string
	from, to int    // bytes of the file that are replaced
	old, new string // what stands there, and what does instead
	line     int
	within   string // the function or the declared name around it
}

// name is how .ci/equivalent names a mutant: without its line, which moves.
func (m mutant) name() string { return fmt.Sprintf("%s %s: %s -> %s", m.file, m.within, m.old, m.new) }

func main() {
	n := flag.Int("n", 12, "how many changes to try; 0: all")
	seed := flag.String("seed", time.Now().Format(time.DateOnly), "what the sample is drawn by")
	least := flag.Float64("least", 0.85, "the share that must be noticed")
	flag.Parse()
	dirs := flag.Args()
	if len(dirs) == 0 {
		for _, p := range usual {
			dirs = append(dirs, filepath.Join("internal", p))
		}
	}
	equivalent, err := reasons(".ci/equivalent")
	check(err)
	var all []mutant
	for _, dir := range dirs {
		found, err := mutants(filepath.Clean(dir))
		check(err)
		all = append(all, found...)
	}
	var s [32]byte
	copy(s[:], *seed)
	rand.New(rand.NewChaCha8(s)).Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	noticed, tried := map[string]int{}, map[string]int{}
	total, killed := 0, 0
	for _, m := range all {
		if *n > 0 && total == *n {
			break
		}
		if equivalent[m.name()] != "" {
			continue
		}
		dir := filepath.Dir(m.file)
		verdict, err := try(m)
		check(err)
		switch verdict {
		case "not built":
			continue
		case "noticed":
			noticed[dir]++
			killed++
		}
		tried[dir]++
		total++
		fmt.Printf("%-9s %s:%d %s: %s -> %s\n", verdict, m.file, m.line, m.within, m.old, m.new)
	}
	for _, dir := range dirs {
		if dir = filepath.Clean(dir); tried[dir] > 0 {
			fmt.Printf("%s: %d of %d noticed\n", dir, noticed[dir], tried[dir])
		}
	}
	fmt.Printf("%d of %d noticed, of %d possible; seed %s\n", killed, total, len(all), *seed)
	if float64(killed) < *least*float64(total) {
		os.Exit(1)
	}
}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(2)
	}
}

// reasons reads lines of a mutant's name, " # " and a reason.
func reasons(file string) (map[string]string, error) {
	b, err := os.ReadFile(file)
	out := map[string]string{}
	for _, line := range strings.Split(string(b), "\n") {
		if name, reason, ok := strings.Cut(line, " # "); ok {
			out[name] = reason
		}
	}
	return out, err
}

// mutants are all changes of a package's files.
func mutants(dir string) ([]mutant, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("no Go files in %s: %v", dir, err)
	}
	var out []mutant
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			return nil, err
		}
		for _, d := range tree.Decls {
			within, function := "", false
			if f, ok := d.(*ast.FuncDecl); ok {
				within, function = f.Name.Name, true
			}
			ast.Inspect(d, func(n ast.Node) bool {
				add := func(pos token.Pos, old, new string) {
					p := set.Position(pos)
					out = append(out, mutant{file, p.Offset, p.Offset + len(old), old, new, p.Line, within})
				}
				switch n := n.(type) {
				case *ast.ValueSpec:
					if !function {
						within = n.Names[0].Name
					}
				case *ast.StructType, *ast.ImportSpec: // tags are checked by what reads them
					return false
				case *ast.BasicLit:
					if grown, ok := grow(n); ok {
						add(n.Pos(), n.Value, grown)
					}
				case *ast.BinaryExpr:
					if hair(n.X) || hair(n.Y) {
						return true
					}
					for _, new := range others(n) {
						add(n.OpPos, n.Op.String(), new)
					}
				}
				return true
			})
		}
	}
	return out, nil
}

// grow is a number a little greater. Nought and one are most often places in lists, which do not compile or panic at once.
func grow(l *ast.BasicLit) (string, bool) {
	switch l.Kind {
	case token.INT:
		v, err := strconv.Atoi(l.Value)
		return strconv.Itoa(v + 1), err == nil && v > 1
	case token.FLOAT:
		v, err := strconv.ParseFloat(l.Value, 64)
		return strconv.FormatFloat(v*1.1, 'g', -1, 64), err == nil && v != 0 && !hair(l)
	}
	return "", false
}

// hair is whether a number only guards against rounding: nobody decides anything by it.
func hair(e ast.Expr) bool {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.FLOAT {
		return false
	}
	v, err := strconv.ParseFloat(l.Value, 64)
	return err == nil && v != 0 && v < 1e-6
}

// others are what stands in the place of an operator.
func others(b *ast.BinaryExpr) []string {
	turned := map[token.Token]string{
		token.LSS: ">=", token.LEQ: ">", token.GTR: "<=", token.GEQ: "<", token.EQL: "!=", token.NEQ: "==",
		token.LAND: "||", token.LOR: "&&", token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*",
	}
	limit := map[token.Token]string{token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">"}
	var out []string
	if new, ok := turned[b.Op]; ok {
		out = append(out, new)
	}
	if new, ok := limit[b.Op]; ok && (counts(b.X) || counts(b.Y)) {
		out = append(out, new)
	}
	return out
}

// counts reports whether an expression is a whole number: a limit between measured lengths is met by no booth exactly.
func counts(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.BasicLit:
		return e.Kind == token.INT && e.Value != "0"
	case *ast.CallExpr:
		f, ok := e.Fun.(*ast.Ident)
		return ok && f.Name == "len"
	}
	return false
}

// try runs the tests of the package with the change.
func try(m mutant) (string, error) {
	source, err := os.ReadFile(m.file)
	if err != nil {
		return "", err
	}
	tmp, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(tmp)
	changed := slices.Concat(source[:m.from], []byte(m.new), source[m.to:])
	path, err := filepath.Abs(m.file)
	if err != nil {
		return "", err
	}
	with := filepath.Join(tmp, "changed.go")
	overlay, _ := json.Marshal(map[string]map[string]string{"Replace": {path: with}})
	if err := os.WriteFile(with, changed, 0o644); err != nil {
		return "", err
	}
	if err := os.WriteFile(filepath.Join(tmp, "overlay.json"), overlay, 0o644); err != nil {
		return "", err
	}
	run := exec.Command("go", "test", "-short", "-failfast", "-vet=off", "-timeout", "90s", "-overlay", filepath.Join(tmp, "overlay.json"), "./"+filepath.Dir(m.file))
	said, err := run.CombinedOutput()
	switch {
	case err == nil:
		return "SURVIVED", nil
	case bytes.Contains(said, []byte("[build failed]")):
		return "not built", nil
	}
	return "noticed", nil
}
