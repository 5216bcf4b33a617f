// Package spent tells benchmarks what a program used of its computer, apart from
// what others used besides. It serves tests only.
package spent
