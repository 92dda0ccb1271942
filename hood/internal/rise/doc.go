// Package rise works on paths that go up throughout, as the sections of boards
// do: how far out they stand at a height, and their parallels, cut off or run
// on where a line ends them. Lengths are mm; x is out, y is up.
package rise
