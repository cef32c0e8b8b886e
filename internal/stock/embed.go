package stock

import _ "embed"

//go:generate go run ./gen

// shipped is the text of every file in shipped/, merged and written as JSON by gen, so that
// the core needs no YAML.
//
//go:embed shipped.json
var shipped []byte

// Shipped gives the shipped tables, practices and case patterns: one JSON job file for
// source/json, the lowest layer of every job.
func Shipped() []byte { return shipped }
