// Command cutbench runs the cutting solver over files of open instances and prints one JSON line for
// each, and a last line of totals. The format of the files is described in docs/cutting.md.
package main

import (
	"bufio"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"runtime/debug"
	"runtime/pprof"
	"slices"
	"strings"
	"sync"
	"time"

	"stowright/internal/cutting"
	"stowright/internal/cutting/judge"
	"stowright/internal/cutting/solve"
	"stowright/internal/length"
	"stowright/internal/money"
)

// instance is one line of a file.
type instance struct {
	Name   string
	Sheets []struct{ W, H, Cost, Qty int64 }
	Items  []struct {
		W, H, Qty int64
		Value     *int64
		Max       *int64
	}
}

// result is one line of output.
type result struct {
	Name     string  `json:"name"`
	Sheets   int     `json:"sheets"`
	Cost     int64   `json:"cost"`
	Bound    int64   `json:"bound"`
	Seconds  float64 `json:"seconds"`
	OK       bool    `json:"ok"`
	Value    int64   `json:"value,omitempty"`
	Use      float64 `json:"use,omitempty"`
	Settings int     `json:"settings,omitempty"`
	Steps    int64   `json:"steps,omitempty"`
	Fault    string  `json:"fault,omitempty"`
	proved   bool
}

// frugal is the memory, in bytes, near which it is collected more eagerly.
const frugal = 160 << 20

// setup is what the flags say.
type setup struct {
	effort  solve.Effort
	tidy    int64 // where a limit is given in seconds
	proof   int   // the same
	seconds float64
	rotate  bool
	area    bool
	seed    uint64
	kerf    int64
	one     bool           // one sheet, of which the most is made
	now     func() float64 // seconds on the chosen clock
}

func main() {
	var (
		effort  = flag.String("effort", "quick", "first, quick, normal or deep")
		seconds = flag.Float64("seconds", 0, "limit for each instance, for comparison with published work only")
		rotate  = flag.Bool("rotate", false, "parts may be turned")
		jobs    = flag.Int("jobs", 1, "instances at a time, one thread each")
		cost    = flag.String("cost", "file", "what a sheet costs: its area, or as the file says")
		seed    = flag.Uint64("seed", 1, "seed of the search")
		every   = flag.Int("every", 1, "run only each n-th instance, to try something")
		from    = flag.Int("from", 0, "with --every: the first instance, counted from 0")
		only    = flag.String("only", "", "run only the instances named in this file, one a line")
		quiet   = flag.Bool("quiet", false, "print the totals only")
		kerf    = flag.Int64("kerf", 0, "kerf in the units of the file")
		clock   = flag.String("clock", "wall", "what seconds are: wall, or cpu = processor time of this process (with --jobs 1), for a machine that others share")
		steps   = flag.Int64("steps", 0, "limit in steps of the search in place of an effort, to compare variants")
		tidy    = flag.Int64("tidy", -1, "steps of the search for bigger offcuts and fewer settings; -1 = as the effort says, none with --seconds or --steps")
		count   = flag.Bool("settings", true, "count settings of the fence; false leaves them out of account, to see what counting them saves")
		proof   = flag.Int("proof", -1, "additions to prove that no plan is cheaper; -1 = as the effort says, 100 million a second with --seconds, none with --steps")
		one     = flag.Bool("knapsack", false, "cut one sheet only, of the greatest value; prints the value")
		profile = flag.String("profile", "", "write a CPU profile to this file")
	)
	flag.Parse()
	debug.SetMemoryLimit(frugal)
	efforts := map[string]solve.Effort{"first": solve.First, "quick": solve.Quick, "normal": solve.Normal, "deep": solve.Deep}
	if _, ok := efforts[*effort]; !ok || flag.NArg() == 0 || *jobs < 1 || *cost != "file" && *cost != "area" || *clock != "wall" && *clock != "cpu" {
		fmt.Fprintln(os.Stderr, "usage: cutbench [flags] FILE.jsonl ...")
		flag.PrintDefaults()
		os.Exit(2)
	}
	start := time.Now()
	set := setup{effort: efforts[*effort], seconds: *seconds, rotate: *rotate, area: *cost == "area", seed: *seed, kerf: *kerf, one: *one,
		now: func() float64 { return time.Since(start).Seconds() }}
	if *clock == "cpu" {
		set.now = worked
	}
	if *steps > 0 {
		set.effort = solve.Effort{Steps: *steps}
	}
	if *tidy >= 0 {
		set.effort.Tidy, set.tidy = *tidy, *tidy
	}
	if set.proof = int(*seconds * 100_000_000); *proof >= 0 {
		set.effort.Proof, set.proof = *proof, *proof
	}
	set.effort.AnySettings = !*count
	var list []instance
	for _, name := range flag.Args() {
		l, err := read(name)
		if err != nil {
			fatal(err)
		}
		list = append(list, l...)
	}
	if *every > 1 {
		var some []instance
		for i := *from; i < len(list); i += *every {
			some = append(some, list[i])
		}
		list = some
	}
	if *only != "" {
		b, err := os.ReadFile(*only)
		if err != nil {
			fatal(err)
		}
		names := strings.Fields(string(b))
		list = slices.DeleteFunc(list, func(in instance) bool { return !slices.Contains(names, in.Name) })
	}
	if *profile != "" {
		f, err := os.Create(*profile)
		if err == nil {
			err = pprof.StartCPUProfile(f)
		}
		if err != nil {
			fatal(err)
		}
	}
	results := make([]result, len(list))
	var wg sync.WaitGroup
	next := make(chan int)
	for range *jobs {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				results[i] = set.run(&list[i])
				if !*quiet || !results[i].OK {
					show(results[i])
				}
			}
		}()
	}
	go func() {
		for i := range list {
			next <- i
		}
		close(next)
	}()
	wg.Wait()
	pprof.StopCPUProfile()
	total := result{Name: "total", OK: true}
	for _, r := range results {
		total.Sheets += r.Sheets
		total.Cost += r.Cost
		total.Bound += r.Bound
		total.Seconds += r.Seconds
		total.Use += r.Use / float64(len(results))
		total.Settings += r.Settings
		total.Steps += r.Steps
		total.OK = total.OK && r.OK
	}
	proved := 0
	for _, r := range results {
		if r.proved {
			proved++
		}
	}
	show(struct {
		result
		Instances int `json:"instances"`
		Proved    int `json:"proved"`
	}{total, len(results), proved})
	if !total.OK {
		os.Exit(1)
	}
}

