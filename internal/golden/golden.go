// Package golden holds what comes out now against what was kept in a file, for tests of what no source outside can say: shapes chosen by eye,
// all that is found in booths full of faults. With -update the file is written anew.
package golden

import (
	"flag"
	"fmt"
	"hash/crc32"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write golden files anew")

// Kept is what a golden file holds, which is what comes out now if it is written anew.
func Kept(t *testing.T, file string, now []byte) string {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, now, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	was, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(was)
}

// Sums fails for each text that is new or other than it was, and for each that is gone. The file has a name and a sum of each; a name has no colon.
func Sums(t *testing.T, file string, texts map[string]string) {
	t.Helper()
	var now strings.Builder
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		fmt.Fprintf(&now, "%s: %08x\n", name, crc32.ChecksumIEEE([]byte(texts[name])))
	}
	was := slices.Collect(strings.Lines(Kept(t, file, []byte(now.String()))))
	for line := range strings.Lines(now.String()) {
		if name, _, _ := strings.Cut(line, ":"); !slices.Contains(was, line) {
			t.Errorf("%s is new or other than it was:\n%s", name, texts[name])
		}
	}
	for _, line := range was {
		if name, _, _ := strings.Cut(line, ":"); texts[name] == "" {
			t.Errorf("%s is gone", name)
		}
	}
}
