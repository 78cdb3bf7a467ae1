//go:build !windows

package oserr

import "syscall"

var reasons = []reason{
	{syscall.ENOSPC, "the disk is full"},
	{syscall.EDQUOT, "your share of the disk is used up"},
	{syscall.EFBIG, "the file would be larger than this system allows"},
	{syscall.EROFS, "the disk can only be read, not written"},
	{syscall.EISDIR, "it is a folder"},
	{syscall.ENOTDIR, "a part of its path is a file, not a folder"},
	{syscall.ENAMETOOLONG, "its name is too long for this system"},
	{syscall.ELOOP, "its links lead round in a circle"},
	{syscall.EIO, "the disk reports a fault"},
	{syscall.EMFILE, "too many files are open at once"},
	{syscall.ENFILE, "too many files are open at once"},
	{syscall.ENXIO, "nobody reads from it"},
	{syscall.EPIPE, "its reader is gone"},
	{syscall.EBUSY, "another program is using it"},
	{syscall.EINVAL, "this system can't use such a file or name"},
}
