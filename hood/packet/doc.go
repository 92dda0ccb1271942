// Package packet turns a spec file into a whole shop packet.
//
// [ReadSpec] reads strict JSON whose keys are those of [hood.Spec]; [Schema]
// gives them as a JSON Schema. [Make] builds the hood, lays its parts on
// sheets, writes each sheet's program, reads the text back and cuts a simulated
// sheet with it; nothing comes out unless both proofs hold. [WriteFolder] puts
// the files in a folder, all or none:
//
//	packet.json          the result in numbers: mm, kg, degrees
//	report.html          a page for the client, then those of the shop, to look at and print
//	bench.html           a sheet for each part, to print on A4 or Letter
//	cutlist.csv          RFC 4180
//	drawings/*.svg       section, front, side and plan
//	parts/<part>.svg     template at true size with a bar to check the print
//	parts/<part>.dxf     the same outline, openings, kerfs, pockets and marks
//	sheets/sheet-N.*     the layout as SVG and DXF, the program as NGC
//	model.glb            the bent, closed hood
//
// The same spec, options and release give the same bytes, unless a budget of
// time is set for the layout.
package packet
