// Package damage_test damages the files of a piece in every way there is, one at a
// time, and opens it: every bit, every length, every line. It goes through what the
// store offers to others and through a simulated disk, and has no code but tests.
//
// What must hold, whatever is damaged:
//
//   - The place is the last one. Only where the last record itself is hit may it be
//     the one before, and then somebody is asked.
//   - No place and no step is ever invented.
//   - A step that is missing from the history is told.
//   - The damaged bytes stay where they are.
//   - The work can go on, and what is saved then is there again.
package damage_test
