package cli_test

import (
	"errors"
	"os/exec"
	"strconv"
)

func exitCode(err error) string {
	var e *exec.ExitError
	if errors.As(err, &e) {
		return strconv.Itoa(e.ExitCode())
	}
	return err.Error()
}
