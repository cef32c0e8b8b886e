package packet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/cutlist"
)

// marks prints marks in the order in which they are told, as their names are; those of one owner under its code once, "C.left, right", and three or more that
// count on as one, "C.1–6front, block1–4".
func (b *book) marks(marks []string) string {
	var out, list []string
	for _, i := range cutlist.Told(marks) {
		list = append(list, marks[i])
	}
	for i := 0; i < len(list); {
		code, _, ok := strings.Cut(list[i], ".")
		n := i + 1
		for ok && n < len(list) && strings.HasPrefix(list[n], code+".") {
			n++
		}
		if !ok {
			out = append(out, list[i])
			i = n
			continue
		}
		var local []string
		for _, m := range list[i:n] {
			local = append(local, m[len(code)+1:])
		}
		out = append(out, code+"."+strings.Join(runs(local), ", "))
		i = n
	}
	return strings.Join(out, "; ")
}

// runs draws those marks of one owner together that differ in a number only and count on.
func runs(local []string) (out []string) {
	type kind struct{ before, after string }
	at := map[kind][]int{} // numbers of each kind
	split := func(m string) (kind, int) {
		if rest := strings.TrimLeft(m, "0123456789"); rest != m {
			n, err := strconv.Atoi(m[:len(m)-len(rest)])
			if err == nil && m[0] != '0' {
				return kind{"", rest}, n
			}
		}
		if rest := strings.TrimRight(m, "0123456789"); rest != m {
			n, err := strconv.Atoi(m[len(rest):])
			if err == nil && m[len(rest)] != '0' {
				return kind{rest, ""}, n
			}
		}
		return kind{m, ""}, -1
	}
	for _, m := range local {
		k, n := split(m)
		at[k] = append(at[k], n)
	}
	said := map[string]bool{}
	for _, m := range local {
		if said[m] {
			continue
		}
		k, n := split(m)
		from, to := n, n
		for n >= 0 && slices.Contains(at[k], from-1) {
			from--
		}
		for n >= 0 && slices.Contains(at[k], to+1) {
			to++
		}
		if n < 0 || to-from < 2 {
			out = append(out, m)
			continue
		}
		for i := from; i <= to; i++ {
			said[k.before+strconv.Itoa(i)+k.after] = true
		}
		out = append(out, fmt.Sprintf("%s%d–%d%s", k.before, from, to, k.after))
	}
	return out
}