var shown sync.Mutex

// show prints one line; with several jobs the lines come in the order in which the instances are done.
func show(v any) {
	b, _ := json.Marshal(v)
	shown.Lock()
	defer shown.Unlock()
	fmt.Println(string(b))
}

func fatal(err error) {
	fmt.Fprintln(os.Stderr, "cutbench:", err)
	os.Exit(3)
}

func read(name string) ([]instance, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var list []instance
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<26)
	for sc.Scan() {
		if strings.TrimSpace(sc.Text()) == "" {
			continue
		}
		var in instance
		if err := json.Unmarshal(sc.Bytes(), &in); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		list = append(list, in)
	}
	return list, sc.Err()
}

// problem states an instance in the words of the solver, one unit of the file as one millimetre.
func (in *instance) problem(rotate, area bool, seed uint64, kerf int64) *cutting.Problem {
	p := &cutting.Problem{Seed: seed}
	for i, s := range in.Sheets {
		st := cutting.Stock{
			ID: fmt.Sprintf("s%d", i), L: length.Length(s.W) * length.MM, W: length.Length(s.H) * length.MM,
			Count: int(s.Qty), Price: money.Amount(s.Cost), Grain: cutting.GrainX,
			Kerf: cutting.Kerf{X: length.Length(kerf) * length.MM, Y: length.Length(kerf) * length.MM},
		}
		if area || s.Cost == 0 {
			st.Price = money.Amount(s.W * s.H)
		}
		p.Stocks = append(p.Stocks, st)
	}
	lay := cutting.Along
	if rotate {
		lay = cutting.Free
	}
	for i, it := range in.Items {
		p.Parts = append(p.Parts, cutting.Part{
			ID: fmt.Sprintf("p%d", i), L: length.Length(it.W) * length.MM, W: length.Length(it.H) * length.MM,
			Count: int(it.Qty), Lay: lay,
		})
	}
	return p
}

// knapsack makes a problem of one sheet, from which parts may be cut as often as the file allows.
func (in *instance) knapsack(p *cutting.Problem) {
	p.Stocks = p.Stocks[:1]
	p.Stocks[0].Count = 1
	for i, it := range in.Items {
		if it.Max != nil {
			p.Parts[i].Count = int(*it.Max)
		}
		if it.Value != nil {
			p.Parts[i].Value = *it.Value
		}
		most := (in.Sheets[0].W / min(it.W, it.H)) * (in.Sheets[0].H / min(it.W, it.H))
		p.Parts[i].Count = min(p.Parts[i].Count, int(most))
	}
}

func (set *setup) run(in *instance) result {
	p := in.problem(set.rotate, set.area, set.seed, set.kerf)
	if set.one {
		in.knapsack(p)
	}
	t0 := set.now()
	e := set.effort
	if set.seconds > 0 {
		e = solve.Effort{AnySettings: set.effort.AnySettings, Tidy: set.tidy, Proof: set.proof, Spent: func() float64 { return (set.now() - t0) / set.seconds }}
	}
	plan := solve.Solve(context.Background(), p, e, nil)
	r := result{Name: in.Name, Seconds: set.now() - t0, Sheets: plan.Totals.Sheets, Cost: plan.Totals.Cost,
		Bound: plan.Bounds.Cost, Use: float64(plan.Totals.Yield) / 100, Settings: plan.Totals.Settings, Steps: plan.Steps}
	faults := judge.Check(p, plan)
	r.OK = len(faults) == 0 && len(plan.Unplaced) == 0
	if set.one {
		r.OK = len(faults) == 0
		worth := map[string]int64{}
		for i := range p.Parts {
			worth[p.Parts[i].ID] = p.Parts[i].Worth()
		}
		for _, s := range plan.Sheets {
			for _, pc := range s.Pieces {
				r.Value += worth[pc.Part]
			}
		}
	}
	if len(faults) > 0 {
		r.Fault = faults[0].String()
	}
	if len(in.Sheets) == 1 {
		r.Bound = int64(plan.Bounds.Sheets)
	}
	r.proved = plan.Totals.Cost <= plan.Bounds.Cost
	r.Seconds = math.Round(r.Seconds*1e6) / 1e6
	return r
}
