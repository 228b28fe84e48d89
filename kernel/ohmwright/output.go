package main

import (
	"encoding/json"
	"fmt"

	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
	"ohmwright/kernel/render"
)

// outputs makes what a cell stores in its notebook, which is what the kernel
// shows of it when the note is run from the top. The same results give the same
// bytes: no times, counters or paths; so a result has no execution count, and an
// error is not followed by the empty display that the kernel needs to mend it.
func outputs(r *note.Result, source string) ([]notebook.Output, error) {
	var list []notebook.Output
	var items []note.Item
	for _, i := range r.Items {
		if p, ok := i.(*note.Printed); ok {
			list = append(list, notebook.Stream("stdout", p.Text))
			continue
		}
		items = append(items, i)
	}
	switch r.State {
	case note.Failed:
		e := r.Errors[0]
		list = append(list, notebook.ErrorOutput(string(e.Code), e.Error(), render.Traceback(r.Errors, source)))
		return list, nil
	case note.Waiting:
		bundle := map[string]any{}
		bundle["text/plain"] = render.ErrorText(r.Errors, source)
		bundle["text/html"] = render.ErrorHTML(r.Errors, source)
		o, err := notebook.DisplayData(bundle, nil)
		return append(list, o), err
	}
	for i, b := range render.Bundles(items, render.PictureBundle) {
		bundle := map[string]any{}
		for k, v := range b {
			bundle[k] = v
		}
		var meta map[string]any
		var err error
		if i == 0 {
			if meta, err = metadata(r); err != nil {
				return nil, err
			}
		}
		o, err := notebook.DisplayData(bundle, meta)
		if r.Constant() {
			o, err = notebook.ExecuteResult(nil, bundle, meta)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r.Label, err)
		}
		list = append(list, o)
	}
	return list, nil
}

func metadata(r *note.Result) (map[string]any, error) {
	text, err := json.Marshal(note.StoredRecord(r))
	if err != nil {
		return nil, err
	}
	var plain any
	if err := json.Unmarshal(text, &plain); err != nil {
		return nil, err
	}
	return map[string]any{note.RecordKey: plain}, nil
}

// store puts the results into the notebook's cells.
func (n *noteFile) store() error {
	for i, c := range n.cells {
		list, err := outputs(n.results[i], c.Source())
		if err != nil {
			return fmt.Errorf("%s: %w", n.path, err)
		}
		if err := c.SetOutputs(list); err != nil {
			return fmt.Errorf("%s: %w", n.path, err)
		}
		if err := c.SetExecutionCount(nil); err != nil {
			return fmt.Errorf("%s: %w", n.path, err)
		}
	}
	return nil
}
