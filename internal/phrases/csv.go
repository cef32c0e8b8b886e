package phrases

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
)

// head is the first row of a file of phrases; its second field names the other language.
const head = "en"

// Write gives phrases as a file of two columns (RFC 4180): the sentence, and in other words.
func Write(lang string, list []Phrase) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Write([]string{head, lang})
	for _, p := range list {
		w.Write([]string{p.Text, p.Other})
	}
	w.Flush()
	return out.Bytes()
}

// Read reads a file of phrases. Every row that is wrong is told, with its line.
func Read(file []byte) (lang string, list []Phrase, wrong []string) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(file, []byte("\ufeff"))))
	r.FieldsPerRecord = -1
	first := true
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return lang, list, append(wrong, err.Error())
		}
		line, _ := r.FieldPos(0)
		switch {
		case len(row) != 2:
			wrong = append(wrong, fmt.Sprintf("line %d: %d fields, not two: put a field with a comma in it in quotes", line, len(row)))
		case first && (row[0] != head || row[1] == ""):
			wrong = append(wrong, fmt.Sprintf("line %d: the first row is %q and the other language, as %q", line, head, "de"))
		case first:
			lang = row[1]
		default:
			p := Phrase{row[0], row[1]}
			if fault := p.Check(); fault != "" {
				wrong = append(wrong, fmt.Sprintf("line %d: %s", line, fault))
			}
			list = append(list, p)
		}
		first = false
	}
	if first {
		wrong = append(wrong, "line 1: the file is empty")
	}
	return lang, list, wrong
}
