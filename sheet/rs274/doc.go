// Package rs274 writes a cut program as RS-274/NGC text and reads such text
// back into moves.
//
// The language is that of Kramer, Proctor and Messina, "The NIST RS274/NGC
// Interpreter, Version 3", NISTIR 6556, 2000; paragraph numbers in this package
// are of that report. [Encode] writes a small part of it: lines and arcs with
// the center given by I and J, absolute coordinates, feed per minute, the path
// of the cutter's axis (G40), one coordinate system (G54). Many controllers
// differ in details: try a program in air, and compare the codes of its first
// block with the manual of the controller.
//
// # Caution
//
// A program moves a machine that can maim. Run it in air above the sheet first
// with a hand on the stop; the header of every program repeats what to mind.
// The machine maker's instructions come before anything printed here.
package rs274
