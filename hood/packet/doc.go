// Package packet turns a spec file into a whole shop packet: the design, its
// sheets, cut programs, drawings, model, cut list and report, as files in a
// folder.
package packet
