package notebook_test

import (
	"fmt"

	"ohmwright/kernel/notebook"
)

func Example() {
	n, err := notebook.Parse([]byte(`{
  "nbformat": 4, "nbformat_minor": 5, "metadata": {"mine": 1.50},
  "cells": [
    {"id": "a", "cell_type": "code", "source": "x := 1", "metadata": {}, "execution_count": null, "outputs": []}
  ]
}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	one := 1
	if err := n.Cells()[0].SetExecutionCount(&one); err != nil {
		fmt.Println(err)
	}
	fmt.Printf("%s\n", n.Bytes())
	// Output:
	// {
	//   "nbformat": 4, "nbformat_minor": 5, "metadata": {"mine": 1.50},
	//   "cells": [
	//     {"id": "a", "cell_type": "code", "source": "x := 1", "metadata": {}, "execution_count": 1, "outputs": []}
	//   ]
	// }
}

func ExampleError() {
	_, err := notebook.Parse([]byte(`{"nbformat": 4, "cells": [
  {"cell_type": "code", "source": 7}
]}`))
	fmt.Println(err)
	// Output:
	// line 2, column 35: cell 1: source must be a text or a list of texts, found a number
}
