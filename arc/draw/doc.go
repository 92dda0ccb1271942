// Package draw holds drawings as values: layers of paths, regions, text and
// dimensions, in millimetres with y up. It writes nothing; the packages
// [example.com/sagitta/arc/svg] and [example.com/sagitta/arc/dxf] do.
//
// Dimensions and hatches are made here into plain lines, arrowheads and
// labels, so that an encoder computes no geometry.
package draw
