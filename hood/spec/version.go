package spec

import "strconv"

// Version is that of the spec files and packets of this release.
const Version = 2

// NeedVersion returns what a file of another version needs before it can be
// read, and nothing where the version is that of this release. Version 1 had y
// out of the wall and z up, so that its keys would be taken for others.
func NeedVersion(version int) string {
	switch version {
	case Version:
		return ""
	case 1:
		return "2, in which y is the height and z the way out of the wall: call z of every opening y, exchange y and z of the liner, call y of the duct z"
	}
	return strconv.Itoa(Version)
}
