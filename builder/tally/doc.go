// Package tally counts.
package tally
