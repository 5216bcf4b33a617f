package figure

// Words says a phrase of the interface in the reader's language. Keys begin with draw-;
// arguments are texts and whole numbers, and a phrase that counts chooses its form by the
// first of them.
type Words interface {
	Say(key string, args ...any) string
}

// say asks for a phrase; without words the key stands for itself.
func say(w Words, key string, args ...any) string {
	if w == nil {
		return key
	}
	return w.Say(key, args...)
}

// heads says a row of table heads.
func heads(w Words, keys ...string) []string {
	out := make([]string, len(keys))
	for i, key := range keys {
		out[i] = say(w, key)
	}
	return out
}
