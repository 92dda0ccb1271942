//go:build !unix

package main

import "time"

// processor is the clock on the wall where processor time cannot be asked for.
func processor() time.Time { return time.Now() }
