// Package place nests polygons, with holes, in a strip of least length or in
// given sheets, by overlap minimization with guided local search.
package place
