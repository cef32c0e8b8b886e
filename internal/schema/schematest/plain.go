// Package schematest holds what tests of schemas share.
package schematest

import (
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"stowright/internal/source"
)

// Plain gives a tree as an independent validator of JSON Schema takes it. A number that JSON does not write so stays the
// text that it is.
func Plain(n *source.Node) any {
	switch n.Kind {
	case source.Bool:
		return n.Text == "true" || n.Text == "yes"
	case source.Number:
		if v, err := jsonschema.UnmarshalJSON(strings.NewReader(strings.TrimPrefix(n.Text, "+"))); err == nil {
			return v
		}
		return n.Text
	case source.Text:
		return n.Text
	case source.List:
		r := []any{}
		for _, v := range n.Items {
			r = append(r, Plain(v))
		}
		return r
	case source.Map:
		r := map[string]any{}
		for _, e := range n.Entries {
			r[e.Key] = Plain(e.Value)
		}
		return r
	}
	return nil
}
