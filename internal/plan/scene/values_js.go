package scene

import (
	"strconv"
	"strings"

	"github.com/go-viper/mapstructure/v2"
	"go.yaml.in/yaml/v3"
)

// decoder holds what a file says, by keys. In a page they go to mapstructure without viper, which there is a fifth of the program.
type decoder map[string]any

func readValues(root *yaml.Node, _ []byte) (decoder, error) {
	return decoder{top: wholeValue(root)}, nil
}

// decode reads what stands at a path into a struct.
func (v decoder) decode(path string, into any, how func(*mapstructure.DecoderConfig)) error {
	var at any = map[string]any(v)
	for _, key := range strings.Split(path, apart) {
		switch of := at.(type) {
		case map[string]any:
			at = of[key]
		case []any:
			n, err := strconv.Atoi(key)
			if err != nil {
				return err
			}
			at = of[n]
		}
	}
	c := &mapstructure.DecoderConfig{Result: into}
	how(c)
	d, err := mapstructure.NewDecoder(c)
	if err != nil {
		return err
	}
	return d.Decode(at)
}
