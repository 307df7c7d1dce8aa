// Package config reads the config file: what a maker has chosen once and for all, the
// keys among it. It is TOML with flat keys, written by hand.
//
// Whatever is wrong in it is told with its line and column, all that is wrong at once,
// and nothing of it keeps anybody from working: what is right counts, and for the rest
// the program's own choice does.
//
//	settings.go  what can be chosen, as a plain value for the rooms above
//	setting.go   each of those as data: its name, what it takes, how it is told
//	times.go     "45 min"
//	word.go      keys as people write them, and as the program gets them
//	keys.go      the tables of keys: no key has two meanings on one screen
//	load.go      the text and its faults
//
// The package opens no file by itself but in Read, and knows neither flags nor the
// environment: whoever calls it sets those over what it read.
package config
