// Package module joins ES modules (ECMA-262, section 16.2) to one script. A page that is opened from a folder loads no modules:
// its script must stand in it whole.
//
// A module here has its imports and exports where everybody sees them: imports by name in lines of their own at its head, and
// export before a function, class or const. What it exports never changes afterwards, and no two import each other.
package module

import (
	"fmt"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
)

// Set are texts of modules by their paths within internal. Imports are relative to these.
type Set map[string]string

// Read reads the modules in the folder scripts of a package. It panics where they cannot be read: they are inside the program.
func Read(pkg string, files fs.FS) Set {
	s := Set{}
	names, err := fs.Glob(files, "scripts/*.js")
	if err != nil || len(names) == 0 {
		panic(fmt.Sprintf("%s has no scripts: %v", pkg, err))
	}
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			panic(err)
		}
		s[path.Join(pkg, name)] = string(text)
	}
	return s
}

// With are the modules of both.
func (s Set) With(others Set) Set {
	all := maps.Clone(s)
	maps.Copy(all, others)
	return all
}

// Join is a module with all that it imports as one script: each module once, after those that it imports, in a scope of its own.
// It panics where a module is not as the package's comment says, as all of them are inside the program.
func (s Set) Join(entry string) string {
	j := joiner{set: s, met: map[string]*joined{}}
	j.add(entry)
	return "'use strict';\n(() => {\n" + j.out.String() + "})();\n"
}

var (
	imported = regexp.MustCompile(`^import \{([\w, ]+)\} from '([^']+)';\n$`)
	exported = regexp.MustCompile(`^export (?:const|function|async function|class) (\w+)`)
)

// joined is a module in the script: what its exports are called, and what they are.
type joined struct {
	name    string // empty while it is being added
	exports []string
}

type joiner struct {
	set   Set
	met   map[string]*joined
	added int
	out   strings.Builder
}

func (j *joiner) add(file string) *joined {
	if m, ok := j.met[file]; ok {
		if m.name == "" {
			panic(file + " imports itself, by others")
		}
		return m
	}
	text, ok := j.set[file]
	if !ok {
		panic("there is no module " + file)
	}
	m := &joined{}
	j.met[file] = m
	var body strings.Builder
	typing := false // in a comment for the checker of types; none is handed on, as pages go by post
	for line := range strings.Lines(text) {
		bare := strings.TrimSpace(line)
		switch typing = typing || bare == "/**"; {
		case typing:
			typing = bare != "*/"
			continue
		case strings.HasPrefix(bare, "//") || strings.HasPrefix(bare, "/**") && strings.HasSuffix(bare, "*/"):
			continue
		case strings.HasPrefix(line, "import "):
			line = j.taken(file, line)
		case strings.HasPrefix(line, "export "):
			e := exported.FindStringSubmatch(line)
			if e == nil {
				panic(fmt.Sprintf("%s: %q cannot be joined", file, line))
			}
			m.exports = append(m.exports, e[1])
			line = strings.TrimPrefix(line, "export ")
		}
		body.WriteString(line)
	}
	j.added++
	m.name = fmt.Sprintf("module%d", j.added)
	fmt.Fprintf(&j.out, "// %s\nconst %s = (() => {\n%sreturn {%s};\n})();\n", file, m.name, body.String(), strings.Join(m.exports, ", "))
	return m
}

// taken is what an import becomes, after what it imports is added.
func (j *joiner) taken(file, line string) string {
	i := imported.FindStringSubmatch(line)
	if i == nil {
		panic(fmt.Sprintf("%s: %q cannot be joined", file, line))
	}
	from := path.Join(path.Dir(file), i[2])
	m := j.add(from)
	for _, name := range strings.Split(i[1], ", ") {
		if !slices.Contains(m.exports, name) {
			panic(fmt.Sprintf("%s imports %s, which %s does not export", file, name, from))
		}
	}
	return fmt.Sprintf("const {%s} = %s;\n", i[1], m.name)
}
