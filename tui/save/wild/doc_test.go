// Package wild_test holds the tests of the store in real processes, on real file
// systems, under signals and tracers. The test binary starts itself again as a writer
// that works a piece as the program does; the test kills it, stops it, lets its calls
// fail, fills its disk or cuts its power, and then looks at what is left. What can be
// shown by a simulated file system is tested in package save itself.
package wild_test
