//go:build unix

package main

import (
	"syscall"
	"time"
)

// worked is the processor time that this process has used, in seconds: on a machine that others
// share it is what a plan really cost. It falls back to zero where it cannot be read.
func worked() float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()).Seconds()
}
