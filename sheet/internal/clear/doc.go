// Package clear measures regions of lines and arcs against each other: how near
// one comes to another, whether loops cross, and the circles in them. Nothing in
// it has a radius that grows as an arc grows flat, and it knows of no sheet.
package clear
