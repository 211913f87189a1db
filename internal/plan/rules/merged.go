//go:build !js

package rules

import "github.com/spf13/viper"

// merged gives what the last layer that speaks of a rule says.
func merged(layers []map[string]any) (get func(rule string) any, err error) {
	v := viper.NewWithOptions(viper.KeyDelimiter("\x1f"))
	for _, l := range layers {
		if err := v.MergeConfigMap(l); err != nil {
			return nil, err
		}
	}
	return v.Get, nil
}
