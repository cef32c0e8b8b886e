// Stowright plans workshop storage from a surveyed wall and the goods to store.
package main

import (
	"context"
	"os"
	"os/signal"

	"stowright/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args[1:], cli.Standard())
	stop()
	os.Exit(code)
}
