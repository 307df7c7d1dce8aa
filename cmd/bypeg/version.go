package main

import (
	"fmt"
	"runtime/debug"
)

// release is set by a release build with -ldflags "-X main.release=v1.2.3".
var release string

// version is one line: name, version, revision, and the Go it was built with.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "bypeg (unknown build)"
	}
	v := release
	if v == "" {
		v = info.Main.Version
	}
	revision := "no revision"
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 7 {
			revision = s.Value[:7]
		}
	}
	return fmt.Sprintf("bypeg %s (%s, %s)", v, revision, info.GoVersion)
}
