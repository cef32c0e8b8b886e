package cli_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"stowright/internal/cli"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"stowright": func() { os.Exit(cli.Run(context.Background(), os.Args[1:], cli.Standard())) },
	})
}

// The scripts in testdata run the whole program as a maker would. $EXAMPLES is the folder of
// the shipped examples.
func TestScripts(t *testing.T) {
	examples, err := filepath.Abs("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:   "testdata",
		Setup: func(e *testscript.Env) error { e.Setenv("EXAMPLES", examples); return nil },
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			// code N command: the command must end with exit code N.
			"code": func(ts *testscript.TestScript, neg bool, args []string) {
				if neg || len(args) < 2 {
					ts.Fatalf("usage: code N command ...")
				}
				err := ts.Exec(args[1], args[2:]...)
				got := "0"
				if err != nil {
					got = exitCode(err)
				}
				if got != args[0] {
					ts.Fatalf("exit code %s, want %s", got, args[0])
				}
			},
		},
	})
}
