package search

// Weighing is BM25F (Robertson, Zaragoza, Taylor: Simple BM25 extension to
// multiple weighted fields, CIKM 2004; Robertson, Zaragoza: The probabilistic
// relevance framework, Found Trends Inf Retr 2009;3:333–389):
//
//	tf = Σ over fields  weight · count / (1 − b + b · length / mean length)
//	impact = tf / (k1 + tf)
//
// The impact of a word in a document is computed here and kept as one of four
// levels; what the word is worth at all, its inverse document frequency, is
// computed by the script from the length of its list.
var (
	// fieldWeight is how much a word counts in each field.
	fieldWeight = [fields]float64{Title: 24, Named: 5, Sign: 3, Lesson: 2.5, Text: 1}
	// fieldB is how much the length of a field takes off: little where it is
	// long because the page has many names, more where it is long because
	// somebody wrote much.
	fieldB = [fields]float64{Title: 0.4, Named: 0.3, Sign: 0.6, Lesson: 0.6, Text: 0.7}
)

const (
	// k1 is how soon more of the same word stops counting; 1.2 is the usual value.
	k1 = 1.2
	// levels is how many values an impact can have.
	levels = 4
)

// levelFrom is the least tf / (k1 + tf) of the levels above 0: more than one
// mention in a story, a lesson or a sign, and what only a title gives.
var levelFrom = [levels - 1]float64{0.5, 0.72, 0.93}

// counts is how often a word stands in each field of a document; 255 and more
// are the same.
type counts [fields]uint8

// lengths is how many words each field of a document has.
type lengths [fields]uint32

// means are the mean lengths of the fields over the documents that have them.
type means [fields]float64

func meanLengths(docs []lengths) means {
	var sum, n means
	for _, d := range docs {
		for f, length := range d {
			if length > 0 {
				sum[f] += float64(length)
				n[f]++
			}
		}
	}
	for f := range sum {
		sum[f] /= max(1, n[f])
	}
	return sum
}

// level is the impact of a word in a document, from 0 to levels-1.
func (m means) level(c counts, d lengths) int {
	tf := 0.0
	for f, n := range c {
		if n > 0 {
			tf += fieldWeight[f] * float64(n) / (1 - fieldB[f] + fieldB[f]*float64(d[f])/max(1, m[f]))
		}
	}
	level := 0
	for level < levels-1 && tf/(k1+tf) >= levelFrom[level] {
		level++
	}
	return level
}
