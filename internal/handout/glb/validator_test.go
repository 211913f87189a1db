package glb

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/qmuntal/gltf"
)

// validate runs the Khronos Group's glTF validator over the file. It needs node, and `npm ci` run in .ci.
func validate(t *testing.T, file string) (report string, ok bool) {
	const ci = "../../../.ci"
	if _, err := os.Stat(filepath.Join(ci, "node_modules/gltf-validator")); err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal("the glTF validator is not installed: run npm ci in .ci")
		}
		t.Skip("the glTF validator is not installed: run npm ci in .ci")
	}
	out, err := exec.Command("node", filepath.Join(ci, "validate.mjs"), file).CombinedOutput()
	if _, ran := err.(*exec.ExitError); err != nil && !ran {
		t.Fatal(err)
	}
	return string(out), err == nil
}

func TestValidator(t *testing.T) {
	good := filepath.Join(t.TempDir(), "good.glb")
	if err := os.WriteFile(good, written(t, testBooth(t)), 0o644); err != nil {
		t.Fatal(err)
	}
	if report, ok := validate(t, good); !ok || !strings.Contains(report, " 0 errors, 0 warnings") {
		t.Errorf("not valid:\n%s", report)
	} else {
		t.Log(report)
	}

	// A wrong bound must be found, or the validator did not look.
	d := decode(t, written(t, testBooth(t)))
	d.Accessors[d.Meshes[0].Primitives[0].Attributes[gltf.POSITION]].Max[0]++
	bad := filepath.Join(t.TempDir(), "bad.glb")
	if err := gltf.SaveBinary(d, bad); err != nil {
		t.Fatal(err)
	}
	if report, ok := validate(t, bad); ok || !strings.Contains(report, "ACCESSOR_MAX_MISMATCH") {
		t.Errorf("a wrong bound passed:\n%s", report)
	}
}
