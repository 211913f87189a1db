// Command engine is the program within the page, compiled to WebAssembly and run in a worker: it hands what the page asks to
// package within.
package main

import (
	"encoding/json"
	"fmt"
	"runtime/debug"
	"syscall/js"
	"time"

	"boothmock/internal/whole/within"
)

func main() {
	debug.SetMemoryLimit(600 << 20) // bytes: a page has no more on a tablet; then garbage is collected more often
	worker := js.Global().Get("engine")
	p := &within.Program{
		Home: "booths",
		News: func(at int) { worker.Call("news", at) },
		Turn: func() { time.Sleep(time.Millisecond) },
	}
	worker.Set("ask", js.FuncOf(func(_ js.Value, args []js.Value) any {
		go answer(p, args[0].String(), args[1], args[2])
		return nil
	}))
	worker.Call("ready")
	select {}
}

// answer hands an ask on, with the bytes that it carries, and what came of it to reply.
func answer(p *within.Program, text string, carried, reply js.Value) {
	var a within.Ask
	var r within.Reply
	var file []byte
	if err := json.Unmarshal([]byte(text), &a); err != nil {
		r.Wrong = fmt.Sprint("that cannot be read: ", err)
	} else {
		if carried.Truthy() {
			a.File = make([]byte, carried.Length())
			js.CopyBytesToGo(a.File, carried)
		}
		r, file = p.Answer(a)
	}
	out, err := json.Marshal(r)
	if err != nil {
		out, _ = json.Marshal(within.Reply{Wrong: err.Error()})
	}
	bytes := js.Null()
	if file != nil {
		bytes = js.Global().Get("Uint8Array").New(len(file))
		js.CopyBytesToJS(bytes, file)
	}
	reply.Invoke(string(out), bytes)
}
