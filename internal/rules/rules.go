// Package rules holds the rules of the house as tests: which package may import
// which, what is documented, what stays inside. It has no code of its own beside
// them.
package rules
