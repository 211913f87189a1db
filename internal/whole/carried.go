//go:build whole

package whole

import _ "embed"

//go:embed carried/engine.wasm.gz
var engine []byte

//go:embed carried/wasm_exec.js
var exec string

//go:embed carried/terms.txt
var terms string

// Carried are the parts that this program carries; ok is false for one that was built without them.
func Carried() (p Parts, ok bool) { return Parts{engine, exec, terms}, true }
