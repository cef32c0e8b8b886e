package papertest

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var settingLine = regexp.MustCompile(`^(.+?): (.*?), (\d+) in (\d+) parts?\.`)

// boring holds the table of boring against the drawings of the parts: every working is made at
// one setting, at the depth that its drawing tells; and the table counts them right.
func (c *comparing) boring() {
	inches := c.set.Inches
	made := map[string]int{} // workings of each part that some setting makes
	for _, s := range c.set.Steps {
		m := settingLine.FindStringSubmatch(s.Text)
		if !s.Shop || m == nil || s.Tool == "" {
			continue
		}
		if n, _ := strconv.Atoi(m[4]); n != len(s.Marks) {
			c.fault("step %d counts %d parts and names %d", s.N, n, len(s.Marks))
		}
		want := func(o Op, p Part) bool {
			if o.Tool != s.Tool || !strings.EqualFold(o.For, m[1]) {
				return false
			}
			if d := settingDeep.FindStringSubmatch(m[2]); d != nil {
				v, err := size(d[1], inches)
				if err != nil || o.Depth < 0 || v-o.Depth < -0.06 || v-o.Depth > 0.06 {
					return false
				}
			}
			if strings.HasSuffix(m[2], "through") && o.Depth >= 0 {
				return false
			}
			if d := settingTaper.FindStringSubmatch(m[2]); d != nil {
				wide, err1 := size(d[1], inches)
				thin, err2 := size(d[2], inches)
				return err1 == nil && err2 == nil && o.Kind == "taper" && same1(p.Size[1]-min(o.Y, o.Depth), wide) && same1(p.Size[1]-max(o.Y, o.Depth), thin)
			}
			if d := settingWide.FindStringSubmatch(m[2]); d != nil {
				if v, err := size(d[1], inches); err != nil || v-min(o.L, o.W) > 0.06 || min(o.L, o.W)-v > 0.06 {
					return false
				}
			}
			if d := settingBoard.FindStringSubmatch(m[2]); d != nil {
				if v, err := size(d[1], inches); err != nil || v-p.Size[2] > 0.06 || p.Size[2]-v > 0.06 {
					return false
				}
			}
			return true
		}
		n := 0
		for _, p := range c.set.Parts {
			if !slices.Contains(s.Marks, p.Mark) {
				continue
			}
			k := 0
			for _, o := range p.Ops {
				if want(o, p) {
					k++
				}
			}
			if k == 0 {
				c.fault("step %d works on %s, whose drawing has none of it: %s", s.N, p.Mark, m[0])
			}
			made[p.Mark] += k
			n += k
		}
		if k, _ := strconv.Atoi(m[3]); k != n {
			c.fault("step %d counts %d, the drawings have %d: %s", s.N, k, n, m[0])
		}
	}
	for _, p := range c.set.Parts {
		if made[p.Mark] != len(p.Ops) {
			c.fault("%s: its drawing has %d workings, the settings make %d", p.Mark, len(p.Ops), made[p.Mark])
		}
	}
}

var (
	settingDeep  = regexp.MustCompile(`(` + figure + `) deep$`)
	settingWide  = regexp.MustCompile(`(` + figure + `) wide`)
	settingTaper = regexp.MustCompile(`taper, (` + figure + `) wide at one end and (` + figure + `) at the other$`)
	settingBoard = regexp.MustCompile(`boards of (` + figure + `)$`)
)
