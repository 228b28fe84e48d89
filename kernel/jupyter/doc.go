// Package jupyter is a Jupyter kernel without a language: it speaks the
// messaging standard (version 5.5) and leaves computing to a Core.
//
//	err := jupyter.Serve(ctx, connectionFile, core, jupyter.KernelInfo{
//		Implementation: "ohmwright",
//		Version:        "1.0",
//		Language:       jupyter.LanguageInfo{Name: "ohmwright", Version: "1.0",
//			Mimetype: "text/x-go", FileExtension: ".go"},
//	})
//
// It has three seams, and either end can be replaced by a fake:
//
//	wire     bytes: parse, verify and sign messages (wire.go, replay.go)
//	session  duty: what every kernel owes its clients, in one place, so that
//	         who writes a Core cannot get it wrong: busy and idle around
//	         every request, the execution counter, echo of the input,
//	         aborting what is queued behind an error, history, comms,
//	         interrupt, shutdown, welcome (session.go and one file a subject)
//	core     the language: Core and Output (core.go)
//
// Messages that are malformed, unsigned, replayed, too long or of an unknown
// type are dropped, requests with a wrong field are answered with an error that
// names it, and the kernel goes on; so it does after a panic in a Core. What was
// wrong is said on standard error, once.
//
// testdata/schema has a schema for every message that is sent; tests hold
// against it what their clients, in Go and in Python, receive.
//
// Install writes a kernelspec and starts the kernel once to see that a front
// end will be able to.
//
// What it cannot do: debugging, subshells, widgets (comms are refused), input
// from the person while a cell runs, and the handshake with a registration file
// instead of a connection file. None of them is announced, so front ends do not
// ask.
package jupyter
