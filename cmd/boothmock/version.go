package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
)

// release is what .ci/release calls the version that it builds, by -ldflags "-X main.release=…"; otherwise it is empty.
var release string

// version says which program this is: the release; or the module's version, which go install and go build know; or that it
// has none, as with go run.
func version() string {
	name := release
	if info, ok := debug.ReadBuildInfo(); ok && name == "" {
		name = info.Main.Version
	}
	if name == "" || name == "(devel)" {
		name = "without a number, built from source"
	}
	return fmt.Sprintf("%s (%s, %s/%s)", name, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}
