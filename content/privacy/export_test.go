package privacy

import "math/rand/v2"

// MadeIdentifier makes one identifier of the class, and the sentence around it,
// for the tests that put them into whole cases.
func MadeIdentifier(r *rand.Rand, class Class) (sentence, id string) {
	return makers[class](maker{r})
}
