package main

import (
	"os"
	"syscall"
)

// endings are the signals that end the program. No terminal hangs up on it here.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM}
