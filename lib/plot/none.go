package plot

// none is what a function returns beside an error.
var none Figure
