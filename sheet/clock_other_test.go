//go:build !unix

package sheet_test

import "time"

// processor is no clock where processor time cannot be asked for.
func processor(int) func() time.Time { return nil }
