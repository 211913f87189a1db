// mutate asks whether the tests would notice: it changes one number, comparison or sign of the source at a time and runs the
// tests of that package, which must then fail.
//
//	go run .ci/mutate.go                    a sample by date, of the packages that the work rests on
//	go run .ci/mutate.go -n 0 ./internal/basis/way    everything in a package
//
// A number grows by a tenth (a whole number by one); a comparison is turned round, and one with a count takes in its limit
// or leaves it out; plus becomes minus, times becomes divided by, and becomes or. Changes that do not compile are not counted. Those that
// change nothing anybody could see are listed in .ci/equivalent with a reason.
//
// Building takes longer than testing, so the changes of a package are built into one test program, where the environment says which
// is on. What cannot be switched (a constant that other constants are made of) is built alone. "NOT RUN" survived: no test comes by.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
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
	at       edit   // the number, or the comparison or sum with both its sides
	constant int    // where the word const stands that declares it; 0: nowhere
	typ      string // of the expression that is replaced
	old, new string // the number or sign that stands there, and what does instead
	line     int
	within   string // the function or the declared name around it
}

// edit replaces the bytes from..to of a file.
type edit struct {
	from, to int
	with     string
}

// name is how .ci/equivalent names a mutant: without its line, which moves.
func (m mutant) name() string { return fmt.Sprintf("%s %s: %s -> %s", m.file, m.within, m.old, m.new) }

// parcel is a package, to be changed.
type parcel struct {
	dir     string
	set     *token.FileSet
	trees   map[string]*ast.File
	sources map[string][]byte
	imports types.Importer
	mutants []mutant
	tmp     string // a folder for what is built, one package after the other
}

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
	parcels := map[string]*parcel{}
	for _, dir := range dirs {
		p, err := read(filepath.Clean(dir))
		check(err)
		parcels[p.dir] = p
		all = append(all, p.mutants...)
	}
	var s [32]byte
	copy(s[:], *seed)
	rand.New(rand.NewChaCha8(s)).Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	sample, total := map[string][]mutant{}, 0
	for _, m := range all {
		p := parcels[filepath.Dir(m.file)]
		if (*n == 0 || total < *n) && equivalent[m.name()] == "" && p.compiles(m.file, m.at) {
			sample[p.dir] = append(sample[p.dir], m)
			total++
		}
	}
	tmp, err := os.MkdirTemp("", "mutate")
	check(err)
	killed := 0
	for _, dir := range dirs {
		if dir = filepath.Clean(dir); len(sample[dir]) > 0 {
			parcels[dir].tmp = tmp
			noticed, err := parcels[dir].try(sample[dir])
			if err != nil {
				os.RemoveAll(tmp)
			}
			check(err)
			fmt.Printf("%s: %d of %d noticed\n", dir, noticed, len(sample[dir]))
			killed += noticed
		}
	}
	check(os.RemoveAll(tmp))
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

