// Package note keeps the cells of a note as a graph and runs what an edit makes stale.
package note
