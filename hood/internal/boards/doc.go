// Package boards makes the boards of a hood from its sizes: the curves of its
// panels, what each board is cut to, what holds it in its place, and what should
// meet once all stand there. It proves nothing and says nothing of the work.
package boards
