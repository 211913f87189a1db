//go:build !js

package scene

import (
	"bytes"
	"errors"

	"github.com/go-viper/mapstructure/v2"
	"github.com/spf13/viper"
	"go.yaml.in/yaml/v3"
)

// decoder holds what a file says, by keys.
type decoder struct{ *viper.Viper }

// readValues reads through viper. Its own reader would lose the places and the spelling of numbers; this one hands it the nodes.
func readValues(root *yaml.Node, source []byte) (decoder, error) {
	registry := viper.NewCodecRegistry()
	if err := registry.RegisterCodec("yaml", codec{root}); err != nil {
		return decoder{}, err
	}
	v := viper.NewWithOptions(viper.KeyDelimiter(apart), viper.WithDecoderRegistry(registry))
	v.SetConfigType("yaml")
	return decoder{v}, v.ReadConfig(bytes.NewReader(source))
}

// decode reads what stands at a path into a struct.
func (v decoder) decode(path string, into any, how func(*mapstructure.DecoderConfig)) error {
	return v.UnmarshalKey(path, into, how)
}

// codec hands viper the nodes that were read already.
type codec struct{ root *yaml.Node }

func (c codec) Decode(_ []byte, into map[string]any) error {
	into[top] = wholeValue(c.root)
	return nil
}

func (c codec) Encode(map[string]any) ([]byte, error) {
	return nil, errors.New("a scene is not written through viper")
}
