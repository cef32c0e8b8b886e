package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/alecthomas/kong"

	"stowright/internal/builtin"
	"stowright/internal/cutting/solve"
	"stowright/internal/job"
	"stowright/internal/source"
	"stowright/internal/source/json"
	"stowright/internal/source/yaml"
	"stowright/internal/stock"
)

// Exit codes.
const (
	Fine   = 0 // all is well
	Unfit  = 1 // the job must not be built as it stands, or cannot be read
	Misuse = 2 // the command was wrong
	World  = 3 // a file, a disk, a permission
)

// Streams are what the command reads and writes. Tests hand in their own.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Colour   bool // Out and Err are a terminal that may be coloured
	Terminal bool // Err is a terminal: progress is shown
}

const about = `Stowright turns a surveyed wall and the things to store into a family of cases that fits,
holds, cuts well, goes together and is level. Everything comes from one text file, the job.`

const exits = `
Exit status: 0 fine, 1 the job must not be built as it stands (a packet is still written, every
page marked so), 2 the command was wrong, 3 a file or the disk failed.`

type commands struct {
	New     newCmd     `cmd:"" help:"Start a job, from an example or from a few questions."`
	Check   checkCmd   `cmd:"" help:"Read a job and say what does not hold, worst first."`
	Packet  packetCmd  `cmd:"" help:"Make the plan set and the files beside it."`
	Phrases phrasesCmd `cmd:"" help:"List what a packet prints, for saying it in another language."`
	Cut     cutCmd     `cmd:"" help:"Cut a plain list of parts from sheets, without a job."`
	Schema  schemaCmd  `cmd:"" help:"Print the JSON Schema of a job file, for editors."`
	Help    helpCmd    `cmd:"" help:"Explain a command, a fitting, or a part of the job file."`
}

// leave is how kong's own exits (--help, a wrong flag) come back to Run.
type leave int

// Run runs one command and gives its exit code.
func Run(ctx context.Context, args []string, s Streams) (code int) {
	defer func() {
		if r := recover(); r != nil {
			l, ok := r.(leave)
			if !ok {
				panic(r)
			}
			code = int(l)
		}
	}()
	var c commands
	k, err := kong.New(&c,
		kong.Name("stowright"),
		kong.Description(about+"\n"+exits),
		kong.Writers(s.Out, s.Err),
		kong.Exit(func(n int) { panic(leave(n)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}),
	)
	if err != nil {
		panic("cli: " + err.Error())
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	parsed, err := k.Parse(args)
	if err != nil {
		fmt.Fprintf(s.Err, "stowright: %v\n", err)
		fmt.Fprintln(s.Err, "Try `stowright --help`, or `stowright help COMMAND`.")
		return Misuse
	}
	a := &app{Streams: s, ctx: ctx, model: k}
	err = parsed.Run(a)
	var wrong misuse
	switch {
	case err == nil:
		return a.code
	case errors.As(err, &wrong):
		fmt.Fprintf(s.Err, "stowright: %v\n", err)
		return Misuse
	default:
		fmt.Fprintf(s.Err, "stowright: %v\n", err)
		return World
	}
}

// misuse is an error of the one who typed the command.
type misuse string

func (m misuse) Error() string { return string(m) }

// app is what every command gets.
type app struct {
	Streams
	ctx   context.Context
	model *kong.Kong
	code  int
}

// mostProblems is how many mistakes are printed before the rest is counted.
const mostProblems = 40

// read reads a job and its libraries. When the job has mistakes they are printed, all at once,
// the exit code is set, and ok is false.
func (a *app) read(path string) (c job.Checked, ok bool, err error) {
	data, err := readAll(path, a.In)
	if err != nil {
		return c, false, err
	}
	name := path
	if path == "-" {
		name = "standard input"
	}
	tree, problems := parse(name, data)
	src := job.Sources{Job: tree}
	if shipped, p := json.Read("shipped tables", stock.Shipped()); len(p) > 0 {
		panic("cli: the shipped tables do not read: " + p[0].String())
	} else {
		src.Shipped = shipped
	}
	lost := false
	if tree != nil {
		for _, l := range job.Libraries(tree) {
			lib := l.Text
			if !filepath.IsAbs(lib) {
				lib = filepath.Join(filepath.Dir(path), filepath.FromSlash(lib))
			}
			b, err := readAll(lib, nil)
			if err != nil {
				why := err
				if p := (*fs.PathError)(nil); errors.As(err, &p) {
					why = p.Err
				}
				lost = true
				problems.Add(source.Problem{Span: l.Span, Text: fmt.Sprintf("this library cannot be read: %v", why), Hint: "it is looked for at " + lib + "; a path is from the job's own folder"})
				continue
			}
			n, p := parse(lib, b)
			problems.Add(p...)
			lost = lost || n == nil
			src.Libraries = append(src.Libraries, n)
		}
	}
	// A key written twice is no reason to be silent about the rest; a library that cannot be read is, for its
	// names would all seem unknown.
	if tree != nil && !lost {
		var p source.Problems
		c, p = job.Read(src, builtin.Fittings())
		problems.Add(p...)
	}
	if len(problems) == 0 {
		return c, true, nil
	}
	a.code = Unfit
	problems.Sort()
	if err := problems.Print(a.Err, mostProblems); err != nil {
		return c, false, err
	}
	return c, false, nil
}

func parse(name string, data []byte) (*source.Node, source.Problems) {
	if strings.HasSuffix(name, ".json") {
		return json.Read(name, data)
	}
	return yaml.Read(name, data)
}

// readAll reads a job file or a library, refusing what no job can be as large as.
func readAll(path string, in io.Reader) ([]byte, error) {
	if path != "-" {
		info, err := os.Stat(path)
		if err != nil {
			return nil, err
		}
		if info.IsDir() {
			return nil, misuse(path + " is a folder; name the job file in it, such as " + filepath.Join(path, "job.yaml"))
		}
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in = f
	}
	return io.ReadAll(io.LimitReader(bufio.NewReader(in), source.MaxBytes+1))
}

// effort turns its name into steps.
func effort(name string) solve.Effort {
	switch name {
	case "first":
		return solve.First
	case "normal":
		return solve.Normal
	case "deep":
		return solve.Deep
	}
	return solve.Quick
}

// bar shows how far long work is, on a terminal only; elsewhere it says nothing.
func (a *app) bar() (show func(string, float64), done func()) {
	if !a.Terminal {
		return func(string, float64) {}, func() {}
	}
	return func(what string, share float64) {
		fmt.Fprintf(a.Err, "\r\x1b[K%3.0f %% %s", share*100, what)
	}, func() { fmt.Fprint(a.Err, "\r\x1b[K") }
}

// Standard gives the streams of the process. Colour and progress are for terminals only, and
// colour not where NO_COLOR is set or the terminal is dumb.
func Standard() Streams {
	s := Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}
	plain := os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb"
	s.Terminal = terminal(os.Stderr) && os.Getenv("TERM") != "dumb"
	s.Colour = !plain && terminal(os.Stdout)
	return s
}

func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
