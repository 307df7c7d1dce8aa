// Package ordeal_test puts the store of pieces through what a simulated disk can do to
// it: the power cut at every call and inside every write, the program killed, both
// while a piece is being opened, every call failing in every way, and all of that one
// after the other. After each of them a witness opens what is left and holds the store
// to its word: a place that a person was shown as saved is there, and no place that
// was never worked.
//
// The tests count what they tried and assert the counts, so that none of it is lost
// unseen, and say them by package figures. Deliberate mistakes in the store prove that
// the tests can fail.
package ordeal_test
