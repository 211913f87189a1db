package rules

import "maps"

// merged gives what the last layer that speaks of a rule says. In a page this is without viper: see values of package scene.
func merged(layers []map[string]any) (get func(rule string) any, err error) {
	all := map[string]any{}
	for _, l := range layers {
		maps.Copy(all, l)
	}
	return func(rule string) any { return all[rule] }, nil
}
