package builder

import "caseleaf/content"

// eachCase works something out for every case, on all processors, and returns it
// in the order of the bank. The work must only read the site.
func eachCase[T any](cases []*content.Case, work func(*content.Case) T) []T {
	list := make([]T, len(cases))
	var jobs []func() error
	for i, c := range cases {
		jobs = append(jobs, func() error {
			list[i] = work(c)
			return nil
		})
	}
	_ = parallel(jobs, nil) // no job fails
	return list
}
