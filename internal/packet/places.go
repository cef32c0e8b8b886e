package packet

import (
	"strings"

	"stowright/internal/view"
)

// drawn gives the words of a bay that slides, by its name in the plan; "" for other names.
func drawn(name string) string {
	for _, what := range []string{"drawer", "tray"} {
		if before, n, ok := strings.Cut(name, "-"+what+"-"); ok && strings.HasPrefix(before, "in") && !strings.Contains(n, "-") {
			return what + " " + n
		}
	}
	return ""
}

// place says where a finding is in words that this set has elsewhere: the mark of a part; else whose it is, by name and
// letter, the drawer or tray, and what lies there.
func (b *book) place(at string) string {
	list := strings.Split(at, "/")
	if last := list[len(list)-1]; b.part[last].Mark != "" {
		return last
	}
	if len(list) > 1 {
		list = list[1:]
	}
	var words []string
	for i, w := range list {
		switch board, ok := b.Catalogue.Board(w); {
		case i == 0 && b.whose(w) != "":
			words = append(words, b.whose(w))
		case i == 0 && ok && board.Name != "":
			words = append(words, board.Name)
		case drawn(w) != "":
			words = append(words, drawn(w))
		case i > 0 && (w == "in" || strings.HasPrefix(w, "in-")):
		case i > 0 && w == "on-hand":
			words = append(words, "on hand")
		case i > 0 && strings.HasPrefix(w, "spoilt-"):
			words = append(words, "the damaged one on hand")
		default:
			words = append(words, w)
		}
	}
	return strings.Join(words, ", ")
}

// whose gives the name and letter of an owner, "" for none of that id.
func (b *book) whose(id string) string {
	for _, o := range b.Assembly.Owners {
		if o.ID != id {
			continue
		}
		name := o.Name
		if name == "" {
			name = id
		}
		if code := view.Code(&b.Assembly, id); code != id && code != name {
			name += " (" + code + ")"
		}
		return name
	}
	return ""
}
