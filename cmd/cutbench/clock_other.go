//go:build !unix

package main

// worked is not known here.
func worked() float64 { return 0 }
