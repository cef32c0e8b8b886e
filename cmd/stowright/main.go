// Stowright plans workshop storage from a surveyed wall and the goods to store.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"

	"stowright/internal/cli"
)

// frugal is the memory, in bytes, near which it is collected more eagerly: small machines are to do.
const frugal = 160 << 20

func main() {
	debug.SetMemoryLimit(frugal)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args[1:], cli.Standard())
	stop()
	os.Exit(code)
}
