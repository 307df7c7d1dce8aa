package save

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
)

// # How a step reaches the disk
//
// One write carries the lines of a batch, one sync follows, and before and after it
// is checked that the open file is still the file of that name and has the size that
// it must have. Only then is the batch saved. What may go wrong, and why the next
// batch is safe:
//
//   - The write fails, or takes a part. The file keeps what it took. The next batch
//     goes into the same file behind a newline, under new numbers.
//   - The sync fails. The system may since believe that its memory agrees with the
//     disk; a second sync of that file would be reported as done and would have done
//     nothing. So the file is left for good, and the next batch goes into a new one.
//   - The file is not the one it was: nothing is written at all.
//
// A new segment has its header and its name on disk before its first record.

// journal appends records to the segments of a piece.
type journal struct {
	fs   FS
	dir  string
	seed string

	file   File   // the segment being written, nil where a new one is due
	name   string // of file
	size   int64  // of file, as it must be
	guard  bool   // a newline must come first
	headed bool   // its header and its name are on disk

	segment int    // the number of the last segment made or found
	next    uint64 // the number of the next record
	top     uint64 // the record that the next one follows

	owed   []byte // lines that are to be written once more, before any other: see open.go
	adrift uint64 // the number of the first of them

	tries [][]Record // what could not be saved since the last record that was
}

// maxNumber is more than anybody works, and leaves room for as much below the largest
// number that can be read back.
const maxNumber = 1 << 62

// errNoNumbers keeps a record from being written that could not be read back.
var errNoNumbers = errors.New("its journal has no numbers left for a step")

// append saves the records as one write and one sync, giving them their numbers. On
// an error none of them counts as saved, and their numbers are burnt. Lines that are
// owed go along, unless they and the records are more than a batch: no write may leave
// more lines in doubt than one batch has.
func (j *journal) append(records []Record) error {
	done := false
	defer func() {
		if !done { // a panic: what the file holds is not known
			j.leave()
		}
	}()
	var err error
	if bytes.Count(j.owed, []byte{'\n'})+len(records) > MaxBatch {
		err = j.pay()
	}
	if err == nil {
		err = j.ready()
	}
	if err == nil {
		lines := append(slices.Clip(j.owed), j.lines(records)...)
		j.tries = append(j.tries, slices.Clone(records))
		err = j.write(lines)
	}
	done = true
	if err != nil {
		return err
	}
	j.top, j.owed, j.tries = records[len(records)-1].Number, nil, nil
	return nil
}

// pay writes the lines that are owed.
func (j *journal) pay() error {
	if len(j.owed) == 0 {
		return nil
	}
	err := j.ready()
	if err == nil {
		err = j.write(j.owed)
	}
	if err == nil {
		j.owed = nil
	}
	return err
}

// lines writes the records out, each following the one before it.
func (j *journal) lines(records []Record) []byte {
	var b []byte
	prev := j.top
	j.sameTimes(records)
	records[0].void = j.givenUp(records[0])
	for i := range records {
		records[i].Number, records[i].Prev = j.next, prev
		prev = j.next
		j.next++
		from := len(b)
		b = records[i].appendLine(b, j.seed)
		_, records[i].sum, _ = splitSum(string(b[from:len(b)-1]), j.seed)
	}
	return b
}

// sameTimes gives records that are made again the times that they had at the first try: see
// sameTry.
func (j *journal) sameTimes(records []Record) {
	for _, try := range j.tries {
		for i := range min(len(try), len(records)) {
			if !records[i].sameStep(try[i]) {
				break
			}
			records[i].Time = try[i].Time
		}
	}
}

// givenUp are the sums of the records that could not be saved and are not made again: the
// disk may have got them all the same, and the next record says that they are void.
func (j *journal) givenUp(next Record) (sums []uint32) {
	for _, try := range j.tries {
		if try[0].sameStep(next) {
			continue
		}
		for _, r := range try {
			sums = append(sums, r.sum)
		}
	}
	return sums
}

// ready makes a segment that can take records, where there is none.
func (j *journal) ready() error {
	if j.file == nil {
		if err := j.create(); err != nil {
			return err
		}
	}
	if j.headed {
		return nil
	}
	if err := j.write([]byte(header(j.seed))); err != nil {
		return err
	}
	if err := j.fs.SyncDir(j.dir); err != nil {
		j.leave()
		return err
	}
	j.headed = true
	return nil
}

func (j *journal) create() error {
	name := segmentName(j.segment + 1)
	f, err := j.fs.Create(filepath.Join(j.dir, name))
	if errors.Is(err, fs.ErrExist) {
		return errors.Join(ErrChangedUnderneath, err)
	}
	if err != nil {
		return err
	}
	j.segment++
	j.file, j.name, j.size, j.guard, j.headed = f, name, 0, false, false
	return nil
}

// write puts b at the end of the segment and returns when it is on disk.
func (j *journal) write(b []byte) error {
	if err := j.unchanged(); err != nil {
		return err
	}
	if j.guard {
		b = append([]byte{'\n'}, b...)
	}
	n, err := j.file.Write(b)
	j.size += int64(n)
	if err == nil && n < len(b) {
		err = io.ErrShortWrite
	}
	if err != nil {
		j.afterFailedWrite(n, len(b))
		return err
	}
	j.guard = false
	if err := j.file.Sync(); err != nil {
		j.leave()
		return err
	}
	return j.unchanged()
}

// afterFailedWrite finds out what the file took: a failed write may have taken more
// than it says.
func (j *journal) afterFailedWrite(n, all int) {
	j.guard = true
	info, err := j.file.Stat()
	if err != nil {
		j.leave()
		return
	}
	if more := info.Size() - j.size; more > 0 && more <= int64(all-n) {
		j.size = info.Size()
	}
}

// unchanged tells whether the open file is the one that its name means, and has the
// size that it must have.
func (j *journal) unchanged() error {
	held, err := j.file.Stat()
	if err != nil {
		return err
	}
	named, err := j.fs.Stat(filepath.Join(j.dir, j.name))
	if errors.Is(err, fs.ErrNotExist) {
		return errors.Join(ErrChangedUnderneath, err)
	}
	if err != nil {
		return err
	}
	if !j.fs.SameFile(held, named) || held.Size() != j.size {
		return ErrChangedUnderneath
	}
	return nil
}

// leave gives the segment up: nothing is written to it or synced any more. An error
// of closing it would tell of nothing that counts as saved.
func (j *journal) leave() {
	if j.file != nil {
		_ = j.file.Close()
		j.file = nil
	}
}
