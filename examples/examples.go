// Package examples holds the example jobs as text: what `stowright new` starts from, and what
// whole-job tests read.
package examples

import "embed"

// FS has one folder for each example, with its job.yaml.
//
//go:embed */job.yaml
var FS embed.FS
