package schema

import (
	"reflect"
	"sync"
)

// PerType holds what was found about types, each looked at once: a type never changes. The zero value is ready, and it
// is safe for use from several goroutines.
type PerType[V any] struct{ known sync.Map }

// Of gives what look finds about a type.
func (p *PerType[V]) Of(t reflect.Type, look func(reflect.Type) V) V {
	if v, ok := p.known.Load(t); ok {
		return v.(V)
	}
	v := look(t)
	p.known.Store(t, v)
	return v
}
