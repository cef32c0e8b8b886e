// Package cli is the command line: arguments, files, progress, exit codes. It is one of the
// few packages that touch the world; everything that is decided is decided in plan.
package cli
