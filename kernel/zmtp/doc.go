// Package zmtp is the serving side of ZeroMQ's wire protocol (ZMTP 3.0, RFC
// 23/ZMTP at rfc.zeromq.org), as far as a kernel needs it: three kinds of
// socket that bind, over TCP or a Unix socket, with the NULL mechanism.
//
//	Router  receives from many clients and answers one of them by identity
//	XPub    publishes to every client that subscribed, and welcomes each
//	Rep     answers each request, in turn
//
// An echo server:
//
//	hb, err := zmtp.ListenRep("tcp://127.0.0.1:5555", zmtp.Options{})
//	if err != nil {
//		return err
//	}
//	defer hb.Close(time.Second)
//	for {
//		m, err := hb.Recv()
//		if err != nil {
//			return err // zmtp.ErrClosed after Close
//		}
//		hb.Reply(m, m.Frames...)
//	}
//
// Every connection is somebody else's program and may be slow, silent, broken
// or hostile, so each has goroutines of its own: a client that never finishes
// its handshake is dropped at a deadline, one that announces a frame of 2^62
// bytes gets memory only for the bytes that really arrive and none beyond a
// limit, and one that does not read is cut off when the messages waiting for
// it pass a limit in bytes. None of them delays another client. For a client
// that stays connected no message is ever dropped; there is no high-water mark
// that discards silently.
//
// It announces version 3.0, not 3.1: libzmq then sends subscriptions as
// messages, which every version of it does, and PING is answered all the same.
//
// What it cannot do: connect like a ZeroMQ socket (Dial is a plain connection
// without reconnecting, for tests and for trying a server out), encrypt, or
// authenticate. Who may speak to a kernel is decided one level up, by the
// signature of each message.
package zmtp
