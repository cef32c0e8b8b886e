// Command gen writes shipped.json from the YAML files in shipped/. Run it by `go generate
// ./internal/stock`; its test fails when the two differ.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"stowright/internal/source"
	"stowright/internal/source/yaml"
)

func main() {
	data, err := text(os.DirFS("shipped"))
	if err == nil {
		err = os.WriteFile("shipped.json", data, 0o666)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

// text reads all YAML files of a folder in the order of their names, puts one over the
// other, and writes them as JSON, keys in the order of the files, one entry a line.
func text(folder fs.FS) ([]byte, error) {
	names, err := fs.Glob(folder, "*.yaml")
	if err != nil {
		return nil, err
	}
	var all *source.Node
	for _, name := range names {
		data, err := fs.ReadFile(folder, name)
		if err != nil {
			return nil, err
		}
		n, mistakes := yaml.Read(name, data)
		if len(mistakes) > 0 {
			var b bytes.Buffer
			if err := mistakes.Print(&b, 0); err != nil {
				return nil, err
			}
			return nil, errors.New(b.String())
		}
		all = source.Merge(all, n)
	}
	if all == nil {
		return nil, errors.New("no YAML files")
	}
	var b bytes.Buffer
	if err := write(&b, all, 0); err != nil {
		return nil, err
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

// lines is how deep values stand on lines of their own: sections, then entries.
const lines = 2

func write(b *bytes.Buffer, n *source.Node, depth int) error {
	quote := func(s string) error {
		var q bytes.Buffer
		e := json.NewEncoder(&q)
		e.SetEscapeHTML(false)
		err := e.Encode(s)
		b.Write(bytes.TrimRight(q.Bytes(), "\n"))
		return err
	}
	gap := func(i int) {
		if i > 0 {
			b.WriteByte(',')
		}
		switch {
		case depth < lines:
			b.WriteByte('\n')
		case i > 0:
			b.WriteByte(' ')
		}
	}
	switch n.Kind {
	case source.Null:
		b.WriteString("null")
	case source.Bool, source.Number:
		b.WriteString(n.Text)
	case source.Text:
		return quote(n.Text)
	case source.List:
		b.WriteByte('[')
		for i, v := range n.Items {
			if i > 0 {
				b.WriteString(", ")
			}
			if err := write(b, v, lines); err != nil {
				return err
			}
		}
		b.WriteByte(']')
	case source.Map:
		b.WriteByte('{')
		for i, e := range n.Entries {
			gap(i)
			if err := quote(e.Key); err != nil {
				return err
			}
			b.WriteString(": ")
			if err := write(b, e.Value, depth+1); err != nil {
				return err
			}
		}
		b.WriteByte('}')
	default:
		return fmt.Errorf("%v: cannot be written", n.Kind)
	}
	return nil
}
