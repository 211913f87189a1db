//go:build !whole

package whole

// Carried are the parts that this program carries; ok is false for one that was built without them.
func Carried() (p Parts, ok bool) { return Parts{}, false }
