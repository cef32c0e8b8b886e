// Stowright plans workshop storage from a surveyed wall and the goods to store.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"

	"stowright/internal/cli"
)

// Memory is collected when what is in use has grown by spare percent, which saves more than a tenth of the time of a packet;
// near frugal, in bytes, more eagerly: small machines are to do.
const (
	spare  = 400
	frugal = 160 << 20
)

func main() {
	debug.SetMemoryLimit(frugal)
	debug.SetGCPercent(spare)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args[1:], cli.Standard())
	stop()
	os.Exit(code)
}
