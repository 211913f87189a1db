// Package scenes carries the example scenes and their art inside the program, so that the demo needs no files.
package scenes

// Demo is the scene that stands in when none is named.
const Demo = "demo.yaml"
