package oserr

import "syscall"

// The numbers are those of the Windows system error codes.
var reasons = []reason{
	{syscall.Errno(112), "the disk is full"},
	{syscall.Errno(39), "the disk is full"},
	{syscall.Errno(1295), "your share of the disk is used up"},
	{syscall.Errno(19), "the disk can only be read, not written"},
	{syscall.Errno(32), "another program is using it"},
	{syscall.Errno(33), "another program is using it"},
	{syscall.Errno(206), "its name is too long for this system"},
	{syscall.Errno(123), "this system can't use such a name"},
	{syscall.Errno(267), "a part of its path is a file, not a folder"},
	{syscall.Errno(23), "the disk reports a fault"},
	{syscall.Errno(4), "too many files are open at once"},
}