// read finds all changes of a package.
func read(dir string) (*parcel, error) {
	list := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}\t{{.Export}}\t{{.Dir}}\t{{join .GoFiles \" \"}}", "os", "strconv", "sync", "./"+dir)
	list.Stderr = os.Stderr
	said, err := list.Output()
	if err != nil {
		return nil, err
	}
	p := &parcel{dir: dir, set: token.NewFileSet(), trees: map[string]*ast.File{}, sources: map[string][]byte{}}
	exports := map[string]string{}
	var row []string
	for line := range strings.Lines(string(said)) {
		row = strings.Split(strings.TrimSpace(line), "\t") // the last is the package itself
		exports[row[0]] = row[1]
	}
	p.imports = importer.ForCompiler(p.set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	var files []*ast.File
	for _, name := range strings.Fields(row[3]) {
		file := filepath.Join(dir, name)
		if p.sources[file], err = os.ReadFile(file); err != nil {
			return nil, err
		}
		if p.trees[file], err = parser.ParseFile(p.set, file, p.sources[file], 0); err != nil {
			return nil, err
		}
		files = append(files, p.trees[file])
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	if _, err := (&types.Config{Importer: p.imports}).Check(row[0], p.set, files, info); err != nil {
		return nil, err
	}
	for _, tree := range files {
		for _, d := range tree.Decls {
			p.find(d, info)
		}
	}
	return p, nil
}

// find adds the changes of one declaration.
func (p *parcel) find(d ast.Decl, info *types.Info) {
	within, function, constant := "", false, 0
	switch d := d.(type) {
	case *ast.FuncDecl:
		within, function = d.Name.Name, true
	case *ast.GenDecl:
		if d.Tok == token.CONST {
			constant = p.set.Position(d.Pos()).Offset
		}
	}
	local := func(pkg *types.Package) string {
		if strings.HasSuffix(p.dir, "/"+pkg.Name()) {
			return ""
		}
		return pkg.Name()
	}
	ast.Inspect(d, func(n ast.Node) bool {
		add := func(e ast.Expr, at token.Pos, old, new string) {
			place := p.set.Position(e.Pos())
			from, to, sign := place.Offset, p.set.Position(e.End()).Offset, p.set.Position(at).Offset
			source := p.sources[place.Filename]
			p.mutants = append(p.mutants, mutant{
				file: place.Filename, at: edit{from, to, string(source[from:sign]) + new + string(source[sign+len(old):to])}, constant: constant,
				typ: types.TypeString(types.Default(info.TypeOf(e)), local), old: old, new: new, line: p.set.Position(at).Line, within: within,
			})
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
				add(n, n.Pos(), n.Value, grown)
			}
		case *ast.BinaryExpr:
			if hair(n.X) || hair(n.Y) {
				return true
			}
			for _, new := range others(n) {
				add(n, n.OpPos, n.Op.String(), new)
			}
		}
		return true
	})
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

// edits are what makes a mutant one that the environment switches on.
func (m mutant) edits(source []byte, id int) []edit {
	form := "mutated_(%d, func() %s { return %s }, func() %s { return %s })"
	out := []edit{{m.at.from, m.at.to, fmt.Sprintf(form, id, m.typ, source[m.at.from:m.at.to], m.typ, m.at.with)}}
	if m.constant > 0 {
		out = append(out, edit{m.constant, m.constant + len("const"), "var"})
	}
	return out
}

// switchable is the file in which the switched changes are asked for. Without a change it notes which are come by.
const switchable = `

import ("os"; "strconv"; "sync")

var (
	mutant_, wanted_ = strconv.Atoi(os.Getenv("MUTANT"))
	seen_ sync.Map
)

func mutated_[T any](id int, as, instead func() T) T {
	if wanted_ == nil {
		if id == mutant_ {
			return instead()
		}
	} else if _, old := seen_.LoadOrStore(id, true); !old {
		f, _ := os.OpenFile(os.Getenv("MUTANTS_SEEN"), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
		f.WriteString(strconv.Itoa(id) + "\n")
		f.Close()
	}
	return as()
}
`

// changed is a file with edits; the same edit may stand there several times.
func (p *parcel) changed(file string, edits []edit) []byte {
	slices.SortFunc(edits, func(a, b edit) int { return a.from - b.from })
	var out []byte
	at := 0
	for _, e := range slices.Compact(edits) {
		out = append(append(out, p.sources[file][at:e.from]...), e.with...)
		at = e.to
	}
	return append(out, p.sources[file][at:]...)
}

// compiles asks the type checker.
func (p *parcel) compiles(file string, edits ...edit) bool {
	tree, err := parser.ParseFile(p.set, file, p.changed(file, edits), 0)
	if err != nil {
		return false
	}
	asks, err := parser.ParseFile(p.set, "mutated_.go", "package "+tree.Name.Name+switchable, 0)
	check(err)
	files := []*ast.File{tree, asks}
	for name, other := range p.trees {
		if name != file {
			files = append(files, other)
		}
	}
	_, err = (&types.Config{Importer: p.imports}).Check(p.dir, p.set, files, nil)
	return err == nil
}

// try says of each change whether the tests notice it, and how many they do.
func (p *parcel) try(all []mutant) (noticed int, err error) {
	tell := func(m mutant, verdict string) {
		if verdict == "noticed" {
			noticed++
		}
		fmt.Printf("%-9s %s:%d %s: %s -> %s\n", verdict, m.file, m.line, m.within, m.old, m.new)
	}
	for len(all) > 0 {
		var now, later []mutant
		edits := map[string][]edit{}
		for _, m := range all {
			mine := m.edits(p.sources[m.file], len(now)+1)
			switch {
			case !p.compiles(m.file, mine...):
				tests, err := p.build(map[string][]edit{m.file: {m.at}})
				if err != nil {
					return noticed, err
				}
				tell(m, tests(time.Minute, ""))
			case slices.ContainsFunc(edits[m.file], func(e edit) bool { return m.at.from < e.to && e.from < m.at.to }),
				!p.compiles(m.file, slices.Concat(edits[m.file], mine)...):
				later = append(later, m) // it stands within another
			default:
				edits[m.file] = append(edits[m.file], mine...)
				now = append(now, m)
			}
		}
		if len(now) > 0 {
			tests, err := p.build(edits)
			if err != nil {
				return noticed, err
			}
			seen := filepath.Join(p.tmp, "seen")
			began := time.Now()
			if tests(5*time.Minute, "MUTANTS_SEEN="+seen) != "SURVIVED" {
				return noticed, fmt.Errorf("%s: the tests fail without a change", p.dir)
			}
			limit := 30*time.Second + 3*time.Since(began)
			b, _ := os.ReadFile(seen)
			os.Remove(seen)
			for i, m := range now {
				id := strconv.Itoa(i + 1)
				if !slices.Contains(strings.Fields(string(b)), id) {
					tell(m, "NOT RUN")
				} else {
					tell(m, tests(limit, "MUTANT="+id))
				}
			}
		}
		all = later
	}
	return noticed, nil
}

// build builds the tests with the edits; what it gives runs them.
func (p *parcel) build(edits map[string][]edit) (func(limit time.Duration, env string) string, error) {
	here, err := os.Getwd()
	if err != nil {
		return nil, err
	}
	replace := map[string]string{}
	put := func(file string, b []byte) error {
		with := filepath.Join(p.tmp, filepath.Base(file))
		replace[filepath.Join(here, file)] = with
		return os.WriteFile(with, b, 0o644)
	}
	for file, e := range edits {
		err = errors.Join(err, put(file, p.changed(file, e)), put(filepath.Join(p.dir, "mutated_.go"), []byte("package "+p.trees[file].Name.Name+switchable)))
	}
	overlay, _ := json.Marshal(map[string]any{"Replace": replace})
	if err := errors.Join(err, os.WriteFile(filepath.Join(p.tmp, "overlay.json"), overlay, 0o644)); err != nil {
		return nil, err
	}
	program := filepath.Join(p.tmp, "tests")
	build := exec.Command("go", "test", "-c", "-vet=off", "-o", program, "-overlay", filepath.Join(p.tmp, "overlay.json"), "./"+p.dir)
	if said, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%s: %w\n%s", p.dir, err, said)
	}
	return func(limit time.Duration, env string) string {
		c := exec.Command(program, "-test.short", "-test.failfast", "-test.timeout", limit.String())
		c.Dir, c.Env = p.dir, append(os.Environ(), env)
		if c.Run() != nil {
			return "noticed"
		}
		return "SURVIVED"
	}, nil
}
