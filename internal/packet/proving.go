package packet

// proving sets the sizes that everything hangs on.
func (b *book) proving() {}
