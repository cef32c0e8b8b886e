package packet

import (
	"strings"

	"stowright/internal/shop"
)

// tools lists the tools of the whole work in one sentence, bits and hole saws by their sizes together.
func (b *book) tools() string {
	var out []string
	sizes := map[string][]string{} // by kind and unit
	var order []string
	for _, t := range shop.Tools(b.Steps, b.Assembly.Parts, b.Practice) {
		kind := ""
		for _, k := range []string{" flat bit", " bit", " hole saw"} {
			if strings.HasSuffix(t, k) && t[0] >= '0' && t[0] <= '9' {
				kind = k
				break
			}
		}
		if kind == "" {
			out = append(out, t)
			continue
		}
		size := strings.TrimSuffix(t, kind)
		i := strings.LastIndexByte(size, ' ')
		k := kind + size[i:]
		if sizes[k] == nil {
			order = append(order, k)
		}
		sizes[k] = append(sizes[k], size[:i])
	}
	text := strings.Join(out, ", ")
	for _, k := range order {
		i := strings.LastIndexByte(k, ' ')
		kind := strings.TrimSpace(k[:i])
		if len(sizes[k]) > 1 {
			kind += "s"
		}
		text += "; " + kind + " " + and(sizes[k]) + k[i:]
	}
	return text
}
